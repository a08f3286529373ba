/**
 * Words, made last: fills the {places} of a message with facts. Designations and numbers are looked up here, so
 * that a finding itself holds ids only and survives renaming.
 */
import { printQuantity } from "../quantity/print.ts";
import type { Project, Wire } from "../project/document.ts";
import type { Fact, Facts, MissingField, Place } from "./define.ts";
import { told } from "./lists.ts";
import type { Label } from "./lists.ts";

/** Looks up designations and wire numbers of one document. */
export class Names {
  readonly #parts: ReadonlyMap<string, string>;
  readonly #wires: ReadonlyMap<string, string>;
  readonly #sheets: ReadonlyMap<string, string>;
  readonly #enclosures: ReadonlyMap<string, string>;
  readonly #zones: ReadonlyMap<string, string>;
  /** Wires that have a number. */
  readonly #numbered: ReadonlySet<string>;
  /** The operating states, where they are known: a list of them all is told as "every state". */
  readonly #states: readonly string[];

  constructor(project: Project, states: readonly string[] = []) {
    this.#states = states;
    this.#numbered = new Set(project.wires.filter(({ number }) => number.trim() !== "").map(({ id }) => id));
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

  #label(place: Place): Label {
    const text = this.place(place);
    return "wire" in place && this.#numbered.has(place.wire) ? { text, number: this.wire(place.wire) } : { text };
  }

  /** "G1 to G12", "wires W3, W7 and W9 to W11": in the order given, a list of more than `longest` items cut. */
  places(places: readonly Place[], longest?: number): string {
    return told(
      places.map((place) => this.#label(place)),
      longest,
    );
  }

  /** "driving and driving-low"; all there are: "every state". */
  states(names: readonly string[], longest?: number): string {
    const every = this.#states.length > 1 && this.#states.every((name) => names.includes(name));
    return every
      ? "every state"
      : told(
          names.map((text) => ({ text })),
          longest,
        );
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

/** Digits that a person reads of a figure that was worked out; what was typed or stands in a table has its own. */
const WORKED_OUT_DIGITS = 3;
const TYPED_DIGITS = 4;
/** A figure this near to one of four digits was typed, or stands in a table. */
const AS_TYPED = 1e-9;

/** Times longer than this are told with two digits and the unit in full: "16 days". */
const LONG_TIME = 180;
const LONG_UNITS: Readonly<Record<string, string>> = { d: "days", h: "hours", min: "minutes" };

/** Lengths from here to a metre are told in whole millimetres. */
const WHOLE_MILLIMETRES = 0.01;

/** Of these, from this size on, people know the fourth digit: 117.6 V on a charger's plate, 1.016 m in a rule. */
const KEEP_TYPED: readonly (readonly [dimension: string, from: number])[] = [
  ["voltage", 100],
  ["length", 1],
];

/** Significant digits of a figure in a sentence. */
function digitsOf(value: number, dimension: string): number {
  if (dimension === "time" && value >= LONG_TIME) return 2;
  if (dimension === "length" && value >= WHOLE_MILLIMETRES && value < 1) return value < 0.1 ? 2 : 3;
  if (!KEEP_TYPED.some(([kept, from]) => dimension === kept && Math.abs(value) >= from)) return WORKED_OUT_DIGITS;
  return Math.abs(value / Number(value.toPrecision(TYPED_DIGITS)) - 1) < AS_TYPED ? TYPED_DIGITS : WORKED_OUT_DIGITS;
}

const ZERO_CELSIUS = 273.15;

function printFigure(value: number, dimension: Parameters<typeof printQuantity>[1], digits: number): string {
  if (dimension === "temperature") return printQuantity(Math.round(value - ZERO_CELSIUS) + ZERO_CELSIUS, dimension);
  const text = printQuantity(value, dimension, { digits });
  if (dimension !== "time" || value < LONG_TIME) return text;
  const [figure = text, unit = ""] = text.split(" ");
  return `${figure} ${LONG_UNITS[unit] ?? unit}`;
}

export function printFact(fact: Fact, names: Names, digits?: number): string {
  if (typeof fact === "string") return fact;
  if ("dimension" in fact)
    return printFigure(fact.value, fact.dimension, digits ?? digitsOf(fact.value, fact.dimension));
  if ("place" in fact) return names.place(fact.place);
  if ("places" in fact) return names.places(fact.places);
  return names.states(fact.states);
}

/** Figures that would read like another one that they are not ("152 A is above 152 A"). */
function clashing(facts: Facts, names: Names): ReadonlySet<string> {
  const byText = new Map<string, { readonly keys: string[]; readonly values: Set<number> }>();
  for (const [key, fact] of Object.entries(facts)) {
    if (typeof fact === "string" || !("dimension" in fact)) continue;
    const text = printFact(fact, names);
    const alike = byText.get(text) ?? { keys: [], values: new Set() };
    byText.set(text, { keys: [...alike.keys, key], values: alike.values.add(fact.value) });
  }
  return new Set([...byText.values()].flatMap(({ keys, values }) => (values.size > 1 ? keys : [])));
}

/**
 * Fills every {place} of a text. A sentence that begins with a place begins with a capital ("Wire W12"). Throws when
 * a place has no fact: the harness for checks never lets that pass.
 */
export function fill(text: string, facts: Facts, names: Names): string {
  const close = clashing(facts, names);
  const filled = text.replace(/\{([a-zA-Z0-9]+)\}/g, (_, key: string) => {
    const fact = facts[key];
    if (fact === undefined) throw new Error(`no fact for the place {${key}} in "${text}"`);
    return printFact(fact, names, close.has(key) ? TYPED_DIGITS : undefined);
  });
  return text.startsWith("{") ? filled.charAt(0).toUpperCase() + filled.slice(1) : filled;
}

/** A message as it stands before it is filled: its places are shown as words in angle quotes. */
export function shown(text: string): string {
  return text.replace(/\{([a-zA-Z0-9]+)\}/g, "‹$1›");
}
