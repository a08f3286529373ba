import { describe, expect, test } from "vitest";
import { kOf, adiabaticLimit, temperatureAfter } from "../../../core/studies/adiabatic.ts";
import { buildNetwork } from "../../../core/network/build.ts";
import { drawing } from "../../harness/drawing.ts";
import type { Wire } from "../../../core/project/document.ts";

const celsius = (degrees: number): number => degrees + 273.15;

describe("k of a conductor", () => {
  // IEC 60364-5-54 and BS 7671, copper.
  test.each([
    ["PVC", 70, 115],
    ["XLPE", 90, 143],
    ["EPR", 90, 143],
    ["rubber", 60, 141],
    ["silicone", 180, 132],
  ])("%s at %i C", (material, temperature, k) => {
    const range = kOf(material, celsius(temperature));
    expect(range.low / k).toBeCloseTo(1, 2);
    expect(range.high).toBe(range.low);
    expect(range.missing).toEqual([]);
  });

  // Classes of automotive cable by the formula of IEC 60949: 105 to 250 C 134.8, 125 to 250 C 123.5.
  test("classes of vehicle cable", () => {
    expect(kOf("xlpe", celsius(105)).low).toBeCloseTo(134.8, 1);
    expect(kOf("XLPE", celsius(125)).low).toBeCloseTo(123.5, 1);
  });

  test("unstated: a range, and the fields that would settle it", () => {
    const nothing = kOf(undefined, undefined);
    expect(nothing.missing).toEqual(["insulation.material", "insulation.temperature"]);
    expect(nothing.low).toBe(kOf("PVC", celsius(105)).low);
    expect(nothing.high).toBe(143);
    const half = kOf(undefined, celsius(105));
    expect(half.low).toBeLessThan(kOf("PVC", celsius(105)).low + 1e-9);
    expect(half.high).toBeGreaterThan(kOf("XLPE", celsius(105)).high);
    expect(kOf("PVC", undefined).missing).toEqual(["insulation.temperature"]);
    expect(kOf("PVC", undefined).high).toBeCloseTo(115, 0);
  });
});

describe("how long a wire stands a current", () => {
  const wireOf = (options: Partial<Wire>) => {
    const project = drawing()
      .part("G1", "battery-block")
      .part("F1", "fuse")
      .wire("G1:+", "F1:1", { length: "1 m", ...options })
      .build();
    const conductor = buildNetwork(project).conductors[0];
    if (conductor === undefined) throw new Error("the drawing has no wire");
    return conductor;
  };

  // IEC 60364-5-54: 70 mm2, k 143, 10 kA: (143 x 70/10000)2 = 1.002 s.
  test("70 mm2 XLPE at 10 kA", () => {
    const wire = wireOf({ size: "70 mm2", insulation: { material: "XLPE", temperature: "90 °C" } });
    const limit = adiabaticLimit(wire, 10_000);
    expect(limit?.least).toBeCloseTo(1.002, 2);
    expect(limit?.most).toBe(limit?.least);
  });

  test("beyond 5 s there is no upper end", () => {
    const wire = wireOf({ size: "70 mm2", insulation: { material: "XLPE", temperature: "90 °C" } });
    expect(adiabaticLimit(wire, 1000)).toMatchObject({ most: Infinity });
  });

  test("unstated insulation names its fields; unstated size gives nothing", () => {
    const wire = wireOf({ size: "70 mm2" });
    expect(adiabaticLimit(wire, 10_000)?.missing).toEqual([
      { wire: "w1", field: "insulation.material" },
      { wire: "w1", field: "insulation.temperature" },
    ]);
    expect(adiabaticLimit(wireOf({}), 10_000)).toBeUndefined();
  });
});

describe("temperature after a pulse", () => {
  // The definition of k: (k S)2 brings the conductor from its first to its last temperature.
  test.each([
    [70, 160, 115],
    [90, 250, 143],
    [60, 200, 141],
    [85, 220, 134],
  ])("from %i C to %i C with k = %i", (initial, final, k) => {
    expect(temperatureAfter(10e-6, celsius(initial), (k * 10) ** 2) - 273.15).toBeCloseTo(final, -1);
  });

  test("no current, no heat", () => {
    expect(temperatureAfter(10e-6, celsius(30), 0)).toBeCloseTo(celsius(30), 9);
  });
});
