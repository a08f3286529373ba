/**
 * Words, made last: fills the {places} of a message with facts. Designations and numbers are looked up here, so
 * that a finding itself holds ids only and survives renaming.
 */
import { printQuantity } from "../quantity/print.ts";
import type { Project, Wire } from "../project/document.ts";
import type { Fact, Facts, MissingField, Place } from "./define.ts";

/** Looks up designations and wire numbers of one document. */
export class Names {
  readonly #parts: ReadonlyMap<string, string>;
  readonly #wires: ReadonlyMap<string, string>;
  readonly #sheets: ReadonlyMap<string, string>;
  readonly #enclosures: ReadonlyMap<string, string>;
  readonly #zones: ReadonlyMap<string, string>;

  constructor(project: Project) {
    this.#parts = new Map(project.parts.map((part) => [part.id, part.designation]));
    this.#wires = new Map(project.wires.map((wire) => [wire.id, this.#wireName(wire)]));
    this.#sheets = new Map(project.sheets.map((sheet) => [sheet.id, sheet.name]));
    this.#enclosures = new Map(project.enclosures.map((enclosure) => [enclosure.id, enclosure.name]));
    this.#zones = new Map(project.zones.map((zone) => [zone.id, zone.name ?? zone.kind]));
  }

  /** Its number; of a wire without one the places between which it runs. */
  #wireName({ number, ends }: Wire): string {
    if (number.trim() !== "") return number;
    const [from, to] = ends.map((end) => (end === null ? "a loose end" : `${this.part(end[0])}:${end[1]}`));
    return `from ${from} to ${to}`;
  }

  part(id: string): string {
    return this.#parts.get(id) ?? id;
  }

  wire(id: string): string {
    return this.#wires.get(id) ?? id;
  }

  sheet(id: string): string {
    return this.#sheets.get(id) ?? id;
  }

  /** "F1:1" for a terminal, "F1" for a part, "wire W12", "sheet 1". */
  place(place: Place): string {
    if ("part" in place)
      return place.terminal === undefined ? this.part(place.part) : `${this.part(place.part)}:${place.terminal}`;
    if ("wire" in place) return `wire ${this.wire(place.wire)}`;
    return `sheet ${this.sheet(place.sheet)}`;
  }

  /** "F1.interrupting", "W12.length", "title.author": where someone fills in what is missing. */
  missing(field: MissingField): string {
    if ("part" in field) return `${this.part(field.part)}.${field.parameter}`;
    if ("wire" in field) return `${this.wire(field.wire)}.${field.field}`;
    if ("enclosure" in field) return `${this.#enclosures.get(field.enclosure) ?? field.enclosure}.${field.field}`;
    if ("zone" in field) return `${this.#zones.get(field.zone) ?? field.zone}.${field.field}`;
    return `title.${field.title}`;
  }
}

/** Lists are cut after this many names, the rest counted: a sentence must stay readable. */
const LONGEST_LIST = 6;

function list(names: readonly string[]): string {
  const shown =
    names.length > LONGEST_LIST
      ? [...names.slice(0, LONGEST_LIST - 1), `${names.length - LONGEST_LIST + 1} more`]
      : names;
  if (shown.length <= 1) return shown[0] ?? "";
  return `${shown.slice(0, -1).join(", ")} and ${shown[shown.length - 1]}`;
}

/** Digits that a person reads of a figure that was worked out; what was typed or stands in a table has its own. */
const WORKED_OUT_DIGITS = 3;
const TYPED_DIGITS = 4;
/** A figure this near to one of four digits was typed, or stands in a table. */
const AS_TYPED = 1e-9;

/** A temperature counts from absolute zero and a conductor's size has its own rounding. */
const KEEPS_DIGITS = ["temperature", "size", "count"];

function readable(value: number, dimension: string, digits: number): number {
  if (!Number.isFinite(value) || value === 0 || KEEPS_DIGITS.includes(dimension)) return value;
  const typed = Number(value.toPrecision(TYPED_DIGITS));
  return Math.abs(value / typed - 1) < AS_TYPED ? value : Number(value.toPrecision(digits));
}

export function printFact(fact: Fact, names: Names, digits = WORKED_OUT_DIGITS): string {
  if (typeof fact === "string") return fact;
  if ("dimension" in fact) return printQuantity(readable(fact.value, fact.dimension, digits), fact.dimension);
  if ("place" in fact) return names.place(fact.place);
  if ("places" in fact) return list(fact.places.map((place) => names.place(place)));
  return list(fact.states);
}

/** Would two unlike figures read alike ("152 A is above 152 A")? */
function figuresClash(facts: Facts, names: Names): boolean {
  const told = new Map<string, number>();
  for (const fact of Object.values(facts)) {
    if (typeof fact === "string" || !("dimension" in fact)) continue;
    const text = printFact(fact, names);
    const other = told.get(text);
    if (other !== undefined && other !== fact.value) return true;
    told.set(text, fact.value);
  }
  return false;
}

/**
 * Fills every {place} of a text. A sentence that begins with a place begins with a capital ("Wire W12"). Throws when
 * a place has no fact: the harness for checks never lets that pass.
 */
export function fill(text: string, facts: Facts, names: Names): string {
  const digits = figuresClash(facts, names) ? TYPED_DIGITS : WORKED_OUT_DIGITS;
  const filled = text.replace(/\{([a-zA-Z0-9]+)\}/g, (_, key: string) => {
    const fact = facts[key];
    if (fact === undefined) throw new Error(`no fact for the place {${key}} in "${text}"`);
    return printFact(fact, names, digits);
  });
  return text.startsWith("{") ? filled.charAt(0).toUpperCase() + filled.slice(1) : filled;
}
