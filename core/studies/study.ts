/** What every study shows: the inputs with where each came from, the steps with their source, the answer, what is open. */
import type { Dimension } from "../quantity/kinds.ts";
import type { Source } from "../standards/source.ts";

/**
 * stated: somebody gave it; default: the part kind's own; assumed: nobody gave it and the study took the safe figure it
 * names; solved: from the solved circuit; unstated: nobody gave it and nothing was taken in its place.
 */
export type Origin = "stated" | "default" | "assumed" | "solved" | "unstated";

export interface Input {
  readonly name: string;
  /** SI; undefined only where unstated. */
  readonly value: number | string | undefined;
  readonly dimension?: Dimension;
  readonly from: Origin;
}

/** One limit or intermediate figure of a published method. */
export interface Step {
  readonly name: string;
  readonly value: number;
  readonly dimension: Dimension | "energy-let-through" | "resistance-per-volt";
  readonly source: Source;
}

/** What could not be decided, and the inputs for want of which. */
export interface Open<Question> {
  readonly what: string;
  readonly lacks: readonly (keyof Question & string)[];
}

export interface Study<Question, Answer> {
  readonly inputs: readonly Input[];
  readonly steps: readonly Step[];
  readonly answer: Answer;
  readonly open: readonly Open<Question>[];
}

/** An input that may be unstated, with what is taken in its place. */
export function inputOf(
  name: string,
  value: number | undefined,
  dimension: Dimension,
  instead?: number,
  from: Origin = "stated",
): Input {
  if (value !== undefined) return { name, value, dimension, from };
  if (instead !== undefined) return { name, value: instead, dimension, from: "assumed" };
  return { name, value: undefined, dimension, from: "unstated" };
}
