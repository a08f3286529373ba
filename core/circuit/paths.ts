/** Walking the network: which nodes a node reaches over branches of given roles, and by which branches. */
import type { Branch, BranchIndex, Network, NodeIndex } from "../network/network.ts";
import type { PathQuery, SolvedState } from "./analysis.ts";

export interface Step {
  readonly to: NodeIndex;
  readonly branch: Branch;
}

const remembered = new WeakMap<Network, (node: NodeIndex) => readonly Step[]>();

/** The branches at a node with their other ends. Made once per network. */
export function neighbours(network: Network): (node: NodeIndex) => readonly Step[] {
  const known = remembered.get(network);
  if (known !== undefined) return known;
  const lists: Step[][] = Array.from({ length: network.nodeCount }, () => []);
  for (const branch of network.branches) {
    if (branch.a === branch.b) continue;
    lists[branch.a]?.push({ to: branch.b, branch });
    lists[branch.b]?.push({ to: branch.a, branch });
  }
  const none: readonly Step[] = [];
  const beside = (node: NodeIndex): readonly Step[] => lists[node] ?? none;
  remembered.set(network, beside);
  return beside;
}

/** May this branch be crossed? Contacts as they stand or all closed; diodes, clamps and drivers as they conduct. */
function crossable(state: SolvedState, query: PathQuery): (branch: Branch) => boolean {
  const roles = new Set(query.through);
  const without = new Set<BranchIndex>(query.without ?? []);
  return (branch) => {
    if (!roles.has(branch.role) || without.has(branch.index)) return false;
    const element = state.elements[branch.index];
    if (element === undefined) return false;
    if (element.type === "contact") return query.contacts === "closed" || element.closed;
    // A capacitor or a source is a path where its role is asked for, whether or not current flows at this moment.
    if (element.type === "diode" || element.type === "clamp") return state.conducting[branch.index] === 1;
    return true;
  };
}

/** Nodes reachable from `from`, itself included. */
export function reach(network: Network, state: SolvedState, from: NodeIndex, query: PathQuery): ReadonlySet<NodeIndex> {
  const beside = neighbours(network);
  const passes = crossable(state, query);
  const seen = new Set([from]);
  const queue = [from];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    for (const { to, branch } of beside(at)) {
      if (seen.has(to) || !passes(branch)) continue;
      seen.add(to);
      queue.push(to);
    }
  }
  return seen;
}

/** A path with the fewest branches from `from` to `to`, in order; [] if they are one node; undefined if there is none. */
export function path(
  network: Network,
  state: SolvedState,
  from: NodeIndex,
  to: NodeIndex,
  query: PathQuery,
): readonly Branch[] | undefined {
  const beside = neighbours(network);
  const passes = crossable(state, query);
  const arrivedBy = new Map<NodeIndex, Arrival | undefined>([[from, undefined]]);
  const queue = [from];
  for (let head = 0; head < queue.length && !arrivedBy.has(to); head += 1) {
    const at = queue[head] ?? from;
    for (const step of beside(at)) {
      if (arrivedBy.has(step.to) || !passes(step.branch)) continue;
      arrivedBy.set(step.to, { from: at, branch: step.branch });
      queue.push(step.to);
    }
  }
  return arrivedBy.has(to) ? wayTo(arrivedBy, to) : undefined;
}

/** The node from which a walk came to another, and over what. */
export interface Arrival {
  readonly from: NodeIndex;
  readonly branch: Branch;
}

/** The branches over which a walk came to a node, in the order walked; the node where it began has no arrival. */
export function wayTo(arrivedBy: ReadonlyMap<NodeIndex, Arrival | undefined>, to: NodeIndex): readonly Branch[] {
  const branches: Branch[] = [];
  for (let step = arrivedBy.get(to); step !== undefined; step = arrivedBy.get(step.from)) branches.push(step.branch);
  return branches.reverse();
}
