import { describe, expect, it } from "vitest";
import { fuseAmbientFactor } from "../../../core/standards/fuse-classes.ts";
import { endsOverloads, fuseTime, fuseTimeSource } from "../../../core/standards/fuse-times.ts";
import { largestRating, positionLimit, ratingForLoad, STANDARD_RATINGS } from "../../../core/standards/overcurrent.ts";
import { protectiveArea } from "../../../core/standards/protective-conductor.ts";
import {
  adiabaticArea,
  fusingCurrent,
  kFactor,
  K_FACTORS,
  meltingCurrent,
  withstandEnergy,
  withstandTime,
} from "../../../core/standards/short-circuit.ts";
import { gaugeArea, smallestSizeAbove } from "../../../core/quantity/size.ts";
import { CIRCULAR_MIL } from "../../../core/quantity/units.ts";

const KELVIN = 273.15;
const INCH = 0.0254;

function near(value: number, expected: number, tolerance = 1e-3): void {
  expect(Math.abs(value / expected - 1)).toBeLessThan(tolerance);
}

describe("rating and position (33 CFR 183.455)", () => {
  it("10 AWG 105 C, 60 A: at most 90 A at 12 V, 60 A at 72 V", () => {
    expect(largestRating(60, 12)).toBe(90);
    expect(largestRating(60, 72)).toBe(60);
  });

  it("from 50 V the next standard rating is allowed up to 150 %, where the ampacity is none itself", () => {
    expect(largestRating(61.2, 144)).toBe(70);
    expect(largestRating(60, 72, [40, 90])).toBe(90);
    expect(largestRating(60, 72, [40, 91])).toBe(60);
    expect(largestRating(1000, 72)).toBe(1000);
    expect(largestRating(50, 49.9)).toBe(75);
    expect(largestRating(50, 50)).toBe(50);
  });

  it("5 in bare passes, 30 in bare fails, 30 in sheathed passes, 45 in sheathed fails", () => {
    expect(5 * INCH).toBeLessThanOrEqual(positionLimit(false, false).length);
    expect(30 * INCH).toBeGreaterThan(positionLimit(false, true).length);
    expect(30 * INCH).toBeLessThanOrEqual(positionLimit(true, false).length);
    expect(45 * INCH).toBeGreaterThan(positionLimit(true, false).length);
    expect(72 * INCH).toBeCloseTo(positionLimit(true, true).length, 3);
    expect(positionLimit(true, true).source.known).toBe("memory");
    expect(positionLimit(false, false).source.known).toBe("seen");
  });

  it("a continuous load takes at most 80 % of the rating (NEC 210.20)", () => {
    expect(ratingForLoad(200)).toBe(250);
    expect(ratingForLoad(160)).toBe(200);
    expect(ratingForLoad(161)).toBe(225);
    expect(ratingForLoad(1e4)).toBeUndefined();
    expect([...STANDARD_RATINGS].sort((a, b) => a - b)).toEqual(STANDARD_RATINGS);
  });
});

describe("fuse times", () => {
  it("fast glass fuse at 200 %: open within 2 min (UL 248-14)", () => {
    expect(fuseTime("glass", 2)).toEqual({ least: 0, most: 120 });
    expect(fuseTime("glass", 1.1)).toEqual({ least: 4 * 3600, most: Number.POSITIVE_INFINITY });
  });

  it("between two rows the longer and the shorter limit hold, nothing is interpolated", () => {
    expect(fuseTime("blade", 2)).toEqual({ least: 0.15, most: 5 });
    expect(fuseTime("blade", 2.5)).toEqual({ least: 0.04, most: 5 });
    expect(fuseTime("blade", 20)).toEqual({ least: 0, most: 0.1 });
    expect(fuseTime("bolted-strip", 1)).toEqual({ least: 4 * 3600, most: Number.POSITIVE_INFINITY });
  });

  it("never promises a longer time for a larger current", () => {
    for (const fuse of ["glass", "blade", "bolted-strip"] as const) {
      let before = fuseTime(fuse, 0.5);
      for (let multiple = 0.6; multiple < 10; multiple += 0.1) {
        const now = fuseTime(fuse, multiple);
        expect(now.most).toBeLessThanOrEqual(before.most);
        expect(now.least).toBeLessThanOrEqual(before.least);
        expect(now.least).toBeLessThanOrEqual(now.most);
        before = now;
      }
    }
  });

  it("of traction and semiconductor fuses nothing is known without the maker's curve", () => {
    expect(fuseTime("traction-gR", 5)).toEqual({ least: 0, most: Number.POSITIVE_INFINITY });
    expect(fuseTime("semiconductor-aR", 5)).toEqual({ least: 0, most: Number.POSITIVE_INFINITY });
    expect(endsOverloads("semiconductor-aR")).toBe(false);
    expect(endsOverloads("traction-gR")).toBe(true);
    expect(fuseTimeSource("blade").known).toBe("memory");
  });
});

describe("short circuits", () => {
  it("5000 A for 0.1 s: 13.749 mm2 with k 115, 11.057 mm2 with k 143 (IEC 60364-5-54)", () => {
    near(adiabaticArea(5000, 0.1, 115) * 1e6, 13.749);
    near(adiabaticArea(5000, 0.1, 143) * 1e6, 11.057);
  });

  it("12 kA for 0.02 s, k 143: 11.87 mm2, so 16 mm2 (published cable-sizing example)", () => {
    const area = adiabaticArea(12000, 0.02, 143);
    near(area * 1e6, 11.87);
    expect(smallestSizeAbove(area, "mm2")?.text).toBe("16 mm2");
  });

  it("70 mm2, k 143, 10 kA: 1.002 s; k2S2 of 10 and 35 mm2", () => {
    near(withstandTime(70e-6, 10000, 143), 1.002);
    near(withstandEnergy(10e-6, 143), 2.0449e6);
    near(withstandEnergy(35e-6, 115), 1.6201e7);
  });

  it("the formula of IEC 60949 gives the k of IEC 60364-5-54", () => {
    for (const { initial, final, k } of Object.values(K_FACTORS)) {
      near(kFactor(initial + KELVIN, final + KELVIN), k, 0.01);
    }
    near(kFactor(70 + KELVIN, 160 + KELVIN), 115.0);
    near(kFactor(90 + KELVIN, 250 + KELVIN), 143.1);
    near(kFactor(60 + KELVIN, 200 + KELVIN), 140.9);
    near(kFactor(85 + KELVIN, 220 + KELVIN), 134.2);
  });

  it("Onderdonk: 10 AWG melts at 1492 A in 1 s and 472 A in 10 s; 2581 cmil in 5 s at 168.9 A", () => {
    near(meltingCurrent(gaugeArea(10), 1, 40 + KELVIN), 1492);
    near(meltingCurrent(gaugeArea(10), 10, 40 + KELVIN), 472);
    near(meltingCurrent(2581 * CIRCULAR_MIL, 5, 25 + KELVIN), 168.9);
  });

  it("Preece: 0.0524 in of copper fuses at 123 A (published example)", () => {
    near(fusingCurrent(0.0524 * INCH), 122.9);
  });
});

describe("bonds of cases", () => {
  // IEC 60364-5-54, table 54.2: as the live conductor up to 16 mm2, 16 mm2 up to 35 mm2, half beyond.
  it.each([
    [2.5, 2.5],
    [16, 16],
    [25, 16],
    [35, 16],
    [70, 35],
  ])("%f mm2 live asks for %f mm2", (live, bond) => {
    near(protectiveArea(live * 1e-6) * 1e6, bond);
  });
});

describe("fuses in hot air", () => {
  it("carry their rating up to 25 C and half a per cent less for each kelvin above", () => {
    expect(fuseAmbientFactor(20 + KELVIN)).toBe(1);
    near(fuseAmbientFactor(45 + KELVIN), 0.9);
    expect(fuseAmbientFactor(1000 + KELVIN)).toBe(0.1);
  });
});
