/**
 * A network carried forward in time. Each step has two implicit stages (SDIRK of order 2 with gamma = 1 - 1/sqrt 2;
 * Alexander, SIAM J. Numer. Anal. 14, 1977): L-stable, so that a microsecond beside a minute does no harm. In a stage a
 * capacitor is an EMF behind k / C and a coil an EMF behind R + L / k, k = gamma h: two-terminal elements of positive
 * conductance, so that the solver of steady states solves every stage, corners and constant power included.
 */
import type { Element } from "../../parts/element.ts";
import type { Second } from "../../quantity/kinds.ts";
import type { ElectricalSolver, Given, PassingSolution } from "../electrical.ts";
import { LEAST_RESISTANCE } from "../pieces.ts";

/** What solves a stage. */
type Solver = Pick<ElectricalSolver, "pass">;

/** Where the middle stage of a step lies. */
export const GAMMA = 1 - Math.SQRT1_2;
/** Weights of order 3 for values at 0, gamma and 1: they tell the error of a step, and sum up energies. */
const MIDDLE = 1 / (6 * GAMMA * (1 - GAMMA));
const LAST = 1 / 2 - GAMMA * MIDDLE;
const FIRST = 1 - MIDDLE - LAST;
export const QUADRATURE = { first: FIRST, middle: MIDDLE, last: LAST } as const;

/** A moment: so short that no capacitor and no coil changes, long enough for the arithmetic. */
const MOMENT: Second = 1e-9;
/**
 * Error of one step, as a part of the figure itself or of this part of the scale, whichever is more: a coil lets go at a
 * tenth of its current, a capacitor is followed down to a few volts.
 */
const TOLERANCE = 5e-6;
const FLOOR_COIL = 1;
const FLOOR_CAPACITOR = 0.1;
/** After so many steps without an event the tolerance is this much wider: a course in time needs a few hundred. */
const PATIENCE = 2000;
const LOOSER = 30;
/** Shortest step: a thousandth of the time in which 10 mF charge through 1 mohm. */
export const SHORTEST: Second = 1e-8;
const FIRST_STEP: Second = 1e-3;
const CORNERED = 0.1;

/** What carries its figure from moment to moment: volts of a capacitor, amperes of a coil. */
interface Store {
  /** Its branch in the network as it was handed over first, and among those that are now solved. */
  readonly branch: number;
  place: number;
  readonly coil: boolean;
  /** Farad or henry. */
  size: number;
  /** Ohm in series: a coil's winding. */
  ohms: number;
}

/** What a store is to the solver, with an EMF and a resistance of its own in every stage. */
const STORE: Element = {
  type: "source",
  name: "store",
  a: "",
  b: "",
  role: "source",
  emf: 0,
  resistance: 1,
  storage: false,
};
const NO_SIEMENS = new Float64Array(0);

/** A step that was worked out and not yet taken. */
export interface Step {
  readonly length: Second;
  /** Largest error by what is allowed: above 1 the step is too long. */
  readonly error: number;
  /** At gamma of its length, and at its end. */
  readonly middle: PassingSolution;
  readonly end: PassingSolution;
  readonly values: Float64Array;
  readonly rates: Float64Array;
}

export class Stepper {
  time: Second = 0;
  /** What stands at `time`; currents of capacitors and coils from a to b. */
  now: PassingSolution;
  /** Change per second of each store, at `time`. */
  rates: Float64Array;
  /** Volts and amperes of the stores, in the order of `stores`. */
  values: Float64Array;
  readonly stores: readonly Store[];
  /** Solves so far. */
  solves = 0;
  /** Steps since the last change: one that takes very many has something that flickers at a corner. */
  #steps = 0;
  #solver: Solver;
  #work: Element[];
  #given: Given;
  readonly #scale: Float64Array;
  #spare: PassingSolution | undefined;
  #middle: PassingSolution | undefined;

  /**
   * `elements` parallel to the solver's branches. Capacitors start at `volts` and coils at `amps`, by branch, 0 where
   * absent. A capacitor without capacitance stays open, a coil without inductance is its resistance. `branches`: what the
   * elements are called outside, where not by their places. `siemens`: conductances of the last branches, where they are
   * not those of their elements.
   */
  constructor(
    solver: Solver,
    elements: readonly Element[],
    volts: ReadonlyMap<number, number>,
    amps: ReadonlyMap<number, number>,
    pieces?: Int8Array,
    branches?: ArrayLike<number>,
    siemens: Float64Array = NO_SIEMENS,
  ) {
    this.#solver = solver;
    this.stores = elements.flatMap((element, place): Store[] => {
      const size = sizeOf(element);
      const branch = branches?.[place] ?? place;
      return size > 0 ? [{ branch, place, coil: element.type === "coil", size, ohms: 0 }] : [];
    });
    this.#work = elements.slice();
    this.values = Float64Array.from(this.stores, ({ branch, coil }) => (coil ? amps : volts).get(branch) ?? 0);
    this.rates = new Float64Array(this.stores.length);
    this.#scale = new Float64Array(this.stores.length);
    this.#given = this.#giving(siemens);
    this.#load(elements);
    this.now = this.#solve(MOMENT, this.values, pieces, undefined);
    this.#takeRates();
  }

  /** Contacts, sources and the like stand differently from now on; capacitors and coils carry on. */
  change(elements: readonly Element[], siemens: Float64Array = NO_SIEMENS): void {
    const before = this.now;
    this.#given.siemens.set(siemens, this.stores.length);
    this.#begin(elements, before.pieces, this.#spare);
    this.#spare = before;
  }

  /** As `change`, where another solver goes on, in which each branch has the place told. */
  changeTo(
    solver: Solver,
    elements: readonly Element[],
    siemens: Float64Array,
    place: ArrayLike<number>,
    pieces: Int8Array,
  ): void {
    this.#solver = solver;
    this.#work = elements.slice();
    for (const store of this.stores) store.place = place[store.branch]!;
    this.#given = this.#giving(siemens);
    this.#begin(elements, pieces, undefined);
    this.#spare = undefined;
    this.#middle = undefined;
  }

  /** As `change`, where no voltage and no current changes with it. */
  exchange(place: number, element: Element): void {
    this.#work[place] = element;
  }

  /** A step of this length from `time`; the one worked out before is overwritten. */
  attempt(length: Second): Step {
    const { stores, values, rates } = this;
    const k = GAMMA * length;
    const middle = this.#solve(k, values, this.now.pieces, this.#middle);
    this.#middle = middle;
    const first = this.#carried(middle, values, k);
    const base = new Float64Array(stores.length);
    for (let s = 0; s < base.length; s += 1) {
      base[s] = values[s]! + ((1 - GAMMA) / GAMMA) * (first[s]! - values[s]!);
    }
    const end = this.#solve(k, base, middle.pieces, this.#spare);
    this.#spare = end;
    const next = this.#carried(end, base, k);
    const cornered = differ(this.now.pieces, end.pieces) || differ(middle.pieces, end.pieces);
    let error = 0;
    const nextRates = new Float64Array(stores.length);
    for (let s = 0; s < stores.length; s += 1) {
      const one = (first[s]! - values[s]!) / k;
      const two = (next[s]! - base[s]!) / k;
      nextRates[s] = two;
      const off = length * (FIRST * rates[s]! + (MIDDLE - (1 - GAMMA)) * one + (LAST - GAMMA) * two);
      // Across a corner of a curve the three rates may cancel by chance: there the plain difference counts as well.
      const plain = cornered ? CORNERED * length * Math.abs(two - one) : 0;
      // Where a coil's last nanoamperes hang on a diode's corner the rates leap; what hardly moves is hardly wrong.
      const moved = Math.abs(next[s]! - values[s]!) + Math.abs(first[s]! - values[s]!);
      error = Math.max(error, Math.min(Math.max(Math.abs(off), plain), moved) / this.allowed(s, next[s]!));
    }
    return { length, error, middle, end, values: next, rates: nextRates };
  }

  /** Takes the step that was attempted last. */
  take({ length, end, values, rates }: Step): void {
    this.#spare = this.now;
    this.now = end;
    this.values = values;
    this.rates = rates;
    this.time += length;
    this.#steps += 1;
  }

  /** Length with which to begin after a change. */
  firstLength(): Second {
    let length = FIRST_STEP;
    this.rates.forEach((rate, s) => {
      if (rate !== 0) length = Math.min(length, this.allowed(s, this.values[s]!) / Math.abs(FIRST * rate));
    });
    return Math.max(length, SHORTEST);
  }

  /** Length with which to go on after a step of this error. */
  nextLength({ length, error }: Step): Second {
    return length * Math.min(Math.max(0.9 * Math.cbrt(1 / Math.max(error, 1e-9)), 0.1), 4);
  }

  /** What a store may be off by, volts or amperes. */
  allowed(store: number, value: number): number {
    const floor = (this.stores[store]!.coil ? FLOOR_COIL : FLOOR_CAPACITOR) * this.#scale[store]!;
    const tolerance = this.#steps > PATIENCE ? TOLERANCE * LOOSER : TOLERANCE;
    return tolerance * Math.max(Math.abs(this.values[store]!), Math.abs(value), floor);
  }

  /** Largest figure that a store is likely to see: the largest EMF, or that through the coil's winding. */
  scale(store: number): number {
    return this.#scale[store]!;
  }

  /** Stores first, then the conductances of the last branches. */
  #giving(siemens: Float64Array): Given {
    const [count, last] = [this.stores.length, this.#work.length - siemens.length];
    const places = Int32Array.from({ length: count + siemens.length }, (_, k) =>
      k < count ? this.stores[k]!.place : last + k - count,
    );
    const given = { places, emf: new Float64Array(places.length), siemens: new Float64Array(places.length) };
    given.siemens.set(siemens, count);
    return given;
  }

  #load(elements: readonly Element[]): void {
    let most = 1;
    for (let e = 0; e < elements.length; e += 1) {
      const element = elements[e]!;
      this.#work[e] = element;
      if (element.type === "source" || element.type === "limited-source") {
        most = Math.max(most, Math.abs(element.emf));
      }
    }
    this.stores.forEach((store, s) => {
      const element = elements[store.place]!;
      this.#work[store.place] = STORE;
      store.size = sizeOf(element);
      store.ohms = element.type === "coil" ? element.resistance : 0;
      const largest = store.coil ? most / Math.max(store.ohms, 1e-3) : most;
      this.#scale[s] = Math.max(this.#scale[s]!, largest, Math.abs(this.values[s]!));
    });
  }

  /** The moment just after a change. */
  #begin(elements: readonly Element[], pieces: Int8Array, instead: PassingSolution | undefined): void {
    this.#load(elements);
    this.now = this.#solve(MOMENT, this.values, pieces, instead);
    this.#steps = 0;
    this.#takeRates();
  }

  /** One implicit stage over `k` seconds from `base`. */
  #solve(
    k: Second,
    base: Float64Array,
    pieces: Int8Array | undefined,
    instead: PassingSolution | undefined,
  ): PassingSolution {
    const { stores } = this;
    const { emf, siemens } = this.#given;
    for (let s = 0; s < stores.length; s += 1) {
      const { coil, size, ohms } = stores[s]!;
      emf[s] = coil ? (-size / k) * base[s]! : base[s]!;
      siemens[s] = 1 / Math.max(coil ? ohms + size / k : k / size, LEAST_RESISTANCE);
    }
    this.solves += 1;
    const solution = this.#solver.pass(this.#work, pieces, this.#given, instead);
    for (const { place } of stores) solution.currents[place] = 0 - solution.currents[place]!;
    return solution;
  }

  /** What the stores hold after a stage. */
  #carried({ currents }: PassingSolution, base: Float64Array, k: Second): Float64Array {
    const { stores } = this;
    const carried = new Float64Array(stores.length);
    for (let s = 0; s < carried.length; s += 1) {
      const { place, coil, size } = stores[s]!;
      carried[s] = coil ? currents[place]! : base[s]! + (k / size) * currents[place]!;
    }
    return carried;
  }

  #takeRates(): void {
    const after = this.#carried(this.now, this.values, MOMENT);
    this.rates = Float64Array.from(after, (value, s) =>
      this.stores[s]!.coil
        ? (value - this.values[s]!) / MOMENT
        : this.now.currents[this.stores[s]!.place]! / this.stores[s]!.size,
    );
  }
}

function differ(one: Int8Array, other: Int8Array): boolean {
  for (let e = 0; e < one.length; e += 1) if (one[e] !== other[e]) return true;
  return false;
}

function sizeOf(element: Element): number {
  const size = element.type === "capacitor" ? element.capacitance : element.type === "coil" ? element.inductance : 0;
  return size !== undefined && Number.isFinite(size) ? size : 0;
}
