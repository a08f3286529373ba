/**
 * The bench a drawing is solved on: its network, one numeric solver (ordering done once for all states), and what is
 * different from the drawing as it stands (branches opened, shorts added, another end of a resistance's range).
 */
import { ElementsChanged, sameState } from "../network/elements.ts";
import { initialState, OTHER_LEAK, positionOf } from "../network/build.ts";
import { REFERENCE_CONDITION } from "../network/reference-condition.ts";
import type { Branch, BranchIndex, Network, NetworkPart, NodeIndex } from "../network/network.ts";
import type { Condition } from "../parts/condition.ts";
import type { PartContext, PartState } from "../parts/define.ts";
import type { Element } from "../parts/element.ts";
import type { Ampere } from "../quantity/kinds.ts";
import type { Change } from "./analysis.ts";
import { ElectricalSolver } from "./electrical.ts";
import { findSources } from "./duty.ts";
import type { Sources } from "./duty.ts";
import { motorCurrents } from "./motor-current.ts";
import { Reduction } from "./reduction.ts";
import { Web } from "./web.ts";

/** A bolted short: as little as a bolted joint, IEC 60909 takes it as zero; a finite figure keeps the matrix positive. */
export const BOLTED = 1e-6;

/** Reduced networks that are kept: some 150 kB each on a vehicle of 300 parts. */
const KEPT_REDUCTIONS = 8;

export interface Assembly {
  /** Parallel to the branches of the network, then one for each short. */
  readonly elements: Element[];
  /** Parts that could not say what they are in this condition, and why. */
  readonly troubles: ReadonlyMap<NetworkPart, string>;
}

/** Elements in their places, and what they were assembled for. */
export interface Assembled {
  readonly bench: Bench;
  readonly settled: {
    readonly condition: Condition;
    readonly elements: readonly Element[];
    readonly partStates: readonly PartState[];
    readonly troubles: ReadonlyMap<NetworkPart, string>;
  };
}

export class Bench {
  readonly network: Network;
  readonly solver: ElectricalSolver;
  /** Parts with a discrete state that follows the circuit. */
  readonly settling: readonly NetworkPart[];
  /** Branches that are capacitors, whatever the condition. */
  readonly capacitors: readonly BranchIndex[];
  readonly a: Int32Array;
  readonly b: Int32Array;
  /** What is different from the drawing as it stands. */
  readonly change: Change;
  /** Batteries and other supplies with their duty, which some elements depend on. */
  readonly sources: Sources;
  readonly #wiring: Wiring;
  /** What stands otherwise than drawn, shorts left aside: benches of one kind have the same elements. */
  readonly kind: string;
  readonly #wired: Map<NetworkPart, (terminal: string) => boolean>;
  #web: Web | undefined;
  readonly #motorCurrents: ReadonlyMap<NetworkPart, Ampere>;
  readonly #known: Map<NetworkPart, PartState[]>;
  readonly #reductions: Map<string, Reduction>;
  readonly #open: ReadonlySet<BranchIndex>;
  readonly #ends: "nominal" | "lowest" | "highest" | "hot";

  private constructor(network: Network, change: Change, base: Bench | undefined, shorted: Bench | undefined) {
    this.network = network;
    this.change = change;
    const shorts = change.shorts ?? [];
    const sameTopology = shorted ?? (shorts.length === 0 ? base : undefined);
    this.a = sameTopology?.a ?? ends(base?.a ?? drawnEnds(network, "a"), shorts, 0);
    this.b = sameTopology?.b ?? ends(base?.b ?? drawnEnds(network, "b"), shorts, 1);
    this.solver =
      sameTopology?.solver ??
      new ElectricalSolver(network.nodeCount, this.a, this.b, base ? undefined : parts(network), base?.solver);
    this.settling =
      base?.settling ?? network.parts.filter(({ kind, trouble }) => kind.settle !== undefined && trouble === undefined);
    this.capacitors =
      base?.capacitors ?? network.branches.filter(({ role }) => role === "capacitor").map(({ index }) => index);
    this.#motorCurrents = base ? base.#motorCurrents : motorCurrents(network);
    this.sources = base?.sources ?? findSources(network, elementsAsDrawn(network));
    this.#known = base ? base.#known : new Map<NetworkPart, PartState[]>();
    this.#wired = base ? base.#wired : new Map<NetworkPart, (terminal: string) => boolean>();
    this.#web = sameTopology === undefined ? undefined : sameTopology.#web;
    this.#reductions = sameTopology === undefined ? new Map<string, Reduction>() : sameTopology.#reductions;
    this.#open = new Set(change.open ?? []);
    this.#ends = change.resistances ?? "nominal";
    this.#wiring = base ? base.#wiring : new Wiring(network);
    this.kind = `${this.#ends} ${[...this.#open].join(" ")}`;
  }

  static of(network: Network): Bench {
    return new Bench(network, {}, undefined, undefined);
  }

  /**
   * For another network of the same branches as this one's: its order of elimination and its arrays are used again.
   * `sameStates`: states are compared by identity, and those that are carried over are to be found again.
   */
  for(network: Network, sameStates: boolean): Bench {
    const bench = new Bench(network, {}, undefined, this);
    if (sameStates) for (const [part, states] of this.#known) bench.#known.set(network.parts[part.index]!, states);
    return bench;
  }

  /** The same drawing with a change; `shorted` = an earlier bench with the same shorts, whose solver is used again. */
  changed(change: Change, shorted?: Bench): Bench {
    return new Bench(this.network, change, this, shorted);
  }

  /**
   * The elements of an earlier bench that has fewer branches open and nothing else different; undefined where more is.
   * Opening a wire so costs one element, not a question to every part.
   */
  opening({ bench, settled }: Assembled): Assembled | undefined {
    if (bench.#ends !== this.#ends) return undefined;
    for (const index of bench.#open) if (!this.#open.has(index)) return undefined;
    const elements = settled.elements.slice(0, this.network.branches.length);
    for (const index of this.#open) {
      const element = elements[index];
      if (element !== undefined && !bench.#open.has(index)) elements[index] = opened(element.name, element.role);
    }
    return { bench: this, settled: { ...settled, elements } };
  }

  /** Part states before anything was ever energised. */
  initial(): readonly PartState[] {
    return this.network.parts.map((part) => this.intern(part, initialState(part.kind, part.values)));
  }

  /** States equal by value become one object, so that "unchanged" is "identical". */
  intern(part: NetworkPart, state: PartState): PartState {
    let known = this.#known.get(part);
    if (known === undefined) this.#known.set(part, (known = []));
    for (const candidate of known) if (sameState(candidate, state)) return candidate;
    known.push(state);
    return state;
  }

  /** Whether a wire is at a terminal of this part. */
  wiredOf(part: NetworkPart): (terminal: string) => boolean {
    let wired = this.#wired.get(part);
    if (wired === undefined) {
      wired = (terminal) => this.network.wiresAt([part.part.id, terminal]).length > 0;
      this.#wired.set(part, wired);
    }
    return wired;
  }

  /** Do branches of which `crossing` holds lead from one node to the other? */
  joined(from: NodeIndex, to: NodeIndex, crossing: (branch: BranchIndex) => boolean): boolean {
    return (this.#web ??= new Web(this.network.nodeCount, this.a, this.b)).joined(from, to, crossing);
  }

  /** The network with those branches left that `stays` says (1 by branch): kept, as several transitions need the same. */
  reduced(stays: Uint8Array): Reduction {
    const key = stays.join("");
    let reduction = this.#reductions.get(key);
    if (reduction === undefined) {
      const [oldest] = this.#reductions.keys();
      if (this.#reductions.size >= KEPT_REDUCTIONS && oldest !== undefined) this.#reductions.delete(oldest);
      reduction = new Reduction(this.network.nodeCount, this.a, this.b, stays, parts(this.network));
      this.#reductions.set(key, reduction);
    }
    return reduction;
  }

  /** What a part is asked with. */
  context(part: NetworkPart, condition: Condition, state: PartState): PartContext {
    const context = {
      values: part.values,
      condition,
      position: part.kind.control === undefined ? "" : positionOf(part, condition),
      state,
      wired: this.wiredOf(part),
      motorCurrent: this.#motorCurrents.get(part),
    };
    const duty = this.sources.dutyOf.get(part);
    return duty === undefined ? context : { ...context, duty };
  }

  /**
   * All elements in a condition and part states. `like`: what was assembled before on a bench of the same kind;
   * where only controls set by hand and states differ from it, only the parts that these belong to are asked.
   */
  assemble(condition: Condition, states: readonly PartState[], like?: Assembled): Assembly {
    const moved = like === undefined ? undefined : this.#moved(condition, states, like);
    if (like !== undefined && moved !== undefined) {
      const elements = like.settled.elements.slice(0, this.network.branches.length);
      this.#addShorts(elements);
      const troubles = new Map<NetworkPart, string>();
      for (const part of moved) {
        const trouble = this.place(elements, part, condition, states[part.index] ?? {});
        if (trouble !== undefined) troubles.set(part, trouble);
      }
      return { elements, troubles };
    }
    const elements = this.#wiring.elements(this.#ends === "hot").slice() as Element[];
    this.#addShorts(elements);
    const troubles = new Map<NetworkPart, string>();
    for (const part of this.network.parts) {
      const trouble = part.trouble ?? this.place(elements, part, condition, states[part.index] ?? {});
      if (trouble !== undefined) troubles.set(part, trouble);
    }
    for (const index of this.#open) {
      const branch = this.network.branches[index];
      if (branch?.part === undefined && branch !== undefined) elements[index] = opened(branch.name, branch.role);
    }
    return { elements, troubles };
  }

  #addShorts(elements: Element[]): void {
    for (let index = this.network.branches.length; index < this.a.length; index += 1) elements.push(SHORT);
  }

  /** Parts whose elements may differ from those of `like`; undefined where that cannot be told from controls and states. */
  #moved(condition: Condition, states: readonly PartState[], like: Assembled): readonly NetworkPart[] | undefined {
    const { bench, settled } = like;
    const { parts, partById } = this.network;
    if (bench.kind !== this.kind || settled.troubles.size > 0) return undefined;
    if (!sameButForHand(condition, settled.condition)) return undefined;
    const moved: NetworkPart[] = [];
    for (const id of Object.keys({ ...condition.set, ...settled.condition.set })) {
      const part = condition.set[id] === settled.condition.set[id] ? undefined : partById.get(id);
      if (part !== undefined) moved.push(part);
    }
    for (let index = 0; index < parts.length; index += 1) {
      const part = parts[index];
      if (part !== undefined && states[index] !== settled.partStates[index]) moved.push(part);
    }
    return moved;
  }

  /** Puts one part's elements in their places. Returns why it could not, in which case the part is open. */
  place(elements: Element[], part: NetworkPart, condition: Condition, state: PartState): string | undefined {
    let trouble: string | undefined;
    let own: readonly Element[];
    try {
      own = this.network.elementsIn(part, this.context(part, condition, state));
    } catch (cause) {
      if (!(cause instanceof Error)) throw cause;
      trouble = cause instanceof ElementsChanged ? cause.message : `${part.kind.kind}: ${cause.message}`;
      own = this.network.branches
        .slice(part.firstBranch, part.firstBranch + part.branchCount)
        .map(({ name, role }) => opened(name, role));
    }
    for (let i = 0; i < own.length; i += 1) {
      const index = part.firstBranch + i;
      const element = own[i];
      if (element === undefined) continue;
      elements[index] = this.#open.has(index) ? opened(element.name, element.role) : this.#atEnd(element);
    }
    return trouble;
  }

  #atEnd(element: Element): Element {
    if (this.#ends !== "lowest" && this.#ends !== "highest") return element;
    if ((element.type !== "resistance" && element.type !== "source") || element.range === undefined) return element;
    return { ...element, resistance: element.range[this.#ends === "lowest" ? 0 : 1] };
  }
}

function drawnEnds(network: Network, side: "a" | "b"): Int32Array {
  return Int32Array.from(network.branches, (branch) => branch[side]);
}

/** Ends of the branches, those of shorts behind them. */
function ends(drawn: Int32Array, shorts: readonly (readonly [NodeIndex, NodeIndex])[], side: 0 | 1): Int32Array {
  if (shorts.length === 0) return drawn;
  const all = new Int32Array(drawn.length + shorts.length);
  all.set(drawn);
  shorts.forEach((short, index) => (all[drawn.length + index] = short[side]));
  return all;
}

/** Part of each branch, -1 for what belongs to none. */
function parts(network: Network): Int32Array {
  return Int32Array.from(network.branches, ({ part }) => part?.index ?? -1);
}

/** What a branch of a part is before anything is known of its surroundings: enough to tell sources from the rest. */
function elementsAsDrawn(network: Network): (branch: Branch) => Element | undefined {
  return ({ part, index }) => {
    if (part === undefined || part.trouble !== undefined) return undefined;
    const condition = REFERENCE_CONDITION;
    const state = initialState(part.kind, part.values);
    const context = { condition, position: positionOf(part, condition), state, motorCurrent: undefined };
    return network.elementsIn(part, context)[index - part.firstBranch];
  };
}

/** Do two conditions differ in nothing but controls set by hand? Those reach a part as its position. */
function sameButForHand(a: Condition, b: Condition): boolean {
  if (a === b) return true;
  for (const name of Object.keys(a) as (keyof Condition)[]) if (name !== "set" && a[name] !== b[name]) return false;
  return true;
}

function opened(name: string, role: Element["role"]): Element {
  return { type: "contact", name, a: "", b: "", role, closed: false, resistance: 1, movedBy: "none" };
}

const SHORT: Element = {
  type: "resistance",
  name: "short",
  a: "",
  b: "",
  role: "conductor",
  resistance: BOLTED,
};

/** Wires and the network's own leaks: the same in every condition, made once for cold and once for hot wires. */
class Wiring {
  readonly #network: Network;
  #cold: readonly (Element | undefined)[] | undefined;
  #hot: readonly (Element | undefined)[] | undefined;

  constructor(network: Network) {
    this.#network = network;
  }

  elements(hot: boolean): readonly (Element | undefined)[] {
    return hot ? (this.#hot ??= this.#make(true)) : (this.#cold ??= this.#make(false));
  }

  #make(hot: boolean): readonly (Element | undefined)[] {
    return this.#network.branches.map(({ part, conductor, role, name }): Element | undefined => {
      if (part !== undefined) return undefined;
      const resistance = conductor === undefined ? OTHER_LEAK : hot ? conductor.hot : conductor.cold;
      return { type: "resistance", name, a: "", b: "", role, resistance };
    });
  }
}
