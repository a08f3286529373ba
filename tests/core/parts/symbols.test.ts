/**
 * Symbols on the 2.5 mm module of IEC 60617: every kind draws, every pin lies on the module and inside the keep-out
 * box, every terminal in exactly one view, and no two kinds look alike.
 */
import { describe, expect, it } from "vitest";
import type { Primitive } from "../../../core/geometry/display.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { PartKind } from "../../../core/parts/define.ts";
import { labelledBox, MODULE } from "../../../core/parts/symbol.ts";
import { readValues } from "../../../core/parts/values.ts";

/** The kind by default, and with each choice and a few counts of its own, one at a time. */
function variants(kind: PartKind): readonly Readonly<Record<string, string>>[] {
  return Object.entries(kind.parameters).reduce<Readonly<Record<string, string>>[]>(
    (found, [name, spec]) => {
      if (name.startsWith("finish")) return found;
      if ("choices" in spec) return [...found, ...spec.choices.map((word) => ({ [name]: word }))];
      if ("dimension" in spec && spec.dimension === "count") {
        const most = Math.min(spec.most ?? 4, 12);
        return [...found, { [name]: String(Math.max(spec.least ?? 1, 1)) }, { [name]: String(most) }];
      }
      return found;
    },
    [{}],
  );
}

const numbersOf = (item: Primitive): readonly number[] =>
  item.draw === "line" ? item.points.flat() : item.draw === "text" ? [item.x, item.y] : [item.x, item.y, item.r];

const onModule = (value: number): boolean => Math.abs(value / MODULE - Math.round(value / MODULE)) < 1e-9;

const CASES = [...KINDS.values()].flatMap((kind) => variants(kind).map((parameters) => ({ kind, parameters })));

describe("symbols", () => {
  it("has kinds to look at", () => {
    expect(CASES.length).toBeGreaterThan(60);
  });

  it.each(CASES)("$kind.kind with $parameters", ({ kind, parameters }) => {
    const values = readValues(kind, parameters);
    const views = kind.views(values);
    expect(views.flatMap((view) => view.pins.map((pin) => pin.terminal)).sort()).toEqual(
      kind
        .terminals(values)
        .map((terminal) => terminal.id)
        .sort(),
    );
    expect(new Set(views.map((view) => view.id)).size).toBe(views.length);
    for (const { symbol, pins, box, label } of views) {
      expect(symbol.length).toBeGreaterThan(0);
      for (const number of symbol.flatMap(numbersOf)) expect(number).toBeTypeOf("number");
      expect(symbol.flatMap(numbersOf).every(Number.isFinite)).toBe(true);
      for (const edge of [box.x, box.y, box.width, box.height]) expect(onModule(edge)).toBe(true);
      const inside = (x: number, y: number): boolean =>
        x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height;
      for (const pin of pins) {
        expect(onModule(pin.x) && onModule(pin.y)).toBe(true);
        expect(inside(pin.x, pin.y)).toBe(true);
      }
      expect(new Set(pins.map((pin) => `${String(pin.x)} ${String(pin.y)}`)).size).toBe(pins.length);
      for (const item of symbol) {
        if (item.draw === "line") for (const [x, y] of item.points) expect(inside(x, y)).toBe(true);
        else expect(inside(item.x, item.y)).toBe(true);
      }
      expect(inside(label.x, label.y)).toBe(true);
      // A wire leaves a pin outwards: one step in its direction, nothing drawn is in the way before the box ends.
      for (const pin of pins) {
        const side = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] }[pin.side] ?? [0, 0];
        const ahead = pins.some(
          (other) =>
            other !== pin &&
            (other.x - pin.x) * (side[1] ?? 0) === (other.y - pin.y) * (side[0] ?? 0) &&
            (other.x - pin.x) * (side[0] ?? 0) + (other.y - pin.y) * (side[1] ?? 0) > 0,
        );
        expect(ahead).toBe(false);
      }
    }
  });

  it("draws no two kinds alike", () => {
    const seen = new Map<string, string>();
    for (const kind of KINDS.values()) {
      const look = JSON.stringify(kind.views(readValues(kind, {})).map(({ symbol }) => symbol));
      expect(seen.get(look), `${kind.kind} looks like`).toBeUndefined();
      seen.set(look, kind.kind);
    }
    expect(seen.size).toBe(KINDS.size);
  });
});

describe("a box with many pins", () => {
  const names = ["one", "two", null, "a-very-long-terminal"];
  const box = labelledBox(names, [{ terminal: "out", name: "output" }], "Title", { below: ["case"] });

  it("places a pin every 5 mm, leaves gaps free and names each pin inside", () => {
    expect(box.pins.filter((pin) => pin.side === "left").map(({ terminal, x, y }) => [terminal, x, y])).toEqual([
      ["one", 0, 7.5],
      ["two", 0, 12.5],
      ["a-very-long-terminal", 0, 22.5],
    ]);
    const texts = box.symbol.flatMap((item) => (item.draw === "text" ? [item.text] : []));
    expect(texts).toEqual(expect.arrayContaining(["Title", "one", "a-very-long-terminal", "output", "case"]));
    expect(box.pins.find((pin) => pin.terminal === "case")?.side).toBe("down");
  });

  it("is wide enough for the names of both sides", () => {
    const right = box.pins.find((pin) => pin.terminal === "out");
    // 20 + 6 characters of 1.8 mm, at least half as wide as high.
    expect(right?.x).toBeGreaterThan(2 * 5 + 26 * 0.9);
  });
});
