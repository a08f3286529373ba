/**
 * What is joined by metal in a state: conductors, closed contacts, protection, shunts, conducting diodes, and the
 * blocks of batteries. Groups of nodes, and the way from a node to any other of its group; both made once.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";

const METAL: ReadonlySet<Role> = new Set<Role>(["conductor", "contact", "protection", "shunt", "diode"]);

function joins(state: SolvedState, branch: Branch): boolean {
  const element = state.elements[branch.index];
  if (element === undefined || !METAL.has(branch.role)) return false;
  if (element.type === "contact") return element.closed;
  if (element.type === "diode" || element.type === "clamp") return state.conducting[branch.index] === 1;
  return true;
}

const groups = new WeakMap<SolvedState, DisjointSets>();

/** One number for all nodes that metal and batteries join in this state. */
export function groupOf(analysis: Analysis, state: SolvedState, node: NodeIndex): number {
  let sets = groups.get(state);
  if (sets === undefined) {
    sets = new DisjointSets(analysis.network.nodeCount);
    for (const branch of analysis.network.branches) {
      if (branch.role === "source" || joins(state, branch)) sets.join(branch.a, branch.b);
    }
    groups.set(state, sets);
  }
  return sets.find(node);
}

const trees = new WeakMap<SolvedState, Map<NodeIndex, ReadonlyMap<NodeIndex, Branch | undefined>>>();

/** The branches from a node to another by metal alone, batteries left out; undefined where there is no way. */
export function metalWay(
  analysis: Analysis,
  state: SolvedState,
  from: NodeIndex,
  to: NodeIndex,
): readonly Branch[] | undefined {
  let byStart = trees.get(state);
  if (byStart === undefined)
    trees.set(state, (byStart = new Map<NodeIndex, ReadonlyMap<NodeIndex, Branch | undefined>>()));
  let tree = byStart.get(from);
  if (tree === undefined) byStart.set(from, (tree = treeFrom(analysis, state, from)));
  if (!tree.has(to)) return undefined;
  const way: Branch[] = [];
  let at = to;
  for (let branch = tree.get(at); branch !== undefined; branch = tree.get(at)) {
    way.push(branch);
    at = branch.a === at ? branch.b : branch.a;
  }
  return way.reverse();
}

function treeFrom(analysis: Analysis, state: SolvedState, from: NodeIndex): ReadonlyMap<NodeIndex, Branch | undefined> {
  const beside = neighbours(analysis.network);
  const arrivedBy = new Map<NodeIndex, Branch | undefined>([[from, undefined]]);
  const queue = [from];
  for (let head = 0; head < queue.length; head += 1) {
    for (const { to, branch } of beside(queue[head] ?? from)) {
      if (arrivedBy.has(to) || !joins(state, branch)) continue;
      arrivedBy.set(to, branch);
      queue.push(to);
    }
  }
  return arrivedBy;
}
