/** What a verb of the command line is: what it accepts, what it does, and what it says when it is done. */
import type { Accepts, Given } from "./arguments.ts";

export interface Outcome {
  /** What goes to the standard output, without its last newline; nothing when undefined. */
  readonly text?: string;
  readonly exit: 0 | 1;
}

export interface Verb {
  readonly name: string;
  /** One line for the list of verbs. */
  readonly does: string;
  readonly accepts: Accepts;
  /** @throws Refusal when the user has to mend something first */
  run(given: Given): Outcome;
}

/** A JSON document as text. */
export function json(document: unknown): string {
  return JSON.stringify(document, null, 2);
}
