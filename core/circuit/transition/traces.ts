/**
 * Volts and amperes of a transition, sample by sample. On a vehicle most of them stand still most of the time: of each
 * node and branch only the samples at which it moved are kept.
 */
import type { Second } from "../../quantity/kinds.ts";
import type { ElectricalSolution } from "../electrical.ts";

/** Below this part of the figure, and below this many volts or amperes, nothing has moved. */
const STILL = 1e-7;
const STILL_VOLTS = 1e-7;
const STILL_AMPS = 1e-8;

export class Traces {
  readonly times: Second[] = [];
  readonly #volts: Columns;
  readonly #currents: Columns;

  constructor(nodeCount: number, branchCount: number) {
    this.#volts = new Columns(nodeCount, STILL_VOLTS);
    this.#currents = new Columns(branchCount, STILL_AMPS);
  }

  /** Number of the last sample; -1 before the first. */
  get last(): number {
    return this.times.length - 1;
  }

  record(time: Second, { volts, currents }: ElectricalSolution): void {
    this.times.push(time);
    this.#volts.record(this.last, volts);
    this.#currents.record(this.last, currents);
  }

  volts(node: number): Float64Array {
    return this.#volts.all(node, this.times.length);
  }

  currents(branch: number): Float64Array {
    return this.#currents.all(branch, this.times.length);
  }

  voltsAt(node: number, sample: number): number {
    return this.#volts.at(node, sample);
  }

  currentAt(branch: number, sample: number): number {
    return this.#currents.at(branch, sample);
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

class Columns {
  readonly #still: number;
  readonly #lasts: Float64Array;
  readonly #samples: number[][];
  readonly #values: number[][];

  constructor(count: number, still: number) {
    this.#still = still;
    this.#lasts = new Float64Array(count);
    this.#samples = Array.from({ length: count }, () => []);
    this.#values = Array.from({ length: count }, () => []);
  }

  record(sample: number, values: Float64Array): void {
    const lasts = this.#lasts;
    for (let c = 0; c < lasts.length; c += 1) {
      const value = values[c]!;
      const last = lasts[c]!;
      if (sample > 0) {
        const moved = Math.abs(value - last);
        if (moved <= this.#still + STILL * Math.abs(last)) continue;
        if (Number.isNaN(moved) && Number.isNaN(value) === Number.isNaN(last)) continue;
      }
      lasts[c] = value;
      this.#samples[c]!.push(sample);
      this.#values[c]!.push(value);
    }
  }

  all(column: number, count: number): Float64Array {
    const result = new Float64Array(count).fill(NaN);
    const samples = this.#samples[column] ?? [];
    const values = this.#values[column] ?? [];
    samples.forEach((sample, k) => result.fill(values[k]!, sample, samples[k + 1] ?? count));
    return result;
  }

  at(column: number, sample: number): number {
    const samples = this.#samples[column] ?? [];
    let low = 0;
    let high = samples.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (samples[middle]! <= sample) low = middle;
      else high = middle - 1;
    }
    return this.#values[column]?.[low] ?? NaN;
  }
}
