/**
 * Typed text to numbers. One small grammar over a table of units, 40 characters at most; nothing is ever
 * evaluated, so there is nothing that a text could call.
 */
import type { Dimension } from "./kinds.ts";
import { gaugeArea, gaugeName, gaugeOf, sizeFromGauge } from "./size.ts";
import type { ConductorSize, SizeReading } from "./size.ts";
import { BARE, DIMENSION_WORDS, dimensionOfUnit, prefixAlone, unitOf } from "./units.ts";
import type { Unit } from "./units.ts";

export type Reading =
  /** `value` in SI; `text` as stored: tidied, the unit written out, a gauge still a gauge. */
  | { readonly ok: true; readonly value: number; readonly text: string }
  /** `why`: a sentence fragment for people, without capital or full stop. */
  | { readonly ok: false; readonly why: string };

const LONGEST = 40;
/** Nothing in a vehicle is smaller or larger than this, in any SI unit. */
const SMALLEST = 1e-15;
const LARGEST = 1e15;

/** These can point the other way or be below zero. */
const SIGNED: readonly Dimension[] = ["voltage", "current", "power", "temperature", "temperature-difference"];

const PLAIN_NUMBER = /^[+-]?(?:\d{1,15}(?:[.,]\d{0,15})?|[.,]\d{1,15})(?:[eE][+-]?\d{1,2}(?!\d))?/;
const GROUPED_NUMBER = /^[+-]?\d{1,3}(?: \d{3}){1,3}(?:[.,]\d{1,9})?(?![\d./,])/;
const FRACTION = /^(?:(\d{1,4}) )?(\d{1,4}) ?\/ ?(\d{1,4})(?![\d.,])/;
/** One comma before exactly three digits is a decimal comma to one reader and a thousands mark to the next. */
const EITHER_COMMA = /^[+-]?[1-9]\d{0,2}(?:,\d{3})+(?![\d.,])/;
/** 4k7, 2R2, 4u7: the letter stands for the decimal point (IEC 60062). */
const LETTER_CODE = /^(\d{1,4})([pnumRkKMG])(\d{1,4})$/;
const FEET_AND_INCHES = /^(\d{1,4} ?(?:ft|feet|foot|')) ?(\d[\d./ ]{0,8} ?(?:in|inch|inches|"|''))$/;

/** Nothing to tidy: printable ASCII with single blanks inside. */
const PLAIN = /^[!-~]+(?: [!-~]+)*$/;

/** Variants of one sign become one sign; undefined where a raised digit would silently turn into a plain one. */
function tidy(text: string): string | undefined {
  if (PLAIN.test(text)) return text;
  const spaced = text
    .replace(/[\u00bc-\u00be\u2150-\u215e]/g, " $&") // "1½" must not become "11/2"
    .replace(/mm ?\u00b2/g, "mm2");
  if (/[\u00b2\u00b3\u00b9\u2070-\u209c]/.test(spaced)) return undefined;
  return spaced
    .normalize("NFKC")
    .replace(/[\u2212\u2013]/g, "-")
    .replace(/\u2044/g, "/")
    .replace(/\u03bc/g, "u")
    .replace(/[\u2032\u2019]/g, "'")
    .replace(/\u201d/g, '"')
    .replace(/\u22c5/g, "·")
    .replace(/\s+/g, " ")
    .trim();
}

/**
 * Reads a typed quantity. A number without unit is taken for volts, amperes, watts, ohms, counts and per cent;
 * every other dimension needs its unit. Never throws.
 */
export function parseQuantity(text: string, dimension: Dimension): Reading {
  const { name, example } = DIMENSION_WORDS[dimension];
  if (text.length > LONGEST) return refuse(`more than ${LONGEST} characters; write ${name} such as ${example}`);
  const tidied = tidy(text);
  if (tidied === undefined) return refuse(`raised figures cannot be read; write ${name} such as ${example}`);
  if (tidied === "") return refuse(`nothing is written; write ${name} such as ${example}`);
  if (dimension === "size") {
    const gauge = gaugeOf(tidied);
    if (typeof gauge === "object") return refuse(gauge.why);
    if (gauge !== "none") return { ok: true, value: gaugeArea(gauge), text: `${gaugeName(gauge)} AWG` };
  }
  if (dimension === "length") {
    const both = FEET_AND_INCHES.exec(tidied);
    if (both !== null) return feetAndInches(both[1] ?? "", both[2] ?? "");
  }
  const code = LETTER_CODE.exec(tidied);
  if (code !== null) {
    const unit = code[2] === "R" ? unitOf("R", dimension) : prefixAlone(code[2] ?? "", dimension);
    if (unit !== undefined) return made(Number(`${code[1]}.${code[3]}`), undefined, unit, dimension);
  }
  const number = readNumber(tidied);
  if (!number.ok) return refuse(number.why ?? `it does not begin with a number; write ${name} such as ${example}`);
  const { value, written } = number;
  const rest = tidied.slice(number.length).trimStart();
  const unit = rest === "" ? undefined : (unitOf(rest, dimension) ?? prefixAlone(rest, dimension));
  if (unit !== undefined) return made(value, written, unit, dimension);
  if (rest !== "") return refuse(unknownUnit(rest, dimension));
  return withoutUnit(value, written, dimension);
}

/** Reads a conductor's size and keeps its system: "2/0 AWG", "250 kcmil", "35 mm2". Never throws. */
export function parseSize(text: string): SizeReading {
  const reading = parseQuantity(text, "size");
  if (!reading.ok) return reading;
  return { ok: true, size: storedSize(reading.text, reading.value) };
}

function storedSize(text: string, area: number): ConductorSize {
  const gauge = gaugeOf(text);
  if (typeof gauge === "number") return sizeFromGauge(gauge);
  return { area, system: text.endsWith("kcmil") ? "kcmil" : "mm2", text };
}

type NumberReading =
  | { readonly ok: true; readonly value: number; readonly written?: string; readonly length: number }
  | { readonly ok: false; readonly why?: string };

function readNumber(text: string): NumberReading {
  const fraction = FRACTION.exec(text);
  if (fraction !== null) {
    const [all, whole, above, below] = fraction;
    if (Number(below) === 0) return { ok: false, why: "nothing can be divided by 0" };
    const value = Number(whole ?? 0) + Number(above) / Number(below);
    const top = `${Number(above)}/${Number(below)}`;
    return { ok: true, value, written: whole === undefined ? top : `${Number(whole)} ${top}`, length: all.length };
  }
  const either = EITHER_COMMA.exec(text);
  if (either !== null) {
    const digits = either[0].replace(/,/g, "");
    const decimal = either[0].split(",").length === 2 ? ` or "${either[0].replace(",", ".")}"` : "";
    return { ok: false, why: `the comma can be read in two ways; write "${digits}"${decimal}` };
  }
  const grouped = GROUPED_NUMBER.exec(text);
  const match = grouped ?? PLAIN_NUMBER.exec(text);
  if (match === null) return { ok: false };
  const value = Number(match[0].replace(/ /g, "").replace(",", "."));
  return { ok: true, value, length: match[0].length };
}

function withoutUnit(value: number, written: string | undefined, dimension: Dimension): Reading {
  const { name, example } = DIMENSION_WORDS[dimension];
  if (dimension === "count") return countOf(value);
  if (dimension === "ratio") {
    // "0.9" is what data sheets print for an efficiency; "90" is what people say.
    if (Math.abs(value) === 1) return refuse('1 can mean 1 % or 100 %; write it with its sign, for example "100 %"');
    return made(Math.abs(value) < 1 ? percentOf(value) : value, undefined, unitNamed("%", "ratio"), "ratio");
  }
  const bare = BARE[dimension];
  if (bare === undefined) return refuse(`${name} needs its unit, for example ${example}`);
  return made(value, written, unitNamed(bare, dimension), dimension);
}

function percentOf(value: number): number {
  return Number((value * 100).toPrecision(12));
}

function countOf(value: number): Reading {
  if (value < 0) return refuse("a number of pieces cannot be below zero");
  if (value > 1e9) return refuse("that is far more than any vehicle holds; check the figure");
  return { ok: true, value, text: String(value) };
}

function unitNamed(symbol: string, dimension: Dimension): Unit {
  const unit = unitOf(symbol, dimension);
  if (unit === undefined) throw new Error(`the table of units has no ${symbol}`);
  return unit;
}

function made(value: number, written: string | undefined, unit: Unit, dimension: Dimension): Reading {
  const { name, example } = DIMENSION_WORDS[dimension];
  const si = value * unit.factor + unit.offset;
  if (value < 0 && !SIGNED.includes(dimension)) return refuse(`${name} cannot be below zero`);
  if (dimension === "temperature" && si < 0) return refuse("that is below absolute zero; check the figure");
  if (dimension === "size" && si === 0) return refuse(`a size is more than zero, for example ${example}`);
  const large = Math.abs(si);
  if (!Number.isFinite(si) || large > LARGEST || (large < SMALLEST && value !== 0)) {
    return refuse(`that is beyond anything in a vehicle; check the figure and its unit, for example ${example}`);
  }
  return { ok: true, value: si, text: `${written ?? String(value === 0 ? 0 : value)} ${unit.symbol}` };
}

function feetAndInches(feet: string, inches: string): Reading {
  const first = parseQuantity(feet, "length");
  const second = parseQuantity(inches, "length");
  if (!first.ok) return first;
  if (!second.ok) return second;
  return { ok: true, value: first.value + second.value, text: `${first.text} ${second.text}` };
}

function unknownUnit(rest: string, dimension: Dimension): string {
  const { name, example } = DIMENSION_WORDS[dimension];
  const shown = rest.length > 12 ? `${rest.slice(0, 12)}...` : rest;
  if (dimension === "time" && rest.toLowerCase() === "m")
    return '"m" can mean minutes or milliseconds; write "min" or "ms"';
  if (dimension === "capacitance" && rest === "MF") return '"MF" is read in two ways; write "uF" or "mF"';
  if (/^[VA] ?AC$/i.test(rest))
    return 'the field says whether it is AC or DC; write the figure with its unit alone, for example "250 V"';
  if (dimension === "count") return `${name} has no unit; write the figure alone, for example ${example}`;
  const other = dimensionOfUnit(rest);
  if (other !== undefined && other !== dimension) {
    return `"${shown}" belongs to ${DIMENSION_WORDS[other].name}; here ${name} is wanted, for example ${example}`;
  }
  return `"${shown}" is not a unit for ${name}; write for example ${example}`;
}

function refuse(why: string): Reading {
  return { ok: false, why };
}
