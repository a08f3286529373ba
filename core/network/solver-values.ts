/**
 * A part's values that keep a list of what solving has read of them: an edit of any other parameter (a rating, a class)
 * leaves everything solved as it is. Reading counts while `whileSolving` runs, whoever reads.
 */
import type { Statedness, Values } from "../parts/define.ts";

let depth = 0;

/** Everything read of any part's values meanwhile counts as read by solving. */
export function whileSolving<Result>(work: () => Result): Result {
  depth += 1;
  try {
    return work();
  } finally {
    depth -= 1;
  }
}

export class SolverValues implements Values {
  readonly #values: Values;
  /** Names of the parameters that solving has read so far. */
  readonly read = new Set<string>();

  constructor(values: Values) {
    this.#values = values;
  }

  number(name: string): number | undefined {
    if (depth > 0) this.read.add(name);
    return this.#values.number(name);
  }

  choice(name: string): string | undefined {
    if (depth > 0) this.read.add(name);
    return this.#values.choice(name);
  }

  text(name: string): string | undefined {
    if (depth > 0) this.read.add(name);
    return this.#values.text(name);
  }

  stated(name: string): Statedness {
    if (depth > 0) this.read.add(name);
    return this.#values.stated(name);
  }
}
