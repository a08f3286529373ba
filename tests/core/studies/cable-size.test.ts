import { describe, expect, test } from "vitest";
import { sizeFromGauge, sizeFromSquareMillimetres } from "../../../core/quantity/size.ts";
import { ampacityThere, chooseConductor, dropOf } from "../../../core/studies/cable-size.ts";
import type { ConductorQuestion } from "../../../core/studies/cable-size.ts";

const celsius = (degrees: number): number => degrees + 273.15;

const question = (changes: Partial<ConductorQuestion> = {}): ConductorQuestion => ({
  current: 100,
  volts: 144,
  loop: 2,
  critical: true,
  insulation: celsius(105),
  material: "XLPE",
  letThrough: 0,
  device: undefined,
  ...changes,
});
const chosen = (changes: Partial<ConductorQuestion>) => chooseConductor(question(changes)).answer;

describe("ampacity where it lies", () => {
  const there = (changes: Partial<ConductorQuestion>) => ampacityThere(sizeFromGauge(6), question(changes));

  // 33 CFR 183.425 table 5: 6 AWG, 105 C: 120 A; engine space 102; 4 to 6 in a bundle at 50 V and more 72; both 61.2.
  test.each([
    [{}, 120],
    [{ engineSpace: true }, 102],
    [{ bundled: 4 }, 72],
    [{ bundled: 6, engineSpace: true }, 61.2],
    [{ bundled: 6, volts: 12 }, 120],
  ])("%o", (changes, amperes) => {
    expect(there(changes)).toBeCloseTo(amperes, 9);
  });

  test("2/0 AWG of 105 C in an engine space, as published tables of boat cable round it: 280 A", () => {
    expect(Math.floor(ampacityThere(sizeFromGauge(-1), question({ engineSpace: true })) ?? 0)).toBe(280);
  });

  test("stated air of 50 C lowers it by the square root of what is left of the rise (NEC 310.15: 0.856)", () => {
    expect((there({ ambient: celsius(50) }) ?? 0) / 120).toBeCloseTo(0.856, 3);
    // The smaller of the two, not their product.
    expect((there({ ambient: celsius(50), engineSpace: true }) ?? 0) / 120).toBeCloseTo(0.85, 9);
    expect(there({ ambient: celsius(10) })).toBe(120);
    expect(there({ ambient: celsius(110) })).toBe(0);
  });
});

describe("what decides", () => {
  test("short and thick: ampacity, 245 A asks for 1 AWG of 105 C (table 5: 245 A)", () => {
    const { gauge, metric } = chosen({ current: 245 });
    expect(gauge).toMatchObject({ decides: "ampacity", ampacity: 245 });
    expect(gauge?.size.text).toBe("1 AWG");
    // A metric size is read as the largest gauge not above it: 50 mm2 lies above 1 AWG (42.4 mm2), 35 mm2 below.
    expect(metric?.size.text).toBe("50 mm2");
  });

  // 10 A over 30 ft out and back at 12 V: circular-mil formula with K 10.75 gives 10 AWG for 3 %, 14 AWG for 10 %.
  test("long and thin: voltage drop", () => {
    const feet30 = 30 * 0.3048;
    const long = { current: 10, volts: 12, loop: feet30 } as const;
    expect(chosen({ ...long, critical: true }).gauge).toMatchObject({ decides: "voltage-drop" });
    // Copper as hot as 105 C insulation gets loses a third more than the formula's constant allows for: one size more.
    expect(chosen({ ...long, critical: true }).gauge?.size.text).toBe("8 AWG");
    expect(chosen({ ...long, critical: false }).gauge?.size.text).toBe("14 AWG");
  });

  // 14 AWG, 5 m each way, 10 A: 1.007 V at 75 C by NEC chapter 9 table 8 (solid); 8.4 % of 12 V.
  test("the drop itself", () => {
    expect(dropOf(sizeFromGauge(14), 10, 10, celsius(75))).toBeCloseTo(1.007, 2);
    // 2/0 AWG, 3 m each way, 300 A: 0.5706 V by the same table (stranded, 2 % more than the area alone).
    expect(dropOf(sizeFromGauge(-1), 300, 6, celsius(75)) / 0.5706).toBeCloseTo(0.98, 2);
  });

  // 12 kA for 0.02 s at k 143: 11.87 mm2, so 16 mm2 (IEC 60364-5-54).
  test("a hard short circuit: the adiabatic limit", () => {
    const { metric } = chosen({ current: 10, insulation: celsius(90), letThrough: 12_000 ** 2 * 0.02 });
    expect(metric).toMatchObject({ decides: "short-circuit" });
    expect(metric?.size.text).toBe("16 mm2");
    const study = chooseConductor(question({ insulation: celsius(90), letThrough: 12_000 ** 2 * 0.02 }));
    const least = study.steps.find(({ name }) => name === "Least area for the short circuit");
    expect((least?.value ?? 0) * 1e6).toBeCloseTo(11.87, 1);
  });

  // 33 CFR 183.455(c): 10 AWG of 105 C (60 A) may have 90 A before it at 12 V, 60 A at 72 V.
  test("the device before it", () => {
    expect(chosen({ current: 1, volts: 12, device: 90 }).gauge).toMatchObject({ decides: "device" });
    expect(chosen({ current: 1, volts: 12, device: 90 }).gauge?.size.text).toBe("10 AWG");
    expect(chosen({ current: 1, volts: 72, device: 60 }).gauge?.size.text).toBe("10 AWG");
    expect(chosen({ current: 1, volts: 72, device: 70 }).gauge?.size.text).toBe("8 AWG");
  });

  // ISO 10133: 1 mm2 alone, 0.75 mm2 in a sheath; table 5 begins at 18 AWG (0.823 mm2).
  test("next to no current: the least size of a vehicle", () => {
    const { metric, gauge } = chosen({ current: 0.1 });
    expect(metric).toMatchObject({ size: { text: "1 mm2" }, decides: "least-size" });
    expect(gauge).toMatchObject({ size: { text: "16 AWG" }, decides: "least-size" });
    expect(chosen({ current: 0.1, sheathed: true }).gauge?.size.text).toBe("18 AWG");
  });
});

describe("what cannot be decided", () => {
  test("is named with the inputs that are lacking", () => {
    const study = chooseConductor(question({ current: undefined, loop: undefined, letThrough: undefined }));
    expect(study.open).toEqual([
      { what: "ampacity", lacks: ["current"] },
      { what: "voltage-drop", lacks: ["current", "loop"] },
      { what: "short-circuit", lacks: ["letThrough"] },
      { what: "device", lacks: ["device"] },
    ]);
    expect(study.answer.metric).toMatchObject({ decides: "least-size", drop: undefined });
  });

  test("beyond the table no single conductor is proposed", () => {
    expect(chosen({ current: 600 })).toEqual({ metric: undefined, gauge: undefined });
  });

  test("unstated insulation is read as 60 C and says so", () => {
    const study = chooseConductor(question({ insulation: undefined }));
    expect(study.inputs.find(({ name }) => name.startsWith("Temperature class"))).toMatchObject({
      value: celsius(60),
      from: "assumed",
    });
    expect(study.answer.gauge?.ampacity).toBe(105);
    expect(study.answer.gauge?.size.text).toBe("4 AWG");
  });
});

test("a larger current never asks for a thinner conductor", () => {
  let last = 0;
  for (let current = 1; current <= 440; current += 7) {
    const { metric } = chosen({ current });
    expect(metric?.size.area).toBeGreaterThanOrEqual(last);
    last = metric?.size.area ?? Infinity;
  }
  expect(last).toBe(sizeFromSquareMillimetres(120).area);
});
