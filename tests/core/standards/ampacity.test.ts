import { describe, expect, it } from "vitest";
import { gaugeOf, sizeFromGauge, sizeFromSquareMillimetres } from "../../../core/quantity/size.ts";
import {
  ambientFactor,
  ampacity,
  deratedAmpacity,
  engineSpaceFactor,
  INSULATION_CLASSES,
  insulationClass,
  racewayFactor,
  TABLE_5_GAUGES,
} from "../../../core/standards/ampacity.ts";

const KELVIN = 273.15;
const c = (celsius: number): number => celsius + KELVIN;

function gauge(name: string): number {
  const found = gaugeOf(`${name} AWG`);
  if (typeof found !== "number") throw new Error(`${name} is no gauge`);
  return found;
}

function amperes(name: string, celsius: number | undefined): number | undefined {
  return ampacity(sizeFromGauge(gauge(name)), celsius === undefined ? undefined : c(celsius))?.amperes;
}

describe("33 CFR 183.425 table 5", () => {
  it.each([
    ["18", 60, 10],
    ["10", 105, 60],
    ["6", 105, 120],
    ["2/0", 75, 265],
    ["2/0", 105, 330],
    ["4/0", 200, 510],
    ["1", 90, 210],
  ])("%s AWG, %d C: %d A", (name, celsius, expected) => {
    expect(amperes(name, celsius)).toBe(expected);
  });

  it("never falls from one gauge to the next thicker, nor from one class to the next hotter", () => {
    const rows = [...TABLE_5_GAUGES].sort((a, b) => b - a);
    for (const [index, row] of rows.entries()) {
      INSULATION_CLASSES.forEach((celsius, column) => {
        const here = ampacity(sizeFromGauge(row), c(celsius))?.amperes ?? 0;
        expect(here).toBeGreaterThan(0);
        const thinner = index === 0 ? 0 : (ampacity(sizeFromGauge(rows[index - 1] ?? 0), c(celsius))?.amperes ?? 0);
        const cooler =
          column === 0 ? 0 : (ampacity(sizeFromGauge(row), c(INSULATION_CLASSES[column - 1] ?? 60))?.amperes ?? 0);
        expect(here).toBeGreaterThanOrEqual(thinner);
        expect(here).toBeGreaterThanOrEqual(cooler);
      });
    }
  });

  // NEC table 310.17, single conductors in free air at 30 C: an independent table for the same conductors.
  it.each([
    ["6", 80, 95],
    ["4", 105, 125],
    ["3", 120, 145],
    ["2", 140, 170],
    ["1", 165, 195],
    ["1/0", 195, 230],
    ["2/0", 225, 265],
    ["3/0", 260, 310],
    ["4/0", 300, 360],
  ])("%s AWG agrees with NEC 310.17 at 60 C and 75 C", (name, sixty, seventyFive) => {
    expect(amperes(name, 60)).toBe(sixty);
    expect(amperes(name, 75)).toBe(seventyFive);
  });

  // NEC table 400.5, flexible single-conductor cable not in contact with others, 90 C and 105 C column.
  it.each([
    ["8", 80],
    ["6", 105],
    ["4", 140],
    ["2", 190],
    ["1/0", 260],
    ["2/0", 300],
    ["3/0", 350],
    ["4/0", 405],
  ])("%s AWG lies within 15 %% of NEC 400.5 between its 90 C and 105 C columns", (name, published) => {
    expect((amperes(name, 90) ?? 0) / published).toBeLessThanOrEqual(1.001);
    expect((amperes(name, 105) ?? 0) / published).toBeGreaterThanOrEqual(0.999);
    expect((amperes(name, 105) ?? 0) / published).toBeLessThan(1.15);
  });
});

describe("what the table does not say", () => {
  it("unstated insulation is read as 60 C and marked", () => {
    expect(ampacity(sizeFromGauge(2), undefined)).toMatchObject({ amperes: 140, column: 60, approximate: true });
    expect(ampacity(sizeFromGauge(2), c(105))).toMatchObject({ amperes: 210, column: 105, approximate: false });
  });

  it("a class between two columns is read as the cooler one; below 60 C the table is silent", () => {
    expect(insulationClass(c(85))).toBe(80);
    expect(insulationClass(c(250))).toBe(200);
    expect(insulationClass(c(59))).toBeUndefined();
    expect(ampacity(sizeFromGauge(2), c(50))).toBeUndefined();
  });

  it("a metric size is read as the largest gauge not above its area", () => {
    expect(ampacity(sizeFromSquareMillimetres(35), c(105))).toMatchObject({
      amperes: 210,
      row: "2 AWG",
      atLeast: false,
    });
    expect(ampacity(sizeFromSquareMillimetres(1.5), c(105))).toMatchObject({ amperes: 25, row: "16 AWG" });
  });

  it("below 18 AWG nothing is said; above 4/0 only what it carries at least", () => {
    expect(ampacity(sizeFromGauge(20), c(105))).toBeUndefined();
    expect(ampacity(sizeFromSquareMillimetres(0.75), c(105))).toBeUndefined();
    expect(ampacity(sizeFromSquareMillimetres(120), c(105))).toMatchObject({ amperes: 445, atLeast: true });
    expect(ampacity(sizeFromGauge(-3), c(105))).toMatchObject({ amperes: 445, atLeast: false });
  });
});

describe("where it lies", () => {
  const here = { engineSpace: false, bundled: 1, volts: 144 };
  const six = sizeFromGauge(6);

  it("6 AWG 105 C: 120 A, 102 in an engine space, 72 in a bundle of 4 to 6 at 50 V or more, 61.2 in both", () => {
    expect(deratedAmpacity(six, c(105), here)?.amperes).toBeCloseTo(120, 9);
    expect(deratedAmpacity(six, c(105), { ...here, engineSpace: true })?.amperes).toBeCloseTo(102, 9);
    expect(deratedAmpacity(six, c(105), { ...here, bundled: 5 })?.amperes).toBeCloseTo(72, 9);
    expect(deratedAmpacity(six, c(105), { ...here, bundled: 4, engineSpace: true })?.amperes).toBeCloseTo(61.2, 9);
  });

  // Boat cable of 105 C inside engine spaces, a published table of its own (rounded down to amperes).
  it.each([
    ["18", 17],
    ["16", 21],
    ["14", 30],
    ["12", 38],
    ["10", 51],
    ["8", 68],
    ["6", 102],
    ["2", 178],
    ["2/0", 280],
    ["4/0", 378],
  ])("%s AWG in an engine space: the published boat-cable figure", (name, published) => {
    const found = deratedAmpacity(sizeFromGauge(gauge(name)), c(105), { ...here, engineSpace: true })?.amperes ?? 0;
    expect(Math.abs(found - published)).toBeLessThan(1);
  });

  it("bundles: 3, 4-6, 7-24, from 25; none below 50 V (Coast Guard compliance guideline)", () => {
    const factors = [2, 3, 4, 6, 7, 24, 25].map(
      (bundled) => deratedAmpacity(six, c(105), { ...here, bundled })?.factor,
    );
    expect(factors).toEqual([1, 0.7, 0.6, 0.6, 0.5, 0.5, 0.4]);
    expect(deratedAmpacity(six, c(105), { ...here, bundled: 30, volts: 12 })?.factor).toBe(1);
  });

  it("engine-space factors agree with the square-root formula from 30 C to 50 C within 0.01 up to 125 C", () => {
    for (const column of [60, 75, 80, 90, 105, 125] as const) {
      expect(Math.abs(engineSpaceFactor(column).factor - ambientFactor(c(column), c(50)))).toBeLessThan(0.01);
    }
    expect(engineSpaceFactor(105).source.known).toBe("seen");
    expect(engineSpaceFactor(60).source.known).toBe("memory");
  });

  it("ambient 30 to 50 C: 0.816, 0.745, 0.577, 0.856, 0.889 (square-root formula); nothing left at the insulation's limit", () => {
    const found = [90, 75, 60, 105, 125].map((celsius) => ambientFactor(c(celsius), c(50)));
    [0.816, 0.745, 0.577, 0.856, 0.889].forEach((expected, index) => expect(found[index]).toBeCloseTo(expected, 3));
    expect(ambientFactor(c(60), c(70))).toBe(0);
  });

  it("raceway adjustment of NEC 310.15(C)(1)", () => {
    const found = [3, 4, 6, 7, 9, 10, 20, 21, 30, 31, 41].map(racewayFactor);
    expect(found).toEqual([1, 0.8, 0.8, 0.7, 0.7, 0.5, 0.5, 0.45, 0.45, 0.4, 0.35]);
  });
});
