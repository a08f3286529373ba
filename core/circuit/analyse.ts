/**
 * The analysis of a drawing: every operating state solved, and the questions that checks and studies ask of them. The
 * states are solved at once; everything else when it is first asked, and kept.
 */
import { changedWires, inheritReads, sameBranches } from "../network/alike.ts";
import { buildNetwork, positionOf } from "../network/build.ts";
import type { KindLookup } from "../network/build.ts";
import type { Branch, BranchIndex, NetIndex, Network, NetworkPart, NodeIndex } from "../network/network.ts";
import { whileSolving } from "../network/solver-values.ts";
import type { Condition, StateName } from "../parts/condition.ts";
import type { Project } from "../project/document.ts";
import type { Ohm, Volt } from "../quantity/kinds.ts";
import type { Analysis, Belonging, Change, ChangedState, Pack, PathQuery, SolvedState } from "./analysis.ts";
import { Belongings } from "./belonging.ts";
import { Bench } from "./bench.ts";
import type { Assembled } from "./bench.ts";
import { CONDITIONS, isBuiltIn, PRECHARGED_PART, PREDECESSORS, statesOf } from "./conditions.ts";
import { findPacks } from "./packs.ts";
import type { Packs } from "./packs.ts";
import { path, reach } from "./paths.ts";
import { Kept } from "./kept.ts";
import { hold, settle } from "./settle.ts";
import type { HeldVolts, Settled, Start } from "./settle.ts";
import { Solved } from "./solved.ts";
import { plansOf } from "./transition/plans.ts";
import type { Plan } from "./transition/plans.ts";
import { kickAcross } from "./kick.ts";
import { runTransition } from "./transition/run-transition.ts";
import type { Transition, TransitionName } from "./transition/transition.ts";

/**
 * Where each control is flipped once: with everything off, with everything on, and on the charger. The states between
 * differ from these only by controls that are flipped here as well.
 */
const FLIPPED_IN = ["parked", "driving", "charging"] as const;

/**
 * Solves a drawing in all its operating states. Never throws on a drawing, however unfinished. `before`: analyses of the
 * documents before the latest edits, the newest first, of which everything is used again that holds of this one (undoing
 * an edit leads back to the one before); the answers are those of an analysis without them.
 */
export function analyse(project: Project, lookup?: KindLookup, ...before: readonly Analysis[]): Analysis {
  const earlier = before.filter((each) => each instanceof DrawingAnalysis);
  const network = buildNetwork(project, lookup, earlier[0]?.network);
  const same = earlier.find((each) => changedWires(each.network, network)?.length === 0);
  return whileSolving(() => new DrawingAnalysis(network, same ?? earlier[0]));
}

class DrawingAnalysis implements Analysis {
  readonly network: Network;
  readonly states: readonly Solved[];
  readonly #bench: Bench;
  readonly #byName = new Map<StateName, Solved>();
  readonly #settledCapacitors = new WeakMap<Solved, Solved>();
  readonly #assembled = new WeakMap<Solved, Map<string, Assembled>>();
  readonly #shorted = new Map<string, Bench>();
  readonly #kept: Kept;
  /** What was asked for each state, for those that are kept. */
  readonly #keys = new WeakMap<Solved, string>();
  #packs: Packs | undefined;
  #belongings: Belongings | undefined;
  #parkedAfterDriving: Solved | undefined;
  #plugged: readonly Solved[] | undefined;
  #flipped: readonly Solved[] | undefined;
  #plans: readonly Plan[] | undefined;
  readonly #transitions = new Map<TransitionName, Transition>();

  constructor(network: Network, before: DrawingAnalysis | undefined) {
    this.network = network;
    const like = before !== undefined && sameBranches(before.network, network) ? before : undefined;
    const changed = like === undefined ? undefined : changedWires(like.network, network);
    this.#bench = like === undefined ? Bench.of(network) : like.#bench.for(network, changed?.length === 0);
    if (like !== undefined) {
      for (const [key, { change }] of like.#shorted) {
        this.#shorted.set(key, this.#bench.changed(change, like.#shorted.get(key)));
      }
    }
    if (like === undefined || changed === undefined) this.#kept = new Kept();
    else {
      inheritReads(like.network, network);
      this.#kept = changed.length === 0 ? like.#kept : like.#kept.transitionsOnly();
    }
    const start: Start = { partStates: this.#bench.initial() };
    for (const name of statesOf(network)) {
      const earlier = PREDECESSORS[name];
      this.#byName.set(
        name,
        this.#solve(
          `state ${name}`,
          name,
          CONDITIONS[name],
          earlier === undefined ? start : this.#from(earlier, start),
        ),
      );
    }
    for (const { name, from, set } of network.project.states) {
      const base = this.#byName.get(from);
      const condition = base?.condition ?? (isBuiltIn(from) ? CONDITIONS[from] : undefined);
      if (condition === undefined || this.#byName.has(name)) continue;
      const own = { ...condition, state: name, set: { ...condition.set, ...set } };
      this.#byName.set(name, this.#solve(`state ${name}`, name, own, base ?? start));
    }
    this.states = [...this.#byName.values()];
  }

  state(name: StateName): Solved | undefined {
    return this.#byName.get(name);
  }

  get parkedAfterDriving(): Solved | undefined {
    const driving = this.state("driving");
    if (driving === undefined) return undefined;
    return (this.#parkedAfterDriving ??= this.#solve("after", "parked after driving", CONDITIONS.parked, driving));
  }

  get plugged(): readonly Solved[] {
    return (this.#plugged ??= (["driving", "stored"] as const).flatMap((name) => {
      const state = this.state(name);
      const condition = { ...CONDITIONS[name], mains: "plugged" } as const;
      if (state === undefined || !this.#moved(CONDITIONS[name], condition)) return [];
      return [this.#solve(`plugged ${name}`, `${name} while plugged in`, condition, state)];
    }));
  }

  get flipped(): readonly Solved[] {
    return (this.#flipped ??= FLIPPED_IN.flatMap((name) => this.state(name) ?? []).flatMap((state) =>
      this.network.parts.flatMap((part) => {
        const { control } = part.kind;
        if (control?.flip !== true || !this.#isWired(part)) return [];
        const now = positionOf(part, state.condition);
        return control
          .positions(part.values)
          .filter((position) => position !== now)
          .map((position) => {
            const condition = { ...state.condition, set: { ...state.condition.set, [part.part.id]: position } };
            const called = `${state.name} with ${part.part.designation} ${position}`;
            return this.#solve(`flip ${state.name} ${part.part.id} ${position}`, called, condition, state);
          });
      }),
    ));
  }

  settledCapacitors(state: SolvedState): Solved {
    const own = mine(state);
    if (own.settled.held.size === 0) return own;
    let settled = this.#settledCapacitors.get(own);
    if (settled === undefined) {
      const key = this.#keys.get(own);
      settled = this.#keep(key === undefined ? undefined : `settled ${key}`, own.name, own.bench, () =>
        settle(own.bench, own.condition, own.start),
      );
      this.#settledCapacitors.set(own, settled);
    }
    return settled;
  }

  solveChanged(state: SolvedState, change: Change): ChangedState {
    const own = mine(state);
    const bench = this.#changed(together(own.bench.change, change));
    const asked = this.#keys.get(own);
    const key = asked === undefined ? undefined : `${asked} | ${JSON.stringify(change)}`;
    const known = key === undefined ? undefined : this.#kept.changed(key, bench);
    if (key !== undefined && known !== undefined) return this.#named(key, new Solved(own.name, bench, known));
    const condition =
      change.set === undefined ? own.condition : { ...own.condition, set: { ...own.condition.set, ...change.set } };
    const solve = change.hold === true ? hold : settle;
    // Shorts are numbered behind the branches, so that earlier pieces stay a good start.
    const settled = whileSolving(() => {
      const start = { ...own.start, like: this.#like(own, bench, condition) };
      return solve(bench, condition, start, own.settled.held);
    });
    const solved = new Solved(own.name, bench, settled);
    if (key === undefined) return solved;
    this.#kept.keepChanged(key, settled, bench);
    return this.#named(key, solved);
  }

  get transitionNames(): readonly TransitionName[] {
    return this.#allPlans().map(({ name }) => name);
  }

  #allPlans(): readonly Plan[] {
    return (this.#plans ??= whileSolving(() => plansOf(this.network, this.#bench.sources)));
  }

  transition(name: TransitionName): Transition | undefined {
    const known = this.#transitions.get(name);
    if (known !== undefined) return known;
    const plan = this.#allPlans().find((each) => each.name === name);
    const start = plan === undefined ? undefined : this.state(plan.from);
    if (plan === undefined || start === undefined) return undefined;
    const kept = this.#kept.transition(plan, this.#bench);
    const transition = kept ?? whileSolving(() => runTransition(start, plan));
    if (kept === undefined) this.#kept.keepTransition(plan, transition, this.network);
    this.#transitions.set(name, transition);
    return transition;
  }

  kick(state: SolvedState, open: readonly BranchIndex[], coil: BranchIndex): Volt {
    return kickAcross(mine(state), open, coil);
  }

  get packs(): readonly Pack[] {
    return (this.#packs ??= findPacks(this.#bench)).packs;
  }

  get supplies(): readonly Pack[] {
    return (this.#packs ??= findPacks(this.#bench)).supplies;
  }

  belonging(net: NetIndex): Belonging {
    this.#belongings ??= new Belongings(this.states, [...this.packs, ...this.supplies]);
    return this.#belongings.of(net);
  }

  resistanceBetween(state: SolvedState, a: NodeIndex, b: NodeIndex): Ohm {
    return mine(state).resistanceBetween(a, b);
  }

  resistancesFrom(state: SolvedState, from: NodeIndex): Float64Array {
    return mine(state).resistancesFrom(from);
  }

  reach(state: SolvedState, from: NodeIndex, query: PathQuery): ReadonlySet<NodeIndex> {
    return reach(this.network, state, from, query);
  }

  path(state: SolvedState, from: NodeIndex, to: NodeIndex, query: PathQuery): readonly Branch[] | undefined {
    return path(this.network, state, from, to, query);
  }

  get approximate(): Analysis["approximate"] {
    return this.network.conductors
      .filter(({ assumed }) => assumed.length > 0)
      .map(({ wire, assumed }) => ({ wire: wire.id, assumed }));
  }

  /** The elements of a state on a bench of this kind: put together once, as one change is looked at with many shorts. */
  #like(own: Solved, bench: Bench, condition: Condition): Assembled {
    const plain = { bench: own.bench, settled: own.settled };
    if (own.bench.kind === bench.kind) return plain;
    const opening = bench.opening(plain);
    if (opening !== undefined) return opening;
    let kinds = this.#assembled.get(own);
    if (kinds === undefined) this.#assembled.set(own, (kinds = new Map<string, Assembled>()));
    let like = kinds.get(bench.kind);
    if (like === undefined) {
      const { partStates } = own.settled;
      like = { bench, settled: { condition, partStates, ...bench.assemble(condition, partStates) } };
      const [oldest] = kinds.keys();
      if (kinds.size >= KEPT_KINDS && oldest !== undefined) kinds.delete(oldest);
      kinds.set(bench.kind, like);
    }
    return like;
  }

  #from(name: StateName, start: Start): Solved | Start {
    return this.#byName.get(name) ?? start;
  }

  #solve(key: string, name: StateName, condition: Condition, from: Solved | Start): Solved {
    return this.#keep(key, name, this.#bench, () => this.#settled(name, condition, from));
  }

  /** Kept from an earlier analysis of the same circuit, or solved and kept for the next one. */
  #keep(key: string | undefined, name: StateName, bench: Bench, solve: () => Settled): Solved {
    if (key === undefined) return new Solved(name, bench, solve());
    const known = this.#kept.state(key, this.network);
    const settled = known ?? whileSolving(solve);
    if (known === undefined) this.#kept.keepState(key, settled);
    return this.#named(key, new Solved(name, bench, settled));
  }

  #named(key: string, solved: Solved): Solved {
    this.#keys.set(solved, key);
    return solved;
  }

  #settled(name: StateName, condition: Condition, from: Solved | Start): Settled {
    const bench = this.#bench;
    const start = from instanceof Solved ? from.start : from;
    const across = (volts: (index: number) => number): HeldVolts =>
      new Map(bench.capacitors.map((index) => [index, volts(index)]));
    if (condition.capacitors === "steady" || bench.capacitors.length === 0) {
      return settle(bench, condition, start);
    }
    if (condition.capacitors === "empty") {
      return settle(
        bench,
        condition,
        start,
        across(() => 0),
      );
    }
    const kept = across((index) => (from instanceof Solved ? voltsAcross(from, index) : 0));
    const settled = settle(bench, condition, start, kept);
    if (condition.capacitors === "kept") return settled;
    // Steady voltage with the contacts as they stand before the bus has charged, and the stated part of it.
    const first = new Solved(name, bench, settled);
    const steady = new Solved(name, bench, hold(bench, condition, first.start));
    const part = new Map(
      [...settled.held.keys()].map((index) => [index, PRECHARGED_PART * voltsAcross(steady, index)]),
    );
    return settle(bench, condition, first.start, part);
  }

  #isWired({ part, terminals }: NetworkPart): boolean {
    return terminals.some(({ id }) => this.network.wiresAt([part.id, id]).length > 0);
  }

  /** Does any control stand elsewhere in these two conditions? */
  #moved(a: Condition, b: Condition): boolean {
    return this.network.parts.some(
      (part) => positionOf(part, a) !== positionOf(part, b) || part.kind.traits.charger === true,
    );
  }

  /** The bench with a change; a topology with shorts is kept, as the same shorts are looked at in state after state. */
  #changed(change: Change): Bench {
    if (change.shorts === undefined || change.shorts.length === 0) return this.#bench.changed(change);
    const key = change.shorts.map(([a, b]) => `${a}-${b}`).join(" ");
    let shorted = this.#shorted.get(key);
    if (shorted === undefined) {
      shorted = this.#bench.changed({ shorts: change.shorts });
      const [oldest] = this.#shorted.keys();
      if (this.#shorted.size >= KEPT_TOPOLOGIES && oldest !== undefined) this.#shorted.delete(oldest);
      this.#shorted.set(key, shorted);
    }
    return this.#bench.changed(change, shorted);
  }
}

/** Topologies with shorts that are kept: some 50 kB each on a vehicle of 300 parts. */
const KEPT_TOPOLOGIES = 256;

/** Kinds of change of which a state keeps the elements. */
const KEPT_KINDS = 8;

/** A change on top of an earlier one. */
function together(earlier: Change, later: Change): Change {
  return {
    ...earlier,
    ...later,
    shorts: [...(earlier.shorts ?? []), ...(later.shorts ?? [])],
    open: [...(earlier.open ?? []), ...(later.open ?? [])],
  };
}

function mine(state: SolvedState): Solved {
  if (!(state instanceof Solved)) throw new TypeError("this state was not solved by this analysis");
  return state;
}

function voltsAcross(state: Solved, branch: number): number {
  const { a, b } = state.bench;
  const volts = state.between(a[branch] ?? 0, b[branch] ?? 0);
  return Number.isNaN(volts) ? 0 : volts;
}
