/** Coils of relays and contactors with their nodes, and whether a state joins both ends of one to a source. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { CoilSpec } from "../../parts/define.ts";
import type { DisjointSets } from "../../network/sets.ts";
import { everyState } from "./every-state.ts";
import { branchesOf, FEED, joinedIn } from "./joined.ts";

export interface CoilAt {
  readonly part: NetworkPart;
  readonly coil: CoilSpec;
  readonly plus: NodeIndex;
  readonly minus: NodeIndex;
  /** Both ends carry at least one wire. */
  readonly wired: boolean;
}

const coilsByAnalysis = new WeakMap<Analysis, readonly CoilAt[]>();

export function coilsOf(analysis: Analysis): readonly CoilAt[] {
  let coils = coilsByAnalysis.get(analysis);
  if (coils === undefined) coilsByAnalysis.set(analysis, (coils = findCoils(analysis)));
  return coils;
}

function findCoils({ network }: Analysis): readonly CoilAt[] {
  return network.parts.flatMap((part) =>
    (part.kind.coils?.(part.values) ?? []).flatMap((coil): CoilAt[] => {
      const [plus, minus] = [part.nodes.get(coil.plus), part.nodes.get(coil.minus)];
      if (plus === undefined || minus === undefined) return [];
      const wired = [coil.plus, coil.minus].every((terminal) => network.wiresAt([part.part.id, terminal]).length > 0);
      return [{ part, coil, plus, minus, wired }];
    }),
  );
}

interface Feeds {
  readonly metal: DisjointSets;
  /** Islands of metal that touch a source, joined through sources. */
  readonly sources: Rows;
  readonly touched: ReadonlySet<number>;
  /** Islands joined by resistors; made when first asked for. */
  resistors?: ReadonlyMap<number, readonly number[]>;
}

/** Islands joined through sources: a handful of all nodes. */
class Rows {
  readonly #parent = new Map<number, number>();

  constructor(ends: readonly (readonly [number, number])[]) {
    for (const [a, b] of ends) {
      const [x, y] = [this.find(a), this.find(b)];
      if (x !== y) this.#parent.set(x, y);
    }
  }

  find(island: number): number {
    let at = island;
    for (let up = this.#parent.get(at); up !== undefined; up = this.#parent.get(at)) at = up;
    return at;
  }

  together(a: number, b: number): boolean {
    return this.find(a) === this.find(b);
  }
}

const remembered = new WeakMap<SolvedState, Map<ReadonlySet<Role>, Feeds>>();

function feedsIn(analysis: Analysis, state: SolvedState, roles: ReadonlySet<Role>): Feeds {
  let known = remembered.get(state);
  if (known === undefined) remembered.set(state, (known = new Map<ReadonlySet<Role>, Feeds>()));
  let feeds = known.get(roles);
  if (feeds === undefined) {
    const metal = joinedIn(analysis, state, roles);
    const ends = branchesOf(analysis, "source").flatMap(({ index, a, b }) =>
      state.conducting[index] === 1 ? ([[metal.find(a), metal.find(b)]] as const) : [],
    );
    const touched = new Set(ends.flat());
    const sources = new Rows(ends);
    feeds = { metal, sources, touched };
    known.set(roles, feeds);
  }
  return feeds;
}

/** Both ends lead to the two ends of one source (or of a row of sources) through branches of these roles. */
export function isFed(
  analysis: Analysis,
  state: SolvedState,
  { plus, minus }: CoilAt,
  roles: ReadonlySet<Role>,
): boolean {
  const { metal, sources, touched } = feedsIn(analysis, state, roles);
  const [a, b] = [metal.find(plus), metal.find(minus)];
  return a !== b && touched.has(a) && touched.has(b) && sources.together(a, b);
}

/** The sources that lie between the two ends of a coil that is fed. */
export function feedersOf(
  analysis: Analysis,
  state: SolvedState,
  { plus }: CoilAt,
  roles: ReadonlySet<Role>,
): readonly NetworkPart[] {
  return sourcesAt(analysis, state, roles, feedsIn(analysis, state, roles).metal.find(plus));
}

/**
 * Is the coil fed where resistors may lie in its feed or return (a bad joint, a dropping resistor)? The way through
 * resistors ends at the first island that a source touches: a bleeder across the bus does not make one feed of both poles.
 */
export function isFedThroughResistors(
  analysis: Analysis,
  state: SolvedState,
  at: CoilAt,
  roles: ReadonlySet<Role>,
): boolean {
  return feedThroughResistors(analysis, state, at, roles) !== undefined;
}

interface FedStates {
  /** States in which the coil is fed (`isFed`), and in which it is where resistors may lie on the way. */
  readonly metal: SolvedState[];
  readonly throughResistors: SolvedState[];
}

const fedByAnalysis = new WeakMap<Analysis, ReadonlyMap<CoilAt, FedStates>>();

/** Of every state, those in which this wired coil of `coilsOf` is fed: all coils are asked of one state together. */
export function statesFed(analysis: Analysis, at: CoilAt): FedStates {
  let all = fedByAnalysis.get(analysis);
  if (all === undefined) fedByAnalysis.set(analysis, (all = findFed(analysis)));
  return all.get(at) ?? { metal: [], throughResistors: [] };
}

function findFed(analysis: Analysis): ReadonlyMap<CoilAt, FedStates> {
  const all = new Map<CoilAt, FedStates>();
  for (const at of coilsOf(analysis)) if (at.wired) all.set(at, { metal: [], throughResistors: [] });
  for (const state of everyState(analysis)) {
    const feeds = feedsIn(analysis, state, FEED);
    const { metal, sources, touched } = feeds;
    feeds.resistors ??= resistorsBetween(analysis, state, metal);
    for (const [at, fed] of all) {
      const [a, b] = [metal.find(at.plus), metal.find(at.minus)];
      const [atA, atB] = [touched.has(a), touched.has(b)];
      if (atA && atB) {
        if (a === b || !sources.together(a, b)) continue;
        fed.metal.push(state);
        fed.throughResistors.push(state);
      } else if ((atA || feeds.resistors.has(a)) && (atB || feeds.resistors.has(b))) {
        if (isFedThroughResistors(analysis, state, at, FEED)) fed.throughResistors.push(state);
      }
    }
  }
  return all;
}

/** The sources behind such a feed; empty where there is none. */
export function feedersThroughResistors(
  analysis: Analysis,
  state: SolvedState,
  at: CoilAt,
  roles: ReadonlySet<Role>,
): readonly NetworkPart[] {
  const island = feedThroughResistors(analysis, state, at, roles);
  return island === undefined ? [] : sourcesAt(analysis, state, roles, island);
}

/** An island of metal that feeds the coil's plus end and touches a source whose other end feeds its minus end. */
function feedThroughResistors(
  analysis: Analysis,
  state: SolvedState,
  { plus, minus }: CoilAt,
  roles: ReadonlySet<Role>,
): number | undefined {
  const feeds = feedsIn(analysis, state, roles);
  const from = reachedSources(analysis, state, feeds, plus);
  if (from.length === 0) return undefined;
  const to = reachedSources(analysis, state, feeds, minus);
  return from.find((a) => to.some((b) => a !== b && feeds.sources.together(a, b)));
}

function sourcesAt(
  analysis: Analysis,
  state: SolvedState,
  roles: ReadonlySet<Role>,
  island: number,
): readonly NetworkPart[] {
  const { metal, sources } = feedsIn(analysis, state, roles);
  const at = sources.find(island);
  const parts = branchesOf(analysis, "source").flatMap(({ index, a, part }) =>
    part !== undefined && state.conducting[index] === 1 && sources.find(metal.find(a)) === at ? [part] : [],
  );
  return [...new Set(parts)];
}

/** Islands that a source touches, reached from a node through resistors. */
function reachedSources(analysis: Analysis, state: SolvedState, feeds: Feeds, node: NodeIndex): readonly number[] {
  feeds.resistors ??= resistorsBetween(analysis, state, feeds.metal);
  const start = feeds.metal.find(node);
  if (feeds.touched.has(start)) return [start];
  if (!feeds.resistors.has(start)) return [];
  const seen = new Set([start]);
  const found: number[] = [];
  const queue = [start];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    if (feeds.touched.has(at)) {
      found.push(at);
      continue;
    }
    for (const next of feeds.resistors.get(at) ?? []) {
      if (seen.has(next)) continue;
      seen.add(next);
      queue.push(next);
    }
  }
  return found;
}

function resistorsBetween(
  analysis: Analysis,
  state: SolvedState,
  metal: DisjointSets,
): ReadonlyMap<number, readonly number[]> {
  const beside = new Map<number, number[]>();
  for (const { index, a, b } of branchesOf(analysis, "resistor")) {
    if (state.conducting[index] !== 1) continue;
    const [x, y] = [metal.find(a), metal.find(b)];
    beside.set(x, [...(beside.get(x) ?? []), y]);
    beside.set(y, [...(beside.get(y) ?? []), x]);
  }
  return beside;
}

/**
 * A coil that nothing feeds in any state, looked at as if the output at one of its ends were on: an output that sees its
 * contactor fail to close gives up, which hides that the coil does not suit it.
 */
export function withOutputOn(analysis: Analysis, at: CoilAt): readonly { state: SolvedState; name: string }[] {
  const base = analysis.state("driving");
  if (base === undefined) return [];
  const metal = joinedIn(analysis, base, FEED);
  const ends = [metal.find(at.plus), metal.find(at.minus)];
  return branchesOf(analysis, "driver").flatMap((branch) => {
    const { a, b, index, part } = branch;
    if (base.elements[index]?.type !== "contact" || part === undefined) return [];
    if (![a, b].some((node) => ends.includes(metal.find(node)))) return [];
    const state = analysis.solveChanged(base, { shorts: [[a, b]], hold: true });
    joinedIn(analysis, state, FEED).join(a, b);
    if (!isFed(analysis, state, at, FEED)) return [];
    return [{ state, name: `${base.name} with an output of ${part.part.designation} on` }];
  });
}
