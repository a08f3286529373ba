import { describe, expect, test } from "vitest";
import { sizeFromGauge, sizeFromSquareMillimetres } from "../../../core/quantity/size.ts";
import { dropOf } from "../../../core/studies/cable-size.ts";
import { sizesForLoops } from "../../../core/studies/loop-sizes.ts";
import type { Loop } from "../../../core/studies/loop-sizes.ts";

const wire = (key: string, length: number, amperes: number) => ({ key, length, amperes, insulation: 378.15 });
const small = sizeFromSquareMillimetres(1);
const startOf = (keys: readonly string[]) => new Map(keys.map((key) => [key, small]));
const lostIn = ({ wires }: Loop<string>, sizes: ReturnType<typeof sizesForLoops<string>>) =>
  wires.reduce(
    (sum, { key, amperes, length, insulation }) => sum + dropOf(sizes.get(key) ?? small, amperes, length, insulation),
    0,
  );

describe("sizes for whole loops", () => {
  const feeder = wire("feeder", 2, 30);
  const lamp = { allowed: 1.2, wires: [feeder, wire("lamp", 5, 5)] };
  const radio = { allowed: 0.36, wires: [feeder, wire("radio", 1, 2)] };

  test("every loop keeps its voltage, and the shared feeder is raised for the strictest", () => {
    const sizes = sizesForLoops([lamp, radio], startOf(["feeder", "lamp", "radio"]));
    expect(lostIn(lamp, sizes)).toBeLessThanOrEqual(1.2 + 1e-5);
    expect(lostIn(radio, sizes)).toBeLessThanOrEqual(0.36 + 1e-5);
    expect(sizes.get("feeder")?.area).toBeGreaterThan(sizes.get("radio")?.area ?? Infinity);
  });

  test("no wire could be one size smaller: the loop would lose too much", () => {
    const sizes = sizesForLoops([radio], startOf(["feeder", "radio"]));
    // 30 A over 2 m: 6 mm2 loses 0.27 V at 105 C, 4 mm2 0.40 V.
    expect(sizes.get("feeder")?.text).toBe("6 mm2");
    expect(lostIn(radio, new Map([...sizes, ["feeder", sizeFromSquareMillimetres(4)]]))).toBeGreaterThan(0.36);
  });

  test("a loop that holds already changes nothing", () => {
    expect(sizesForLoops([{ allowed: 5, wires: [wire("a", 1, 1)] }], startOf(["a"])).get("a")).toEqual(small);
  });

  test("a loop too long for any conductor is told, not shortened", () => {
    const hopeless = { allowed: 0.1, wires: [wire("a", 100, 300)] };
    expect(sizesForLoops([hopeless], new Map([["a", sizeFromGauge(10)]])).get("a")).toBeUndefined();
  });
});
