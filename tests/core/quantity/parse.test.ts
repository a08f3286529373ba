import fc from "fast-check";
import { create, unitDependencies } from "mathjs";
import { describe, expect, it } from "vitest";
import type { Dimension } from "../../../core/quantity/kinds.ts";
import { parseQuantity, parseSize } from "../../../core/quantity/parse.ts";
import { printQuantity } from "../../../core/quantity/print.ts";
import { DIMENSION_WORDS } from "../../../core/quantity/units.ts";

const DIMENSIONS = Object.keys(DIMENSION_WORDS) as Dimension[];

function read(text: string, dimension: Dimension): { value: number; text: string } {
  const reading = parseQuantity(text, dimension);
  if (!reading.ok) throw new Error(`"${text}" was refused: ${reading.why}`);
  return reading;
}

function refused(text: string, dimension: Dimension): string {
  const reading = parseQuantity(text, dimension);
  if (reading.ok) throw new Error(`"${text}" was read as ${reading.text}`);
  return reading.why;
}

describe("typed quantities", () => {
  const rows: readonly (readonly [string, Dimension, number, string])[] = [
    ["12.6 V", "voltage", 12.6, "12.6 V"],
    ["12.6V", "voltage", 12.6, "12.6 V"],
    ["12,6", "voltage", 12.6, "12.6 V"],
    ["100 mV", "voltage", 0.1, "100 mV"],
    ["12 VDC", "voltage", 12, "12 V"],
    ["-0,3 V", "voltage", -0.3, "-0.3 V"],
    ["250", "current", 250, "250 A"],
    ["10 kA", "current", 1e4, "10 kA"],
    ["60 w", "power", 60, "60 W"],
    ["5 kohm", "resistance", 5000, "5 kohm"],
    ["5 Kohm", "resistance", 5000, "5 kohm"],
    ["5k", "resistance", 5000, "5 kohm"],
    ["5K", "resistance", 5000, "5 kohm"],
    ["4k7", "resistance", 4700, "4.7 kohm"],
    ["2R2", "resistance", 2.2, "2.2 ohm"],
    ["5 m", "resistance", 0.005, "5 mohm"],
    ["5M", "resistance", 5e6, "5 Mohm"],
    ["0.3 mΩ", "resistance", 0.0003, "0.3 mohm"],
    ["0.3 m\u2126", "resistance", 0.0003, "0.3 mohm"],
    ["10 000", "resistance", 10000, "10000 ohm"],
    ["4700 µF", "capacitance", 4.7e-3, "4700 uF"],
    ["4700 \u03bcF", "capacitance", 4.7e-3, "4700 uF"],
    ["4u7", "capacitance", 4.7e-6, "4.7 uF"],
    ["0.5 H", "inductance", 0.5, "0.5 H"],
    ["1.2 m", "length", 1.2, "1.2 m"],
    ["1,2m", "length", 1.2, "1.2 m"],
    ["178 mm", "length", 0.178, "178 mm"],
    ["4 ft", "length", 1.2192, "4 ft"],
    ["6′ 3″", "length", 1.905, "6 ft 3 in"],
    ["3/8 in", "length", 0.009525, "3/8 in"],
    ["1½ in", "length", 0.0381, "1 1/2 in"],
    ["25 ms", "time", 0.025, "25 ms"],
    ["100 h", "time", 360000, "100 h"],
    ["100 Ah", "charge", 360000, "100 Ah"],
    ["500 mAh", "charge", 1800, "500 mAh"],
    ["103.7 J", "energy", 103.7, "103.7 J"],
    ["5 kWh", "energy", 1.8e7, "5 kWh"],
    ["80 %", "ratio", 0.8, "80 %"],
    ["80", "ratio", 0.8, "80 %"],
    ["0.9", "ratio", 0.9, "90 %"],
    ["6", "count", 6, "6"],
    ["85 °C", "temperature", 358.15, "85 °C"],
    ["85 ℃", "temperature", 358.15, "85 °C"],
    ["-40 C", "temperature", 233.15, "-40 °C"],
    ["358.15 K", "temperature", 358.15, "358.15 K"],
    ["20 C", "temperature-difference", 20, "20 K"],
    ["36 °F", "temperature-difference", 20, "36 °F"],
  ];
  it.each(rows)("%s as %s", (text, dimension, value, stored) => {
    const reading = read(text, dimension);
    expect(reading.value).toBeCloseTo(value, 12);
    expect(Math.abs(reading.value / value - 1)).toBeLessThan(1e-12);
    expect(reading.text).toBe(stored);
  });

  it("100 in-lb and 180 in-lb in newton metres (definition of the pound-force and the inch)", () => {
    expect(read("100 in-lb", "torque").value).toBeCloseTo(11.3, 2);
    expect(read("180 in lb", "torque").value).toBeCloseTo(20.34, 2);
    expect(read("1 ft-lb", "torque").value).toBeCloseTo(1.35582, 5);
  });

  it("a scale of temperature and a difference stay apart", () => {
    expect(read("212 F", "temperature").value).toBeCloseTo(373.15, 9);
    expect(read("212 F", "temperature-difference").value).toBeCloseTo(117.78, 2);
  });
});

describe("what is not read says what to write", () => {
  const rows: readonly (readonly [string, Dimension, RegExp])[] = [
    ["1.2", "length", /a length needs its unit, for example "1.2 m" or "4 ft"/],
    ["35", "size", /a size needs its unit/],
    ["2", "time", /a time needs its unit/],
    ["100", "charge", /a capacity needs its unit/],
    ["4700", "capacitance", /a capacitance needs its unit/],
    ["100", "energy", /an energy needs its unit/],
    ["85", "temperature", /a temperature needs its unit/],
    ["12", "torque", /a torque needs its unit/],
    ["35 mm2", "length", /belongs to a size; here a length is wanted/],
    ["25 furlong", "length", /not a unit for a length/],
    ["5 m", "time", /minutes or milliseconds/],
    ["470 MF", "capacitance", /"uF" or "mF"/],
    ["250 VAC", "voltage", /AC or DC/],
    ["1", "ratio", /1 % or 100 %/],
    ["1,000 A", "current", /two ways; write "1000" or "1\.000"/],
    ["10² V", "voltage", /raised figures/],
    ["1/0 in", "length", /divided by 0/],
    ["-5 ohm", "resistance", /cannot be below zero/],
    ["-300 °C", "temperature", /absolute zero/],
    ["0 mm2", "size", /more than zero/],
    ["5/0 AWG", "size", /no such gauge/],
    ["41 AWG", "size", /no such gauge/],
    ["1e99", "voltage", /beyond anything/],
    ["6 pcs", "count", /has no unit/],
    ["-1", "count", /below zero/],
    ["9-16 V", "voltage", /not a unit/],
    ["", "voltage", /nothing is written/],
    ["red", "voltage", /does not begin with a number/],
    ["1".repeat(41), "voltage", /more than 40 characters/],
    ["1 constructor", "voltage", /not a unit/],
    ["__proto__", "size", /does not begin with a number/],
  ];
  it.each(rows)("%s as %s", (text, dimension, why) => {
    const sentence = refused(text, dimension);
    expect(sentence).toMatch(why);
    expect(sentence).not.toMatch(/error|invalid|\.$/i);
  });
});

describe("conductor sizes keep their system", () => {
  it.each([
    ["2/0 AWG", "2/0 AWG", -1],
    ["00 awg", "2/0 AWG", -1],
    ["000 AWG", "3/0 AWG", -2],
    ["4/0", "4/0 AWG", -3],
    ["0 AWG", "1/0 AWG", 0],
    ["AWG 18", "18 AWG", 18],
    ["#6", "6 AWG", 6],
    ["14 ga", "14 AWG", 14],
  ])("%s", (text, stored, gauge) => {
    const reading = parseSize(text);
    expect(reading).toMatchObject({ ok: true, size: { system: "AWG", gauge, text: stored } });
  });

  it.each(["35 mm2", "35 mm²", "35mm^2", "35 sqmm", "35 sq mm", "35 MM2"])("%s", (text) => {
    const reading = parseSize(text);
    expect(reading).toEqual({ ok: true, size: { area: 35 * 1e-6, system: "mm2", text: "35 mm2" } });
  });

  it("250 kcmil is 127 mm2 (1 circular mil = 5.06707e-4 mm2)", () => {
    for (const text of ["250 kcmil", "250 MCM"]) {
      const reading = parseSize(text);
      expect(reading).toMatchObject({ ok: true, size: { system: "kcmil", text: "250 kcmil" } });
      if (reading.ok) expect(reading.size.area * 1e6).toBeCloseTo(126.677, 3);
    }
  });
});

describe("against a general-purpose library of units", () => {
  // Only its unit() is made; it converts and never evaluates.
  if (unitDependencies === undefined) throw new Error("the library has no units");
  const { unit } = create({ unitDependencies });
  const rows: readonly (readonly [string, Dimension, string])[] = [
    ["5 kohm", "resistance", "ohm"],
    ["6 ft", "length", "m"],
    ["2.5 in", "length", "m"],
    ["3 yd", "length", "m"],
    ["47 uF", "capacitance", "F"],
    ["1.5 mH", "inductance", "H"],
    ["90 min", "time", "s"],
    ["35 mm2", "size", "m2"],
    ["0.2 kJ", "energy", "J"],
    ["12 Wh", "energy", "J"],
    ["1 hp", "power", "W"],
    ["85 degC", "temperature", "K"],
    ["185 degF", "temperature", "K"],
  ];
  it.each(rows)("%s", (text, dimension, si) => {
    const expected = unit(text).toNumber(si);
    expect(Math.abs(read(text, dimension).value / expected - 1)).toBeLessThan(1e-5);
  });
});

describe("whatever is typed", () => {
  const anything = fc.oneof(
    fc.string({ maxLength: 45 }),
    fc.string({ unit: "binary", maxLength: 20 }),
    fc
      .array(fc.constantFrom(..."0123456789.,/eE+-kKmMunpRVAFHWhsCΩ%²^ '\"°ftinAWGcJ#½"), { maxLength: 42 })
      .map((letters) => letters.join("")),
    fc
      .tuple(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.constantFrom(..."V A ohm kohm mm2 m in % AWG °C".split(" ")),
      )
      .map(([value, symbol]) => `${Number(value.toPrecision(5))} ${symbol}`),
  );

  // A unit that suits its dimension, so that most of these are read.
  const fitting = fc
    .tuple(
      fc.integer({ min: -1e4, max: 1e8 }).map((value) => value / 1000),
      fc.constantFrom<[string, Dimension]>(
        ["mV", "voltage"],
        ["", "current"],
        ["kohm", "resistance"],
        ["ft", "length"],
        ["kcmil", "size"],
        ["°F", "temperature"],
        ["%", "ratio"],
        ["mAh", "charge"],
        ["in-lb", "torque"],
      ),
    )
    .map(([value, [symbol, dimension]]): [string, Dimension] => [`${value}${symbol}`, dimension]);

  it("it never throws, is finite where read, and reads the same once stored", () => {
    let readings = 0;
    fc.assert(
      fc.property(fc.oneof(fc.tuple(anything, fc.constantFrom(...DIMENSIONS)), fitting), ([text, dimension]) => {
        const reading = parseQuantity(text, dimension);
        if (!reading.ok) return reading.why.length > 0;
        readings += 1;
        const again = parseQuantity(reading.text, dimension);
        return (
          Number.isFinite(reading.value) && again.ok && again.text === reading.text && again.value === reading.value
        );
      }),
      { numRuns: 3000, seed: 20261125 },
    );
    expect(readings).toBeGreaterThan(1000);
  });

  it("what is printed can be typed in again, within the digits printed", () => {
    const dimension = fc.constantFrom(...DIMENSIONS.filter((each) => each !== "count" && each !== "size"));
    fc.assert(
      fc.property(dimension, fc.double({ min: 1e-6, max: 1e7, noNaN: true }), (each, value) => {
        if (each === "temperature" && value < 100) return true;
        const again = parseQuantity(printQuantity(value, each), each);
        return (
          again.ok &&
          Math.abs(again.value - value) <= Math.max(Math.abs(value) * 6e-4, each === "temperature" ? 0.06 : 0)
        );
      }),
      { numRuns: 2000, seed: 20261125 },
    );
  });
});
