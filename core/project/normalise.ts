/**
 * Typed values as the document keeps them: read by their kind's parameter or the wire's field, written back in
 * one normal form. Reading a file, the edit commands and the wire-list importer all go through here.
 */
import type { ParameterSpec, PartKind } from "../parts/define.ts";
import { normaliseParameter } from "../parts/values.ts";
import type { Dimension } from "../quantity/kinds.ts";
import { colourCode } from "./colour.ts";
import type { Insulation, Wire } from "./document.ts";
import { choiceOf } from "./nearest.ts";
import { shown } from "./problems.ts";

export type Normalised<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly why: string };

const FINISH: ParameterSpec = {
  title: "Finish",
  explanation: "Whether the terminals are bare metal or under a boot; a bare live terminal can be touched.",
  where: "Look at the part.",
  choices: ["bare", "booted"],
};

const NOTE: ParameterSpec = {
  title: "Note",
  explanation: "Free words for whoever reads the drawing; no check reads them.",
  where: "Your own words.",
  text: true,
};

/** A kind's parameter by name; every kind has `note` and `finish`, and `finish-TERMINAL` overrides `finish` for one terminal. */
export function parameterSpec(kind: PartKind, name: string, terminals: ReadonlySet<string>): ParameterSpec | undefined {
  if (Object.hasOwn(kind.parameters, name)) return kind.parameters[name];
  if (name === "note") return NOTE;
  if (name === "finish" || (name.startsWith("finish-") && terminals.has(name.slice("finish-".length)))) {
    return Object.hasOwn(kind.parameters, "finish") ? kind.parameters["finish"] : FINISH;
  }
  return undefined;
}

/** `null` (known to be unknown) stays as it is. `why` is a sentence that follows the name of the place. */
export function normaliseText(spec: ParameterSpec, typed: string | null): Normalised<string | null> {
  if (typed === null) return { ok: true, value: null };
  const read = normaliseParameter(spec, typed);
  if (read.ok) return { ok: true, value: read.text };
  return { ok: false, why: `"${shown(typed)}" cannot be taken: ${read.why}.` };
}

/** A quantity that belongs to no kind: a wire's length, a zone's temperature. */
export function normaliseQuantity(dimension: Dimension, typed: string | null): Normalised<string | null> {
  return normaliseText({ title: dimension, explanation: "", where: "", dimension }, typed);
}

const METRIC_HOLE = /^m ?([1-9][0-9]?(?:\.[0-9])?)$/i;
const INCH_HOLE = /^(#[0-9]{1,2}|[0-9]{1,2}\/[0-9]{1,2}(?: ?(?:in|"))?)$/;

/** The hole of a lug: `m8` becomes `M8`; inch studs (`5/16 in`, `#10`) stay as they are. */
export function normaliseLug(typed: string | null): Normalised<string | null> {
  if (typed === null) return { ok: true, value: null };
  const metric = METRIC_HOLE.exec(typed.trim());
  if (metric?.[1] !== undefined) return { ok: true, value: `M${metric[1]}` };
  if (INCH_HOLE.test(typed.trim())) return { ok: true, value: typed.trim() };
  return { ok: false, why: `"${shown(typed)}" is no lug hole. Write it like M8 or 5/16 in.` };
}

export function normaliseColour(typed: string | null): Normalised<string | null> {
  if (typed === null) return { ok: true, value: null };
  const code = colourCode(typed);
  if (code !== undefined) return { ok: true, value: code };
  return {
    ok: false,
    why: `"${shown(typed)}" is no colour of IEC 60757. Write a letter code such as OG, RD or GNYE, or its name.`,
  };
}

/** Collects what is wrong with the fields of one wire or part while they are normalised. */
export type Complain = (field: string, why: string) => void;

/** A field's normal form; the old one, and a complaint, if it cannot be read. */
export function settled<T>(read: Normalised<T>, old: T, field: string, complain: Complain): T {
  if (read.ok) return read.value;
  complain(field, read.why);
  return old;
}

/** Parameters in normal form (the same object if nothing changes). Unknown names and unreadable values are complained of. */
export function normaliseParameters(
  kind: PartKind,
  parameters: Readonly<Record<string, string | null>>,
  terminals: ReadonlySet<string>,
  complain: Complain,
): Readonly<Record<string, string | null>> {
  let changed = false;
  const result: Record<string, string | null> = {};
  for (const [name, typed] of Object.entries(parameters)) {
    const spec = parameterSpec(kind, name, terminals);
    if (spec === undefined) {
      const names = [...Object.keys(kind.parameters), "finish", "note"];
      complain(`parameter ${shown(name)}`, `${kind.kind} has no such parameter. ${choiceOf(name, new Set(names))}`);
      continue;
    }
    const value = settled(normaliseText(spec, typed), typed, `parameter ${name}`, complain);
    changed ||= value !== typed;
    result[name] = value;
  }
  return changed ? result : parameters;
}

function normaliseInsulation(insulation: Insulation, complain: Complain): Insulation {
  const { volts, temperature } = insulation;
  return {
    ...insulation,
    ...(volts === undefined
      ? {}
      : { volts: settled(normaliseQuantity("voltage", volts), volts, "insulation, volts", complain) }),
    ...(temperature === undefined
      ? {}
      : {
          temperature: settled(
            normaliseQuantity("temperature", temperature),
            temperature,
            "insulation, temperature",
            complain,
          ),
        }),
  };
}

type Pair<T> = readonly [T, T];

function normalisePair<T>(
  pair: Pair<T>,
  read: (typed: T) => Normalised<T>,
  field: string,
  complain: Complain,
): Pair<T> {
  return [
    settled(read(pair[0]), pair[0], `${field}, end A`, complain),
    settled(read(pair[1]), pair[1], `${field}, end B`, complain),
  ];
}

/** The wire with its typed fields in normal form. */
export function normaliseWire(wire: Wire, complain: Complain): Wire {
  const { size, length, colour, insulation, lugs, torque } = wire;
  return {
    ...wire,
    ...(size === undefined ? {} : { size: settled(normaliseQuantity("size", size), size, "size", complain) }),
    ...(length === undefined
      ? {}
      : { length: settled(normaliseQuantity("length", length), length, "length", complain) }),
    ...(colour === undefined ? {} : { colour: settled(normaliseColour(colour), colour, "colour", complain) }),
    ...(insulation === undefined ? {} : { insulation: normaliseInsulation(insulation, complain) }),
    ...(lugs === undefined ? {} : { lugs: normalisePair(lugs, normaliseLug, "lugs", complain) }),
    ...(torque === undefined
      ? {}
      : { torque: normalisePair(torque, (typed) => normaliseQuantity("torque", typed), "torque", complain) }),
  };
}
