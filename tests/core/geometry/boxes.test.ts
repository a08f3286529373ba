import { describe, expect, it } from "vitest";
import {
  boxAround,
  centre,
  containsBox,
  containsPoint,
  inflate,
  moveBox,
  overlap,
  union,
} from "../../../core/geometry/boxes.ts";
import { add, distance, samePoint, snap, subtract } from "../../../core/geometry/points.ts";

const box = { x: 0, y: 0, width: 10, height: 5 };

describe("boxes", () => {
  it("around points and boxes", () => {
    expect(boxAround([])).toBeUndefined();
    expect(boxAround([{ x: 3, y: 4 }])).toEqual({ x: 3, y: 4, width: 0, height: 0 });
    expect(union([box, { x: -5, y: 2, width: 1, height: 10 }])).toEqual({ x: -5, y: 0, width: 15, height: 12 });
    expect(union([])).toBeUndefined();
  });

  it("overlap only where they share an area or come closer than the gap", () => {
    expect(overlap(box, { x: 10, y: 0, width: 5, height: 5 })).toBe(false);
    expect(overlap(box, { x: 9.9, y: 4.9, width: 5, height: 5 })).toBe(true);
    expect(overlap(box, { x: 12, y: 0, width: 5, height: 5 }, 2.5)).toBe(true);
    expect(overlap(box, { x: 0, y: 6, width: 5, height: 5 })).toBe(false);
  });

  it("grow, shrink to nothing, move, hold", () => {
    expect(inflate(box, 2)).toEqual({ x: -2, y: -2, width: 14, height: 9 });
    expect(inflate(box, -3)).toEqual({ x: 3, y: 2.5, width: 4, height: 0 });
    expect(moveBox(box, { x: 1, y: 2 })).toEqual({ x: 1, y: 2, width: 10, height: 5 });
    expect(centre(box)).toEqual({ x: 5, y: 2.5 });
    expect(containsPoint(box, { x: 10, y: 5 })).toBe(true);
    expect(containsPoint(box, { x: 10.1, y: 5 })).toBe(false);
    expect(containsBox(box, { x: 1, y: 1, width: 9, height: 4 })).toBe(true);
    expect(containsBox(box, { x: 1, y: 1, width: 9.5, height: 4 })).toBe(false);
  });
});

describe("points", () => {
  it("sum, difference, distance, grid", () => {
    expect(add({ x: 1, y: 2 }, { x: 3, y: 4 })).toEqual({ x: 4, y: 6 });
    expect(subtract({ x: 1, y: 2 }, { x: 3, y: 5 })).toEqual({ x: -2, y: -3 });
    expect(distance({ x: 0, y: 0 }, { x: 3, y: 4 })).toBe(5);
    expect(snap({ x: 3.7, y: -1.3 })).toEqual({ x: 2.5, y: -2.5 });
    expect(Object.is(snap({ x: -0.4, y: 0 }).x, 0)).toBe(true);
    expect(samePoint({ x: 1, y: 2 }, { x: 1, y: 2 })).toBe(true);
    expect(samePoint({ x: 1, y: 2 }, { x: 1, y: 3 })).toBe(false);
  });
});
