/**
 * Loops that sources drive through metal, closed contacts, fuses, shunts and conducting diodes, without a load: found by
 * following the current of a solved state from a source's plus back to its minus.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { branchesOf, joinedIn } from "./joined.ts";

export interface SourceLoop {
  /** In the order of the current; the first is the source that was followed. */
  readonly branches: readonly Branch[];
  /** Sources that the loop charges instead of being driven by them. */
  readonly charged: readonly Branch[];
  readonly driving: readonly Branch[];
  /** What flows all the way round: the smallest current in it. */
  readonly current: Ampere;
}

interface Step {
  readonly to: NodeIndex;
  readonly branch: Branch;
}

const LOOP_ROLES: ReadonlySet<Role> = new Set<Role>(["conductor", "contact", "protection", "shunt", "diode"]);
/** Below this no conductor, fuse or contact is overloaded: the smallest rating sold is above it (common practice, no source). */
const LEAST: Ampere = 0.1;
/** Parts of the source's current at which a way back is looked for: the main one first. */
const SHARES = [0.5, 0.1, 0.01] as const;

/**
 * Loops in a state, each set of sources once. `joints` are contacts that the state was solved with as if closed. With
 * `charging`, only loops in which one battery charges another; without, only loops in which every source drives.
 */
export function sourceLoops(
  analysis: Analysis,
  state: SolvedState,
  charging: boolean,
  joints: readonly { readonly branch: Branch; readonly current: Ampere }[] = [],
): readonly SourceLoop[] {
  if (joints.length > 0) return find(analysis, state, charging, joints);
  const known = remembered.get(state) ?? new Map<boolean, readonly SourceLoop[]>();
  remembered.set(state, known);
  let loops = known.get(charging);
  if (loops === undefined) known.set(charging, (loops = find(analysis, state, charging, joints)));
  return loops;
}

/** Of a state as it is: several checks ask for the same. */
const remembered = new WeakMap<SolvedState, Map<boolean, readonly SourceLoop[]>>();

function find(
  analysis: Analysis,
  state: SolvedState,
  charging: boolean,
  joints: readonly { readonly branch: Branch; readonly current: Ampere }[],
): readonly SourceLoop[] {
  const sources = sourcesInRings(analysis, state, joints);
  if (sources.length === 0) return [];
  const away = currentsAway(analysis, state, new Set(sources), joints);
  const loops = new Map<string, SourceLoop>();
  for (const source of sources) {
    const current = delivered(state, source);
    if (current < LEAST) continue;
    const loop = SHARES.map((share) => follow(state, away, source, current * share, charging)).find(
      (found) => found !== undefined,
    );
    if (loop === undefined) continue;
    const key = [...loop.driving, ...loop.charged]
      .map(({ index }) => index)
      .sort((a, b) => a - b)
      .join(" ");
    if (!loops.has(key)) loops.set(key, loop);
  }
  return [...loops.values()];
}

/** Out of the plus end; batteries and supplies count alike. */
function delivered(state: SolvedState, source: Branch): Ampere {
  return state.currents[source.index] ?? 0;
}

/** Batteries, and outputs that deliver: those that lie on any ring of sources and metal. */
function sourcesInRings(
  analysis: Analysis,
  state: SolvedState,
  joints: readonly { readonly branch: Branch }[],
): readonly Branch[] {
  const sources = branchesOf(analysis, "source").filter(({ index }) => Math.abs(state.currents[index] ?? 0) >= LEAST);
  if (sources.length === 0) return [];
  const metal = joinedIn(analysis, state, LOOP_ROLES);
  // A what-if state has sets of its own, so that joining here changes no other state's.
  for (const { branch } of joints) metal.join(branch.a, branch.b);
  const ends = sources.map(({ a, b }) => [metal.find(a), metal.find(b)] as const);
  const degree = new Map<number, number>();
  for (const island of ends.flat()) degree.set(island, (degree.get(island) ?? 0) + 1);
  const left = new Set(sources.keys());
  for (let before = -1; before !== left.size; ) {
    before = left.size;
    for (const index of left) {
      const [a, b] = ends[index] ?? [0, 0];
      if (a !== b && (degree.get(a) ?? 0) > 1 && (degree.get(b) ?? 0) > 1) continue;
      if (a === b) continue;
      left.delete(index);
      for (const island of [a, b]) degree.set(island, (degree.get(island) ?? 0) - 1);
    }
  }
  return [...left].flatMap((index) => sources[index] ?? []);
}

/** From each node: where current flows to, through which branch. */
function currentsAway(
  analysis: Analysis,
  state: SolvedState,
  sources: ReadonlySet<Branch>,
  joints: readonly { readonly branch: Branch; readonly current: Ampere }[],
): ReadonlyMap<NodeIndex, readonly (Step & { readonly current: Ampere })[]> {
  const away = new Map<NodeIndex, (Step & { readonly current: Ampere })[]>();
  const add = (branch: Branch, current: Ampere): void => {
    const [from, to] = current > 0 ? [branch.a, branch.b] : [branch.b, branch.a];
    const list = away.get(from) ?? [];
    away.set(from, list);
    list.push({ to, branch, current: Math.abs(current) });
  };
  for (const branch of analysis.network.branches) {
    if (LOOP_ROLES.has(branch.role)) {
      if (state.conducting[branch.index] === 1) add(branch, state.currents[branch.index] ?? 0);
    } else if (sources.has(branch)) {
      // A source that delivers takes current in at b and lets it out at a.
      add(branch, -delivered(state, branch));
    }
  }
  for (const { branch, current } of joints) add(branch, current);
  return away;
}

function follow(
  state: SolvedState,
  away: ReadonlyMap<NodeIndex, readonly (Step & { readonly current: Ampere })[]>,
  source: Branch,
  least: Ampere,
  charging: boolean,
): SourceLoop | undefined {
  const isCharged = (branch: Branch): boolean => branch.role === "source" && delivered(state, branch) < 0;
  const arrivedBy = new Map<
    NodeIndex,
    { readonly from: NodeIndex; readonly branch: Branch; readonly current: Ampere }
  >();
  const queue = [source.a];
  for (let head = 0; head < queue.length && !arrivedBy.has(source.b); head += 1) {
    const at = queue[head] ?? source.a;
    for (const { to, branch, current } of away.get(at) ?? []) {
      if (current < least || branch === source || to === source.a || arrivedBy.has(to)) continue;
      if (!charging && isCharged(branch)) continue;
      arrivedBy.set(to, { from: at, branch, current });
      queue.push(to);
    }
  }
  const branches: Branch[] = [];
  let smallest = delivered(state, source);
  for (let at = source.b; at !== source.a; ) {
    const step = arrivedBy.get(at);
    if (step === undefined) return undefined;
    branches.push(step.branch);
    smallest = Math.min(smallest, step.current);
    at = step.from;
  }
  branches.push(source);
  branches.reverse();
  const sources = branches.filter(({ role }) => role === "source");
  const charged = sources.filter(isCharged);
  if (charging && charged.length === 0) return undefined;
  return { branches, charged, driving: sources.filter((branch) => !isCharged(branch)), current: smallest };
}
