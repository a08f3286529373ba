import { describe, expect, it } from "vitest";
import type { DisplayList, Point } from "../../../core/geometry/display.ts";
import { place, placeBox, placePoint, placeSide, unplacePoint } from "../../../core/geometry/placements.ts";
import type { Placement } from "../../../core/geometry/placements.ts";
import { textBox } from "../../../core/geometry/text-widths.ts";

const ALL: readonly Placement[] = [false, true].flatMap((mirrored) =>
  ([0, 90, 180, 270] as const).map((turn) => ({ x: 100, y: 50, turn, mirrored })),
);

function at(turn: Placement["turn"], mirrored = false): Placement {
  return { x: 0, y: 0, turn, mirrored };
}

describe("the eight placements", () => {
  // y points down, so a quarter turn clockwise takes the point on the right to below.
  it.each([
    [at(0), { x: 10, y: 5 }],
    [at(90), { x: -5, y: 10 }],
    [at(180), { x: -10, y: -5 }],
    [at(270), { x: 5, y: -10 }],
    [at(0, true), { x: -10, y: 5 }],
    [at(90, true), { x: -5, y: -10 }],
    [at(180, true), { x: 10, y: -5 }],
    [at(270, true), { x: 5, y: 10 }],
  ] as const)("%o", (placement, expected) => {
    expect(placePoint({ x: 10, y: 5 }, placement)).toEqual(expected);
  });

  it("are eight different ones, each undone exactly", () => {
    const seen = new Set<string>();
    for (const placement of ALL) {
      const placed = placePoint({ x: 10, y: 5 }, placement);
      seen.add(`${placed.x} ${placed.y}`);
      expect(unplacePoint(placed, placement)).toEqual({ x: 10, y: 5 });
    }
    expect(seen.size).toBe(8);
  });

  it("turn a pin's side as they turn the point in front of it", () => {
    const ahead: Readonly<Record<string, Point>> = {
      right: { x: 1, y: 0 },
      left: { x: -1, y: 0 },
      up: { x: 0, y: -1 },
      down: { x: 0, y: 1 },
    };
    for (const placement of ALL) {
      for (const side of ["left", "right", "up", "down"] as const) {
        const moved = placePoint(ahead[side] ?? { x: 0, y: 0 }, { ...placement, x: 0, y: 0 });
        expect(moved).toEqual(ahead[placeSide(side, placement)]);
      }
    }
  });

  it("keep a box upright and around the same points", () => {
    expect(placeBox({ x: 0, y: 0, width: 10, height: 4 }, at(90))).toEqual({ x: -4, y: 0, width: 4, height: 10 });
    expect(placeBox({ x: 2, y: 0, width: 10, height: 4 }, at(0, true))).toEqual({ x: -12, y: 0, width: 10, height: 4 });
  });
});

describe("a placed display list", () => {
  it("moves an arc's ends as it moves points on them", () => {
    const end = (degrees: number, centre: Point): Point => ({
      x: centre.x + 2 * Math.cos((degrees * Math.PI) / 180),
      y: centre.y + 2 * Math.sin((degrees * Math.PI) / 180),
    });
    for (const placement of ALL) {
      const [arc] = place([{ draw: "arc", x: 3, y: 1, r: 2, from: -90, to: 45 }], placement);
      if (arc?.draw !== "arc") throw new Error("an arc must stay an arc");
      expect(arc.to - arc.from).toBeCloseTo(135, 9);
      const expected = [-90, 45].map((degrees) => placePoint(end(degrees, { x: 3, y: 1 }), placement));
      const found = [end(arc.from, arc), end(arc.to, arc)];
      if (placement.mirrored) found.reverse();
      found.forEach((point, index) => {
        expect(point.x).toBeCloseTo(expected[index]?.x ?? Number.NaN, 9);
        expect(point.y).toBeCloseTo(expected[index]?.y ?? Number.NaN, 9);
      });
    }
  });

  it("does not change the list it was given, and keeps pens and fills", () => {
    const list: DisplayList = [
      {
        draw: "line",
        points: [
          [0, 0],
          [5, 0],
        ],
        pen: "traction",
        fill: "none",
      },
      { draw: "circle", x: 1, y: 2, r: 1, fill: "ink" },
    ];
    const before = JSON.stringify(list);
    const placed = place(list, { x: 10, y: 10, turn: 90, mirrored: true });
    expect(JSON.stringify(list)).toBe(before);
    expect(placed[0]).toEqual({
      draw: "line",
      points: [
        [10, 10],
        [10, 5],
      ],
      pen: "traction",
      fill: "none",
    });
    expect(placed[1]).toEqual({ draw: "circle", x: 8, y: 9, r: 1, fill: "ink" });
  });

  it("leaves every text readable from the foot or the right, in the room that its capitals had", () => {
    const capitals = (text: { x: number; y: number; anchor?: string | undefined; turn?: number | undefined }) => {
      const anchor = text.anchor === "end" || text.anchor === "middle" ? text.anchor : "start";
      const flat = textBox("F12", 2.5, 0, 0, anchor);
      const box = { x: flat.x, y: -2.5 * 0.735, width: flat.width, height: 2.5 * 0.735 };
      const turn = text.turn === 270 ? 270 : 0;
      return placeBox(box, { x: text.x, y: text.y, turn, mirrored: false });
    };
    for (const placement of ALL) {
      for (const anchor of ["start", "middle", "end"] as const) {
        const original = { draw: "text", x: 4, y: -3, text: "F12", size: 2.5, anchor } as const;
        const [placed] = place([original], placement);
        if (placed?.draw !== "text") throw new Error("a text must stay a text");
        expect([0, 270]).toContain(placed.turn);
        const expected = placeBox(capitals(original), placement);
        const found = capitals(placed);
        for (const key of ["x", "y", "width", "height"] as const) expect(found[key]).toBeCloseTo(expected[key], 9);
      }
    }
  });
});
