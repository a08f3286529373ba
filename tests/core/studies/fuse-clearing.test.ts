import { describe, expect, test } from "vitest";
import { clearingTime, preArcingI2t } from "../../../core/studies/fuse-clearing.ts";
import type { ClearingDevice } from "../../../core/studies/fuse-clearing.ts";

const fuse = (changes: Partial<ClearingDevice> = {}): ClearingDevice => ({
  rating: 100,
  fuseClass: undefined,
  points: [],
  ...changes,
});
const CURVE = [
  { multiple: 1.25, time: 3600 },
  { multiple: 2, time: 60 },
  { multiple: 5, time: 0.3 },
  { multiple: 10, time: 0.01 },
];

describe("limits of a class", () => {
  // UL 248-14 fast fuses: 110 % at least 4 h, 135 % at most 60 min, 200 % at most 2 min.
  test.each([
    [1.1, 14_400, Infinity],
    [1.35, 0, 3600],
    [2, 0, 120],
    [3, 0, 120],
  ])("glass at %f times its rating", (multiple, least, most) => {
    expect(clearingTime(fuse({ fuseClass: "glass" }), 100 * multiple)).toMatchObject({ least, most });
  });

  // ISO 8820-3 type C: 200 % between 0.15 s and 5 s, 350 % between 0.04 s and 0.5 s.
  test("blade between the rows", () => {
    expect(clearingTime(fuse({ fuseClass: "blade" }), 200)).toMatchObject({ least: 0.15, most: 5 });
    expect(clearingTime(fuse({ fuseClass: "blade" }), 250)).toMatchObject({ least: 0.04, most: 5 });
    expect(clearingTime(fuse({ fuseClass: "blade" }), 350)?.source.known).toBe("memory");
  });

  test("no limits are published for a partial-range fuse", () => {
    expect(clearingTime(fuse({ fuseClass: "semiconductor-aR" }), 1000)).toBeUndefined();
  });
});

describe("the maker's curve", () => {
  test("at a point, between 110 % and 90 % of the current", () => {
    const time = clearingTime(fuse({ points: CURVE }), 200);
    // Straight lines on logarithmic scales: t is the power of the multiple that joins two points.
    const steep = Math.log(60 / 0.3) / Math.log(2.5);
    const flat = Math.log(3600 / 60) / Math.log(2 / 1.25);
    expect(time?.least).toBeCloseTo(60 * 1.1 ** -steep, 6);
    expect(time?.most).toBeCloseTo(60 * 0.9 ** -flat, 6);
  });

  test("beyond its last point no least time, and never later than that point", () => {
    expect(clearingTime(fuse({ points: CURVE }), 2000)).toMatchObject({ least: 0, most: 0.01 });
  });

  test("before its first point no greatest time, and never sooner than that point", () => {
    expect(clearingTime(fuse({ points: CURVE }), 112)).toMatchObject({ least: 3600, most: Infinity });
  });

  test("beyond its ends the class still holds", () => {
    const both = fuse({ points: CURVE, fuseClass: "glass" });
    expect(clearingTime(both, 136)).toMatchObject({ most: 3600 });
  });
});

test("a device carries its rating for ever", () => {
  expect(clearingTime(fuse(), 100)).toMatchObject({ least: Infinity, most: Infinity });
});

test("without a rating, or without curve and class, nothing is known", () => {
  expect(clearingTime(fuse({ rating: undefined, fuseClass: "blade" }), 500)).toBeUndefined();
  expect(clearingTime(fuse(), 500)).toBeUndefined();
});

test("I2t is current squared times time; below 10 ms melting alone is not known", () => {
  const slow = preArcingI2t(fuse({ fuseClass: "blade" }), 200);
  expect(slow).toMatchObject({ least: 200 ** 2 * 0.15, most: 200 ** 2 * 5 });
  expect(preArcingI2t(fuse({ points: CURVE }), 990)?.least).toBe(0);
});
