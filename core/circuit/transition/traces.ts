/**
 * Volts and amperes of a transition, sample by sample. On a vehicle most nodes and branches follow from few of them: only
 * those are kept, and the others worked out where somebody asks.
 */
import type { Second } from "../../quantity/kinds.ts";
import type { PassingSolution } from "../electrical.ts";
import { Sight } from "../reduced.ts";
import type { Figures, Kept, Reduced } from "../reduced.ts";

/** Below this part of the figure, and below this many volts or amperes, nothing has moved. */
const STILL = 1e-7;
const STILL_VOLTS = 1e-7;
const STILL_AMPS = 1e-8;

interface Sample extends Kept {
  readonly reduced: Reduced;
}

export class Traces {
  readonly times: Second[] = [];
  readonly #nodeCount: number;
  readonly #samples: Sample[] = [];

  constructor(nodeCount: number) {
    this.#nodeCount = nodeCount;
  }

  /** Number of the last sample; -1 before the first. */
  get last(): number {
    return this.times.length - 1;
  }

  /** A copy is kept of the solution, which was found with what is reduced. */
  record(time: Second, reduced: Reduced, solution: PassingSolution): void {
    this.times.push(time);
    const potentials = solution.potentials.slice();
    const volts = isSomeAfloat(solution.volts) ? solution.volts.slice() : potentials;
    this.#samples.push({ reduced, volts, potentials, currents: solution.currents.slice() });
  }

  volts(node: number): Float64Array {
    return this.#column((reduced) => reduced.voltsOf(node), STILL_VOLTS);
  }

  currents(branch: number): Float64Array {
    return this.#column((reduced) => reduced.currentOf(branch), STILL_AMPS);
  }

  voltsAt(node: number, sample: number): number {
    const found = this.#samples[sample];
    return found === undefined ? NaN : found.reduced.voltsOf(node)(found);
  }

  /** All nodes and branches at a sample. */
  at(sample: number): Figures {
    const found = this.#samples[sample]!;
    return new Sight(this.#nodeCount).of(found.reduced, found);
  }

  #column(of: (reduced: Reduced) => (kept: Kept) => number, still: number): Float64Array {
    const column = new Float64Array(this.#samples.length);
    let reduced: Reduced | undefined;
    let value: (kept: Kept) => number = () => NaN;
    for (let k = 0; k < column.length; k += 1) {
      const sample = this.#samples[k]!;
      if (sample.reduced !== reduced) value = of((reduced = sample.reduced));
      const now = value(sample);
      const last = column[k - 1] ?? NaN;
      column[k] = Math.abs(now - last) <= still + STILL * Math.abs(last) ? last : now;
    }
    return column;
  }

  /** The sample at or before a moment (of two at one time the later), and how far it is from there to the next, 0 to 1. */
  moment(time: Second): { readonly sample: number; readonly part: number } {
    const { times } = this;
    let low = 0;
    let high = times.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (times[middle]! <= time) low = middle;
      else high = middle - 1;
    }
    const from = times[low] ?? 0;
    const to = times[low + 1] ?? from;
    return { sample: low, part: to > from ? Math.min(Math.max((time - from) / (to - from), 0), 1) : 0 };
  }
}

function isSomeAfloat(volts: Float64Array): boolean {
  for (let n = 0; n < volts.length; n += 1) if (Number.isNaN(volts[n]!)) return true;
  return false;
}
