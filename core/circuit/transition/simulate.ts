/**
 * A bare network of elements in time, without a drawing: contacts move at given moments, nothing decides for itself.
 * This is the entry for comparisons with a general circuit simulator; a drawing goes through analysis.transition(name).
 */
import type { Element } from "../../parts/element.ts";
import type { Joule, Second, Volt } from "../../quantity/kinds.ts";
import { ElectricalSolver } from "../electrical.ts";
import type { ElectricalSolution } from "../electrical.ts";
import { breakdown, parting } from "./arc.ts";
import { QUADRATURE, SHORTEST, Stepper } from "./stepper.ts";
import type { Step } from "./stepper.ts";

export interface BareNetwork {
  /** Node 0 is the chassis. */
  readonly nodeCount: number;
  /** Ends of each branch, and what it is. */
  readonly a: ArrayLike<number>;
  readonly b: ArrayLike<number>;
  readonly elements: readonly Element[];
  readonly duration: Second;
  /** Where capacitors (volts, a to b) and coils (amperes, a to b) start, by branch; 0 where absent. */
  readonly volts?: Readonly<Record<number, number>>;
  readonly amps?: Readonly<Record<number, number>>;
  /** Contacts that move, ascending in time. */
  readonly moves?: readonly { readonly time: Second; readonly branch: number; readonly closed: boolean }[];
  /** Voltage at which an opening contact's gap breaks down; Infinity for ideal contacts. Left out: as in a drawing. */
  readonly breakdown?: Volt;
}

export interface Simulation {
  /** Ascending, first 0; two samples at one time = just before and just after a contact moved. */
  readonly times: Float64Array;
  /** By sample, to chassis; NaN = afloat. */
  volts(node: number): Float64Array;
  /** By sample, a to b; of a source, positive when it delivers. */
  currents(branch: number): Float64Array;
  /** What each branch took up in all: the integral of (volts a minus b) times (current a to b). */
  readonly energies: readonly Joule[];
  readonly solves: number;
}

/** More steps than any network of a vehicle needs; beyond it the network has no course in time worth telling. */
const MOST_STEPS = 100_000;

/** Throws a RangeError where the network has no course in time (an element without resistance, too many steps). */
export function simulate(network: BareNetwork): Simulation {
  const { nodeCount, duration } = network;
  const a = Int32Array.from(network.a);
  const b = Int32Array.from(network.b);
  const solver = new ElectricalSolver(nodeCount, a, b);
  const elements = network.elements.slice();
  const gap = network.breakdown ?? breakdown(elements);
  const stepper = new Stepper(solver, elements, byBranch(network.volts), byBranch(network.amps));
  const energies = new Energies(elements, a, b);
  const times: number[] = [];
  const samples: { readonly volts: Float64Array; readonly currents: Float64Array }[] = [];
  const record = (): void => {
    times.push(stepper.time);
    samples.push({ volts: stepper.now.volts.slice(), currents: stepper.now.currents.slice() });
  };
  record();
  energies.begin(stepper.now);
  const moves = (network.moves ?? []).slice();
  const arcs = new Map<number, Element>();
  let length = stepper.firstLength();
  for (let steps = 0; stepper.time < duration; steps += 1) {
    if (steps > MOST_STEPS)
      throw new RangeError(`no end after ${String(MOST_STEPS)} steps at ${String(stepper.time)} s`);
    const next = Math.min(moves[0]?.time ?? duration, duration);
    const left = next - stepper.time;
    if (left > 0) {
      const step = stepper.attempt(
        length > 0.999 * left ? left : Math.min(length, left / 2 > length ? length : left / 2),
      );
      length = stepper.nextLength(step);
      if (step.error > 1 && step.length > SHORTEST) continue;
      energies.add(step);
      stepper.take(step);
      if (step.length === left) stepper.time = next;
      record();
      for (const [branch, open] of arcs) {
        if (stepper.now.conducting[branch] === 1) continue;
        stepper.exchange(branch, (elements[branch] = open));
        arcs.delete(branch);
      }
    }
    if (stepper.time < next || stepper.time >= duration) continue;
    while (moves[0] !== undefined && moves[0].time <= stepper.time) {
      const { branch, closed } = moves.shift()!;
      const contact = network.elements[branch];
      if (contact?.type !== "contact") throw new RangeError(`branch ${String(branch)} is no contact`);
      const moved = { ...contact, closed };
      arcs.delete(branch);
      elements[branch] = moved;
      if (!closed && Number.isFinite(gap)) {
        elements[branch] = parting(contact, gap);
        arcs.set(branch, moved);
      }
    }
    stepper.change(elements);
    record();
    energies.begin(stepper.now);
    length = stepper.firstLength();
  }
  return {
    times: Float64Array.from(times),
    volts: (node) => Float64Array.from(samples, ({ volts }) => volts[node] ?? NaN),
    currents: (branch) => Float64Array.from(samples, ({ currents }) => currents[branch] ?? NaN),
    energies: [...energies.sums],
    solves: stepper.solves,
  };
}

/** What branches take up, summed by the rule of order 3 that goes with the steps. */
export class Energies {
  readonly sums: Float64Array;
  readonly #delivers: Uint8Array;
  readonly #a: Int32Array;
  readonly #b: Int32Array;
  #powers: Float64Array;

  constructor(elements: readonly Element[], a: Int32Array, b: Int32Array) {
    this.sums = new Float64Array(elements.length);
    this.#delivers = Uint8Array.from(elements, ({ type }) => (type === "source" || type === "limited-source" ? 1 : 0));
    this.#a = a;
    this.#b = b;
    this.#powers = new Float64Array(elements.length);
  }

  /** Where a stretch without jumps begins. */
  begin(solution: ElectricalSolution): void {
    this.#powers = this.#of(solution);
  }

  add({ length, middle, end }: Step): void {
    const { first, middle: inner, last } = QUADRATURE;
    const half = this.#of(middle);
    const whole = this.#of(end);
    for (let e = 0; e < this.sums.length; e += 1) {
      this.sums[e]! += length * (first * this.#powers[e]! + inner * half[e]! + last * whole[e]!);
    }
    this.#powers = whole;
  }

  #of({ volts, currents }: ElectricalSolution): Float64Array {
    return Float64Array.from(this.sums, (_, e) => {
      const across = volts[this.#a[e]!]! - volts[this.#b[e]!]!;
      const taken = across * currents[e]!;
      return Number.isNaN(taken) ? 0 : this.#delivers[e] === 1 ? -taken : taken;
    });
  }
}

function byBranch(figures: Readonly<Record<number, number>> | undefined): ReadonlyMap<number, number> {
  return new Map(Object.entries(figures ?? {}).map(([branch, figure]) => [Number(branch), figure]));
}
