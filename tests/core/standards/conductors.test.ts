import { describe, expect, it } from "vitest";
import { parseSize } from "../../../core/quantity/parse.ts";
import type { ConductorSize } from "../../../core/quantity/size.ts";
import { sizeFromGauge, sizeFromSquareMillimetres } from "../../../core/quantity/size.ts";
import {
  COPPER_RESISTIVITY,
  IEC_60228,
  conductorResistance,
  copperFactor,
  resistanceSource,
} from "../../../core/standards/conductors.ts";
import { leastCircularMils, CRITICAL_DROP, OTHER_DROP } from "../../../core/standards/voltage-drop.ts";
import { LEAST_AREA_ALONE, LEAST_AREA_IN_SHEATH } from "../../../core/standards/small-conductors.ts";

const KELVIN = 273.15;
const THOUSAND_FEET = 304.8;

function size(text: string): ConductorSize {
  const reading = parseSize(text);
  if (!reading.ok) throw new Error(reading.why);
  return reading.size;
}

function near(value: number, expected: number, tolerance = 1e-3): void {
  expect(Math.abs(value / expected - 1)).toBeLessThan(tolerance);
}

describe("resistance of gauges", () => {
  it("10 AWG solid copper: 3.2770 ohm/km at 20 C, 3.9854 at 75 C (annealed copper standard, 0.00393 per K)", () => {
    near(conductorResistance(sizeFromGauge(10), 1000), 3.277);
    near(conductorResistance(sizeFromGauge(10), 1000, KELVIN + 75), 3.9854);
  });

  // NEC chapter 9 table 8, uncoated stranded copper at 75 C, ohm per 1000 ft. Strands lie at an angle: some 2 % more.
  it.each([
    ["6 AWG", 0.491],
    ["4 AWG", 0.308],
    ["3 AWG", 0.245],
    ["2 AWG", 0.194],
    ["1 AWG", 0.154],
    ["1/0 AWG", 0.122],
    ["2/0 AWG", 0.0967],
    ["3/0 AWG", 0.0766],
    ["4/0 AWG", 0.0608],
    ["250 kcmil", 0.0515],
  ])("%s is within 3 % below the stranded value of NEC chapter 9 table 8", (text, published) => {
    const ratio = conductorResistance(size(text), THOUSAND_FEET, KELVIN + 75) / published;
    expect(ratio).toBeGreaterThan(0.97);
    expect(ratio).toBeLessThan(1.001);
  });

  it("2/0: 0.0967 ohm/kft at 75 C becomes 0.07952 at 20 C and 0.10139 at 90 C (NEC formula, 0.00323 per K)", () => {
    near((0.0967 * copperFactor(KELVIN + 20)) / copperFactor(KELVIN + 75), 0.07952);
    near((0.0967 * copperFactor(KELVIN + 90)) / copperFactor(KELVIN + 75), 0.10139);
  });
});

describe("resistance of metric sizes (IEC 60228)", () => {
  it("50 mm2 flexible: 0.386 ohm/km at 20 C, 0.4694 at 75 C", () => {
    near(conductorResistance(size("50 mm2"), 1000), 0.386);
    near(conductorResistance(size("50 mm2"), 1000, KELVIN + 75), 0.4694);
  });

  // Factors that reduce a reading to 20 C, as published with IEC 60228 in its approximate form 250/(230 + t).
  it.each([
    [5, 1.064],
    [30, 0.962],
    [75, 0.82],
    [90, 0.781],
  ])("the published factor at %d C agrees within 0.5 %%, by which the two forms differ", (celsius, factor) => {
    near(1 / copperFactor(KELVIN + celsius), factor, 5e-3);
  });

  it("a flexible conductor never resists less than solid copper of its area, nor 15 % more", () => {
    for (const [mm2, class5, class2] of IEC_60228) {
      const solid = (COPPER_RESISTIVITY / (mm2 * 1e-6)) * 1000;
      expect(class5 / solid).toBeGreaterThan(1);
      expect(class5 / solid).toBeLessThan(1.16);
      expect(class5 / class2).toBeGreaterThan(0.99);
    }
  });

  it("a size between two rows is read on the safe side and falls as the area grows", () => {
    const areas = [0.03, 0.05, 0.3, 0.5, 0.6, 1, 2, 30, 35, 36, 240, 300];
    const resistances = areas.map((mm2) => conductorResistance(sizeFromSquareMillimetres(mm2), 1));
    for (const [index, resistance] of resistances.entries()) {
      if (index > 0) expect(resistance).toBeLessThan(resistances[index - 1] ?? 0);
      expect(resistance).toBeGreaterThan(COPPER_RESISTIVITY / ((areas[index] ?? 1) * 1e-6));
    }
  });

  it("names where it comes from", () => {
    expect(resistanceSource(size("35 mm2"))).toMatchObject({ known: "seen" });
    expect(resistanceSource(size("2/0")).text).toContain("B258");
  });
});

describe("voltage drop", () => {
  it("2/0, 3 m each way, 300 A at 144 V: 0.56 V (0.317 ohm/km at 75 C gives 0.5706 V)", () => {
    const drop = 300 * conductorResistance(size("2/0 AWG"), 6, KELVIN + 75);
    near(drop, 0.5706, 0.025);
    expect(drop / 144).toBeLessThan(CRITICAL_DROP);
  });

  it("14 AWG, 5 m each way, 10 A at 12 V: 8.4 %, above 3 % and below 10 % (NEC 10.07 ohm/km)", () => {
    const drop = 10 * conductorResistance(size("14 AWG"), 10, KELVIN + 75);
    near(drop, 1.007, 0.002);
    expect(drop / 12).toBeGreaterThan(CRITICAL_DROP);
    expect(drop / 12).toBeLessThan(OTHER_DROP);
  });

  it("10 A, 30 ft out and back, 12 V: 8958 cmil for 3 %, 2688 cmil for 10 % (small-craft formula, K = 10.75)", () => {
    near(leastCircularMils(10, 30, 0.36), 8958);
    near(leastCircularMils(10, 30, 1.2), 2688);
  });

  it("1 mm2 alone and 0.75 mm2 in a sheath are the least (ISO 10133:2012, 7.7)", () => {
    expect(LEAST_AREA_ALONE).toBe(1e-6);
    expect(LEAST_AREA_IN_SHEATH).toBe(0.75e-6);
  });
});
