/**
 * The units that may be typed, by dimension: spelling -> factor to SI and the spelling in which it is stored.
 * A unit is only ever looked up inside the dimension that is wanted, so "m" is metres in a length and milli in
 * a resistance without guessing.
 */
import type { Dimension } from "./kinds.ts";

export interface Unit {
  /** Stored spelling: "kohm", "mm2", "°C". */
  readonly symbol: string;
  /** SI value of one unit. */
  readonly factor: number;
  /** SI value at the unit's zero (temperatures only). */
  readonly offset: number;
  /** Made with a prefix, so that its first letter must be typed in its own case: m is milli, M is mega. */
  readonly prefixed: boolean;
}

/** 1 mil = 0.001 in; the circular mil is the area of a circle of that diameter. */
const INCH = 0.0254;
export const CIRCULAR_MIL = (Math.PI / 4) * (INCH / 1000) ** 2;
const POUND_FORCE = 4.4482216152605;

type Prefix = "p" | "n" | "u" | "m" | "" | "k" | "M" | "G";
const PREFIX: Readonly<Record<Prefix, number>> = { p: 1e-12, n: 1e-9, u: 1e-6, m: 1e-3, "": 1, k: 1e3, M: 1e6, G: 1e9 };

/** What people are told to write, and how the dimension is called in a sentence. */
export const DIMENSION_WORDS: Readonly<Record<Dimension, { readonly name: string; readonly example: string }>> = {
  voltage: { name: "a voltage", example: '"12.6 V"' },
  current: { name: "a current", example: '"250 A"' },
  resistance: { name: "a resistance", example: '"5 kohm" or "0.3 mohm"' },
  power: { name: "a power", example: '"60 W"' },
  energy: { name: "an energy", example: '"100 J"' },
  capacitance: { name: "a capacitance", example: '"4700 uF"' },
  inductance: { name: "an inductance", example: '"0.5 H"' },
  length: { name: "a length", example: '"1.2 m" or "4 ft"' },
  size: { name: "a size", example: '"35 mm2" or "2/0 AWG"' },
  time: { name: "a time", example: '"25 ms" or "2 s"' },
  charge: { name: "a capacity", example: '"100 Ah"' },
  temperature: { name: "a temperature", example: '"85 °C"' },
  "temperature-difference": { name: "a temperature difference", example: '"20 K"' },
  torque: { name: "a torque", example: '"12 Nm" or "105 in-lb"' },
  ratio: { name: "a percentage", example: '"80 %"' },
  count: { name: "a number of pieces", example: '"6"' },
};

/** The unit that is meant where only a number, or a number and a prefix, is typed. */
export const BARE: Readonly<Partial<Record<Dimension, string>>> = {
  voltage: "V",
  current: "A",
  power: "W",
  resistance: "ohm",
};
/** Dimensions in which a prefix without a unit has one reading only: 470u, 4u7 (the letter code of IEC 60062). */
export const PREFIX_ALONE: Readonly<Partial<Record<Dimension, string>>> = {
  ...BARE,
  capacitance: "F",
  inductance: "H",
};

function prefixed(
  symbol: string,
  prefixes: readonly Prefix[],
  spellings: readonly string[],
  factor = 1,
): [string, Unit][] {
  const entries: [string, Unit][] = [];
  for (const prefix of prefixes) {
    const unit = { symbol: prefix + symbol, factor: PREFIX[prefix] * factor, offset: 0, prefixed: prefix !== "" };
    for (const spelling of spellings) {
      entries.push([prefix + spelling, unit]);
      // K is k everywhere but alone: "5 Kohm".
      if (prefix === "k") entries.push(["K" + spelling, unit]);
      if (prefix !== "" && spelling.length > 2) entries.push([`${prefix} ${spelling}`, unit]);
    }
  }
  return entries;
}

function plain(symbol: string, factor: number, ...spellings: readonly string[]): [string, Unit][] {
  const unit = { symbol, factor, offset: 0, prefixed: false };
  return [symbol, ...spellings].map((spelling): [string, Unit] => [spelling, unit]);
}

function scale(symbol: string, factor: number, offset: number, ...spellings: readonly string[]): [string, Unit][] {
  const unit = { symbol, factor, offset, prefixed: false };
  return [symbol, ...spellings].map((spelling): [string, Unit] => [spelling, unit]);
}

const CELSIUS = ["C", "degC", "deg C", "degree C", "degrees C", "oC", "° C", "celsius"] as const;
const FAHRENHEIT = ["F", "degF", "deg F", "degree F", "degrees F", "oF", "° F", "fahrenheit"] as const;

/** Every spelling, by dimension. Spellings are in the form that `tidy` of parse.ts leaves: u for micro, Ω for ohm. */
const UNITS: Readonly<Record<Dimension, ReadonlyMap<string, Unit>>> = {
  voltage: new Map(prefixed("V", ["u", "m", "", "k", "M"], ["V", "volt", "volts", "VDC", "V DC"])),
  current: new Map(
    prefixed("A", ["n", "u", "m", "", "k", "M"], ["A", "amp", "amps", "ampere", "amperes", "ADC", "A DC"]),
  ),
  resistance: new Map(prefixed("ohm", ["n", "u", "m", "", "k", "M", "G"], ["ohm", "ohms", "Ω", "R"])),
  power: new Map([
    ...prefixed("W", ["u", "m", "", "k", "M"], ["W", "watt", "watts"]),
    ...plain("hp", 550 * 0.3048 * POUND_FORCE),
    ...plain("PS", 735.49875),
  ]),
  energy: new Map([
    ...prefixed("J", ["u", "m", "", "k", "M"], ["J", "joule", "joules", "Ws"]),
    ...prefixed("Wh", ["m", "", "k", "M"], ["Wh"], 3600),
  ]),
  capacitance: new Map(prefixed("F", ["p", "n", "u", "m", ""], ["F", "farad", "farads"])),
  inductance: new Map(prefixed("H", ["n", "u", "m", ""], ["H", "henry", "henries"])),
  length: new Map([
    ...plain("m", 1, "metre", "metres", "meter", "meters"),
    ...plain("mm", 1e-3),
    ...plain("cm", 1e-2),
    ...plain("km", 1e3),
    ...plain("um", 1e-6),
    ...plain("in", INCH, "inch", "inches", '"', "''"),
    ...plain("ft", 12 * INCH, "foot", "feet", "'"),
    ...plain("yd", 36 * INCH, "yard", "yards"),
  ]),
  size: new Map([
    ...plain("mm2", 1e-6, "mm^2", "mm 2", "sqmm", "sq mm", "mmsq", "mm sq", "square mm", "mm**2"),
    ...plain("kcmil", 1000 * CIRCULAR_MIL, "MCM"),
  ]),
  time: new Map([
    ...prefixed("s", ["n", "u", "m", ""], ["s", "sec", "secs", "second", "seconds"]),
    ...plain("min", 60, "mins", "minute", "minutes"),
    ...plain("h", 3600, "hr", "hrs", "hour", "hours"),
    ...plain("d", 86400, "day", "days"),
  ]),
  charge: new Map([
    ...prefixed("Ah", ["u", "m", "", "k"], ["Ah", "A h", "A·h"], 3600),
    ...plain("C", 1, "As", "coulomb"),
  ]),
  temperature: new Map([
    ...scale("°C", 1, 273.15, ...CELSIUS),
    ...scale("°F", 5 / 9, 273.15 - (32 * 5) / 9, ...FAHRENHEIT),
    ...scale("K", 1, 0, "kelvin"),
  ]),
  "temperature-difference": new Map([
    ...plain("K", 1, "kelvin", "°C", ...CELSIUS),
    ...plain("°F", 5 / 9, ...FAHRENHEIT),
  ]),
  torque: new Map([
    ...plain("Nm", 1, "N m", "N·m", "N.m", "N*m", "N-m"),
    ...plain(
      "in-lb",
      INCH * POUND_FORCE,
      "in lb",
      "in.lb",
      "inlb",
      "lb-in",
      "lb in",
      "lbf in",
      "lbf-in",
      "in-lbs",
      "in lbs",
      "in-lbf",
    ),
    ...plain(
      "ft-lb",
      12 * INCH * POUND_FORCE,
      "ft lb",
      "ft.lb",
      "ftlb",
      "lb-ft",
      "lb ft",
      "lbf ft",
      "lbf-ft",
      "ft-lbs",
      "ft lbs",
      "ft-lbf",
    ),
  ]),
  ratio: new Map(plain("%", 0.01, "pct", "percent", "per cent")),
  count: new Map(),
};

/**
 * The unit that a spelling names in a dimension; undefined if none or more than one. Letters may be typed in the
 * wrong case as long as one reading is left: "KW", "kOHM", "MM2"; a prefix keeps its own (m milli, M mega).
 */
export function unitOf(spelling: string, dimension: Dimension): Unit | undefined {
  const table = UNITS[dimension];
  const exact = table.get(spelling);
  if (exact !== undefined) return exact;
  const wanted = spelling.toLowerCase();
  const found = new Set<Unit>();
  for (const [known, unit] of table) {
    if (known.toLowerCase() !== wanted) continue;
    if (unit.prefixed && known[0] !== spelling[0]) continue;
    found.add(unit);
  }
  return found.size === 1 ? [...found][0] : undefined;
}

/** The dimension in whose table a spelling stands, for the sentence that says what was typed instead. */
export function dimensionOfUnit(spelling: string): Dimension | undefined {
  return (Object.keys(UNITS) as Dimension[]).find((dimension) => UNITS[dimension].has(spelling));
}

/** The unit that a prefix alone stands for ("5k" in a resistance). "m" is no prefix where it is a unit or may be minutes. */
export function prefixAlone(prefix: string, dimension: Dimension): Unit | undefined {
  const base = PREFIX_ALONE[dimension];
  if (base === undefined || prefix.length !== 1) return undefined;
  return UNITS[dimension].get((prefix === "K" ? "k" : prefix) + base);
}
