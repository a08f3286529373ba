/** Single cells of a wire list, read. Each gives the value, or a sentence that follows the name of its column. */
import type { Insulation } from "../project/document.ts";
import type { Normalised } from "../project/normalise.ts";
import { LIMITS } from "../project/limits.ts";
import { shown } from "../project/problems.ts";

const YES: readonly string[] = ["yes", "y", "true"];
const NO: readonly string[] = ["no", "n", "false"];

export function readYesNo(text: string): Normalised<boolean> {
  const word = text.toLowerCase();
  if (YES.includes(word)) return { ok: true, value: true };
  if (NO.includes(word)) return { ok: true, value: false };
  return { ok: false, why: `"${shown(text)}" is neither yes nor no. Write one of the two, or leave the cell empty.` };
}

/** Millimetres on the panel: `40`, `40.5`, `40,5`, `40 mm`. */
export function readMillimetres(text: string): Normalised<number> {
  const digits = /^(-?[0-9]{1,9}(?:[.,][0-9]{1,6})?)(?: ?mm)?$/.exec(text)?.[1];
  const value = digits === undefined ? Number.NaN : Number(digits.replace(",", "."));
  if (Math.abs(value) <= LIMITS.millimetres) return { ok: true, value: value + 0 };
  return { ok: false, why: `"${shown(text)}" is no number of millimetres. Write it like 40 or 40.5.` };
}

/** `F1:1`, split at the first colon. */
export function readEnd(text: string): Normalised<{ readonly designation: string; readonly terminal: string }> {
  const colon = text.indexOf(":");
  if (colon > 0 && colon < text.length - 1) {
    return { ok: true, value: { designation: text.slice(0, colon).trim(), terminal: text.slice(colon + 1).trim() } };
  }
  const what = text === "" ? "the cell is empty" : `"${shown(text)}" names no terminal`;
  return { ok: false, why: `${what}. Write part and terminal with a colon between them, such as F1:1.` };
}

const VOLTS = /(?:^|\s)([0-9][0-9.,]* ?k?V)(?=\s|$)/;
const DEGREES = /(?:^|\s)(-?[0-9][0-9.,]* ?(?:°|deg(?:rees)?)? ?[CF])(?=\s|$)/;

/** `[material] [volts] [celsius]`, any of the three: `600 V`, `XLPE 600 V 90 C`. Values are still as typed. */
export function readInsulation(text: string): Normalised<Insulation> {
  const volts = VOLTS.exec(text);
  const withoutVolts = volts === null ? text : text.replace(volts[0], " ");
  const degrees = DEGREES.exec(withoutVolts);
  const rest = degrees === null ? withoutVolts : withoutVolts.replace(degrees[0], " ");
  const material = rest.replace(/\s+/g, " ").trim();
  if (/(?:^|\s)-?[0-9]/.test(material)) {
    const why = `"${shown(text)}" holds a figure without V or C behind it. Write it like XLPE 600 V 90 C.`;
    return { ok: false, why };
  }
  return {
    ok: true,
    value: {
      ...(material === "" ? {} : { material }),
      ...(volts?.[1] === undefined ? {} : { volts: volts[1] }),
      ...(degrees?.[1] === undefined ? {} : { temperature: degrees[1] }),
    },
  };
}

/**
 * `name=value; name=value`. A piece without an equals sign belongs to the value before it (a curve holds semicolons).
 */
export function readParameters(text: string): Normalised<Readonly<Record<string, string>>> {
  const found: [string, string][] = [];
  for (const piece of text.split(";")) {
    const equals = piece.indexOf("=");
    const last = found.at(-1);
    if (piece.trim() === "") continue;
    if (equals > 0) found.push([piece.slice(0, equals).trim(), piece.slice(equals + 1).trim()]);
    else if (last !== undefined) last[1] = `${last[1]}; ${piece.trim()}`;
    else
      return { ok: false, why: `"${shown(piece)}" has no equals sign. Write it like rating=125 A; voltageDc=125 V.` };
  }
  const names = found.map(([name]) => name);
  const twice = names.find((name, index) => names.indexOf(name) < index);
  if (twice !== undefined) return { ok: false, why: `${shown(twice)} stands twice. Take one of the two out.` };
  const reserved = names.find((name) => name in {});
  if (reserved !== undefined) return { ok: false, why: `${shown(reserved)} cannot be used as a name. Take it out.` };
  return { ok: true, value: Object.fromEntries(found) };
}
