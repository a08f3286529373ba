/**
 * What the studies say of one part or wire, in words: titles and rows to show beside it or to print. Every row tells
 * what it was worked out from, and what to state where something is missing. The sections come one by one, so that
 * whoever asks can do something else in between.
 */
import { Names, printFact } from "../../checks/text.ts";
import type { Analysis } from "../../circuit/analysis.ts";
import type { Dimension } from "../../quantity/kinds.ts";
import { printQuantity } from "../../quantity/print.ts";
import type { Source } from "../../standards/source.ts";
import type { MissingField } from "../../studies/missing-field.ts";
import type { Input, Study } from "../../studies/study.ts";
import { inStates, openWords, ORIGINS } from "../size-words.ts";

export interface Lacking {
  /** "F1.rating" */
  readonly text: string;
  readonly field: MissingField;
}

export interface WorkedRow {
  readonly label: string;
  readonly text: string;
  /** When it is so, what it is held against. */
  readonly note?: string;
  /** What it was worked out from: "Air around it: 30 °C (assumed)". */
  readonly inputs?: readonly string[];
  readonly lacks?: readonly Lacking[];
  readonly sources?: readonly Source[];
}

export interface WorkedSection {
  readonly title: string;
  readonly rows: readonly WorkedRow[];
}

type Printed = Dimension | "resistance-per-volt";

/** Figures, names and missing fields of one drawing in words. */
export class Wording {
  readonly names: Names;
  readonly analysis: Analysis;

  constructor(analysis: Analysis) {
    this.analysis = analysis;
    this.names = new Names(analysis.network.project);
  }

  /** Three significant digits, of times two; "-" where there is no figure. */
  figure(value: number | undefined, dimension: Printed, digits?: number): string {
    if (value === undefined || Number.isNaN(value)) return "-";
    if (dimension === "time" && Number.isFinite(value)) return printQuantity(roughly(value), "time");
    const least = dimension === "current" && Math.abs(value) < 1e-3 ? 0 : value;
    return printFact({ value: least, dimension }, this.names, digits);
  }

  /** "between 3 A and 5 A"; one figure where both ends read alike. */
  range(least: number, most: number, dimension: Printed): string {
    const [low, high] = [this.figure(least, dimension), this.figure(most, dimension)];
    if (low === high) return low;
    if (most === Infinity) return `at least ${low}`;
    return least <= 0 ? `up to ${high}` : `between ${low} and ${high}`;
  }

  lacks(fields: readonly MissingField[]): readonly Lacking[] {
    const known = new Map(fields.map((field) => [this.names.missing(field), field]));
    return [...known].map(([text, field]) => ({ text, field }));
  }

  inputs<Question, Answer>({ inputs }: Study<Question, Answer>): readonly string[] {
    return inputs.filter(({ from }) => from !== "unstated").map((input) => this.#input(input));
  }

  #input({ name, value, dimension, from }: Input): string {
    const text =
      typeof value === "number" && dimension !== undefined ? this.figure(value, dimension) : String(value ?? "-");
    return `${name}: ${text} (${ORIGINS[from]})`;
  }

  sources<Question, Answer>({ steps }: Study<Question, Answer>): readonly Source[] {
    return distinctSources(steps.map(({ source }) => source));
  }

  /** What could not be decided, each with what to state. */
  open(open: readonly { readonly what: string; readonly missing: readonly MissingField[] }[]): readonly WorkedRow[] {
    return open.map(({ what, missing }) => ({
      label: "Not decided",
      text: openWords(what),
      ...(missing.length === 0 ? { note: "nothing on the drawing tells it" } : {}),
      lacks: this.lacks(missing),
    }));
  }
}

export function distinctSources(sources: readonly Source[]): readonly Source[] {
  return [...new Map(sources.map((source) => [source.text, source])).values()];
}

/** "in driving, regenerating" */
export const whenIn = (states: readonly string[]): string => (states.length === 0 ? "" : `in ${inStates(states)}`);

const YEAR = 365.25 * 86_400;

/** Seconds as people wait for them: "between 2 h and 5 h", "for good" where it never ends. */
export function lasting(span: readonly [least: number, most: number] | undefined): string {
  if (span === undefined) return "not known";
  const [shortest, longest] = span;
  if (shortest === Infinity) return "for good";
  if (shortest > YEAR) return "more than a year";
  const [least, most] = span.map((each) => printQuantity(roughly(each), "time"));
  if (longest > YEAR) return `at least ${least ?? ""}`;
  return least === most ? (least ?? "") : `between ${least ?? ""} and ${most ?? ""}`;
}

/** Two digits in the unit that it is told in are as much as such a figure is worth. */
function roughly(seconds: number): number {
  const unit = [86_400, 3600, 60, 1].find((each) => seconds >= 2 * each) ?? 1;
  return Number((seconds / unit).toPrecision(2)) * unit;
}
