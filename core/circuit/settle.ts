/**
 * One operating state: relays, drivers and controllers are asked what the voltages make of them until nothing changes.
 * They start from where the predecessor state left them, so that latches and back-feeds show. Where no fixed point
 * exists the parts that go on changing are named (chatter).
 */
import type { BranchIndex, NetworkPart } from "../network/network.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import { sameState } from "../network/elements.ts";
import type { Condition } from "../parts/condition.ts";
import type { PartState, Sensed } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import type { Volt } from "../quantity/kinds.ts";
import type { Assembled, Bench } from "./bench.ts";
import type { ElectricalSolution } from "./electrical.ts";
import type { Figures } from "./reduced.ts";

export interface Start {
  readonly partStates: readonly PartState[];
  readonly pieces?: Int8Array;
  /** The state that these were taken from, whose elements mostly stand as they are. */
  readonly like?: Assembled;
}

/** Voltages at which capacitors are held, by branch. */
export type HeldVolts = ReadonlyMap<BranchIndex, Volt>;

export interface Settled {
  readonly condition: Condition;
  readonly elements: readonly Element[];
  readonly partStates: readonly PartState[];
  readonly solution: ElectricalSolution;
  /** Capacitors that stayed at a held voltage: those that nothing charges but through a resistance. */
  readonly held: HeldVolts;
  readonly chatter: readonly NetworkPart[];
  readonly troubles: ReadonlyMap<NetworkPart, string>;
}

const NOTHING_HELD: HeldVolts = new Map<BranchIndex, Volt>();

/**
 * A held capacitor that less than this joins to the rest charges within milliseconds (10 mF: 10 ms) and is not held.
 * Pre-charge resistors lie between 10 ohm and 1 kohm. Common practice, no source.
 */
const CHARGES_AT_ONCE = 1;

/**
 * All parts are asked at once, as on the vehicle. If that goes round in a circle, once more from the start with the
 * parts of the circle moving one at a time (of two relays that lock each other out one is first); only what then still
 * goes round chatters.
 */
export function settle(bench: Bench, condition: Condition, start: Start, held: HeldVolts = NOTHING_HELD): Settled {
  let oneByOne: ReadonlySet<NetworkPart> = new Set();
  for (;;) {
    const settled = run(bench, condition, start, held, oneByOne);
    if (settled.chatter.every((part) => oneByOne.has(part))) return settled;
    oneByOne = new Set([...oneByOne, ...settled.chatter]);
  }
}

/** Solved once with contacts, drivers and enables where they are. */
export function hold(bench: Bench, condition: Condition, start: Start, held: HeldVolts = NOTHING_HELD): Settled {
  const { elements, troubles } = bench.assemble(condition, start.partStates, start.like);
  const { solution, held: stillHeld } = solveHeld(bench, elements, start.pieces, held);
  return { condition, elements, partStates: start.partStates, solution, held: stillHeld, chatter: [], troubles };
}

function run(
  bench: Bench,
  condition: Condition,
  start: Start,
  wanted: HeldVolts,
  oneByOne: ReadonlySet<NetworkPart>,
): Settled {
  const states = start.partStates.slice();
  const assembly = bench.assemble(condition, states, start.like);
  const troubles = new Map(assembly.troubles);
  const { elements } = assembly;
  const history = new History();
  let held = wanted;
  let pieces = start.pieces;
  let last = -1;
  let chatter: readonly NetworkPart[] = [];
  let earlier: ElectricalSolution | undefined;
  for (;;) {
    const solved: { solution: ElectricalSolution; held: HeldVolts } = solveHeld(bench, elements, pieces, held, earlier);
    earlier = solved.solution;
    held = solved.held;
    pieces = solved.solution.pieces;
    const wishes = wishesOf(bench, condition, states, solved.solution, troubles);
    if (wishes.size === 0 || chatter.length > 0) {
      return { condition, elements, partStates: states, solution: solved.solution, held, chatter, troubles };
    }
    const places = [...wishes.keys()];
    const free = places.filter((place) => !isOneByOne(bench.settling[place], oneByOne));
    const moving = free.length > 0 ? free : [next(places, last)];
    for (const place of moving) {
      const part = bench.settling[place];
      const state = wishes.get(place);
      if (part === undefined || state === undefined) continue;
      states[part.index] = state;
      const trouble = bench.place(elements, part, condition, state);
      if (trouble !== undefined) troubles.set(part, trouble);
    }
    if (free.length === 0) last = moving[0] ?? last;
    const circle = history.add(
      bench.settling.map(({ index }) => states[index]),
      moving,
      last,
    );
    // The last solve shows the position in which the circle was noticed.
    if (circle !== undefined) chatter = circle.flatMap((place) => bench.settling[place] ?? []);
  }
}

function isOneByOne(part: NetworkPart | undefined, oneByOne: ReadonlySet<NetworkPart>): boolean {
  return part !== undefined && oneByOne.has(part);
}

/** The first changing part after the one that moved last, so that every part gets its turn. */
function next(places: readonly number[], last: number): number {
  return places.find((place) => place > last) ?? places[0] ?? 0;
}

/** What each part would change to, by its place in `bench.settling`; parts that stay are absent. */
function wishesOf(
  bench: Bench,
  condition: Condition,
  states: readonly PartState[],
  solution: ElectricalSolution,
  troubles: Map<NetworkPart, string>,
): ReadonlyMap<number, PartState> {
  const wishes = new Map<number, PartState>();
  const figures: Figures = {
    voltsAt: (node) => solution.volts[node] ?? 0,
    currentAt: (branch) => solution.currents[branch] ?? 0,
  };
  for (let place = 0; place < bench.settling.length; place += 1) {
    const part = bench.settling[place]!;
    const state = states[part.index];
    if (state === undefined || part.kind.settle === undefined || troubles.has(part)) continue;
    try {
      const context = bench.context(part, condition, state);
      const wish = part.kind.settle(context, new SolvedSenses(bench, part, figures, context.wired));
      if (!sameState(wish, state)) wishes.set(place, bench.intern(part, wish));
    } catch (cause) {
      if (!(cause instanceof Error)) throw cause;
      troubles.set(part, `${part.kind.kind}: ${cause.message}`);
    }
  }
  return wishes;
}

/** What a part can see of the solved circuit. */
export class SolvedSenses implements Sensed {
  readonly #bench: Bench;
  readonly #part: NetworkPart;
  protected figures: Figures;
  readonly wired: (terminal: string) => boolean;

  constructor(bench: Bench, part: NetworkPart, figures: Figures, wired: (terminal: string) => boolean) {
    this.#bench = bench;
    this.#part = part;
    this.figures = figures;
    this.wired = wired;
  }

  volts(terminal: string): Volt {
    const volts = this.figures.voltsAt(this.#part.nodes.get(terminal) ?? CHASSIS_NODE);
    return Number.isNaN(volts) ? 0 : volts;
  }

  between(a: string, b: string): Volt {
    return this.volts(a) - this.volts(b);
  }

  through(element: string): number {
    const { firstBranch, branchCount } = this.#part;
    for (let index = firstBranch; index < firstBranch + branchCount; index += 1) {
      if (this.#bench.network.branches[index]?.name === element) return this.figures.currentAt(index);
    }
    return 0;
  }
}

/** Sets of part states seen so far; tells when one comes again. */
class History {
  readonly #seen = new Map<string, number>();
  readonly #moved: (readonly number[])[] = [];
  readonly #ids: (Map<PartState, number> | undefined)[] = [];
  #first: { readonly states: readonly (PartState | undefined)[]; readonly turn: number } | undefined;

  /** The places that moved since this same set was last seen, or undefined if it is new. */
  add(
    states: readonly (PartState | undefined)[],
    moved: readonly number[],
    turn: number,
  ): readonly number[] | undefined {
    const step = this.#moved.push(moved) - 1;
    // The first set cannot come again before there is a second one: most circuits settle with one.
    if (step === 0) {
      this.#first = { states, turn };
      return undefined;
    }
    if (step === 1 && this.#first !== undefined) this.#seen.set(this.#key(this.#first.states, this.#first.turn), 0);
    const key = this.#key(states, turn);
    const earlier = this.#seen.get(key);
    this.#seen.set(key, step);
    // A part whose state never repeats (a figure that creeps) must not hold everybody for ever.
    const endless = step > 50 + 4 * states.length;
    if (earlier === undefined && !endless) return undefined;
    const circle = this.#moved.slice(earlier === undefined ? -states.length : earlier + 1);
    return [...new Set(circle.flat())].sort((a, b) => a - b);
  }

  #key(states: readonly (PartState | undefined)[], turn: number): string {
    return `${turn}|${states.map((state, place) => this.#id(place, state)).join(",")}`;
  }

  #id(place: number, state: PartState | undefined): number {
    if (state === undefined) return -1;
    const ids = (this.#ids[place] ??= new Map<PartState, number>());
    const known = ids.get(state);
    if (known !== undefined) return known;
    ids.set(state, ids.size);
    return ids.size - 1;
  }
}

/**
 * Solves with capacitors held; one that turns out to be joined directly is let go, as it charges at once. `instead`: a
 * solution whose arrays may be written over.
 */
export function solveHeld(
  bench: Bench,
  elements: readonly Element[],
  pieces: Int8Array | undefined,
  wanted: HeldVolts,
  instead?: ElectricalSolution,
): { solution: ElectricalSolution; held: HeldVolts } {
  let held = wanted;
  let solution = bench.solver.solve(elements, pieces, held.size > 0 ? held : undefined, instead);
  while (held.size > 0) {
    const kept = keptBehindResistance(bench, elements, solution.conducting, held);
    if (kept.size === held.size) break;
    held = kept;
    solution = bench.solver.solve(elements, solution.pieces, held.size > 0 ? held : undefined, solution);
  }
  return { solution, held };
}

function keptBehindResistance(
  bench: Bench,
  elements: readonly Element[],
  conducting: Uint8Array,
  held: HeldVolts,
): HeldVolts {
  const directly = (index: BranchIndex): boolean => {
    const element = elements[index];
    if (conducting[index] !== 1 || element === undefined) return false;
    return element.type !== "capacitor" && element.type !== "power-port" && element.resistance < CHARGES_AT_ONCE;
  };
  return new Map([...held].filter(([index]) => !bench.joined(bench.a[index] ?? 0, bench.b[index] ?? 0, directly)));
}
