/**
 * How much of what was solved on one network holds on the next one, after an edit. Both questions compare what solving
 * reads and nothing else; where in doubt the answer is no.
 */
import type { Parameters, WireEnd } from "../project/document.ts";
import type { Conductor, Network, NetworkPart } from "./network.ts";
import { SolverValues } from "./solver-values.ts";

/**
 * The same parts in the same order, wires with the same ends, the same branches between the same nodes: figures may
 * differ, and so may names and places on sheets.
 */
export function sameBranches(before: Network, after: Network): boolean {
  if (before.nodeCount !== after.nodeCount || before.branches.length !== after.branches.length) return false;
  if (before.parts.length !== after.parts.length || !sameEnds(before, after)) return false;
  for (let index = 0; index < after.parts.length; index += 1) {
    if (!sameLayout(before.parts[index]!, after.parts[index]!)) return false;
  }
  for (let index = 0; index < after.branches.length; index += 1) {
    const [one, other] = [before.branches[index]!, after.branches[index]!];
    if (one.a !== other.a || one.b !== other.b || one.role !== other.role || one.name !== other.name) return false;
  }
  return true;
}

function sameLayout(before: NetworkPart, after: NetworkPart): boolean {
  return (
    before.part.id === after.part.id &&
    before.kind === after.kind &&
    before.firstBranch === after.firstBranch &&
    before.branchCount === after.branchCount &&
    before.trouble === after.trouble
  );
}

/** A loose wire is no branch and still makes its terminal a wired one. */
function sameEnds(before: Network, after: Network): boolean {
  const [old, now] = [before.project.wires, after.project.wires];
  if (old.length !== now.length) return false;
  return now.every((wire, index) => {
    const was = old[index]!;
    if (was === wire) return true;
    return was.id === wire.id && sameEnd(was.ends[0], wire.ends[0]) && sameEnd(was.ends[1], wire.ends[1]);
  });
}

function sameEnd(one: WireEnd | null, other: WireEnd | null): boolean {
  if (one === null || other === null) return one === other;
  return one[0] === other[0] && one[1] === other[1];
}

/**
 * Wires whose ohms have changed, of circuits that are the same otherwise: with none, whatever was solved on one of them
 * is solved on the other. Undefined where anything else has changed that solving reads.
 */
export function changedWires(before: Network, after: Network): readonly Conductor[] | undefined {
  if (!sameBranches(before, after)) return undefined;
  if (!before.parts.every((part, index) => isUnreadSince(part, after.parts[index]!))) return undefined;
  const [was, is] = [before.project.states, after.project.states];
  if (was !== is && JSON.stringify(was) !== JSON.stringify(is)) return undefined;
  return after.conductors.filter(({ cold, hot }, index) => {
    const earlier = before.conductors[index]!;
    return earlier.cold !== cold || earlier.hot !== hot;
  });
}

/** What was read of the parts before counts as read of them now: results are carried over that rest on it. */
export function inheritReads(before: Network, after: Network): void {
  before.parts.forEach(({ values }, index) => {
    const now = after.parts[index]?.values;
    if (now === values || !(now instanceof SolverValues) || !(values instanceof SolverValues)) return;
    for (const name of values.read) now.read.add(name);
  });
}

/** Has nothing of the part changed that was read to solve it? */
function isUnreadSince(before: NetworkPart, after: NetworkPart): boolean {
  const { parameters } = before.part;
  if (parameters === after.part.parameters) return true;
  const { values } = before;
  if (!(values instanceof SolverValues)) return false;
  return !changedNames(parameters, after.part.parameters).some((name) => values.read.has(name));
}

function changedNames(before: Parameters, after: Parameters): readonly string[] {
  const names = new Set([...Object.keys(before), ...Object.keys(after)]);
  return [...names].filter((name) => before[name] !== after[name]);
}
