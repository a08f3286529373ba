/**
 * What lies beyond a wire, seen from the source, with every contact taken as closed: devices and current-limiting
 * resistors end the search; a consumer or the end of the line makes it open.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { PACK_ROLES } from "../../network/strings.ts";
import { supplyPairs } from "./supply-pairs.ts";
import type { PairAt } from "./supply-pairs.ts";

/** A way into a device or a resistor: its branch, and the node at which the way arrives. */
export interface Entrance {
  readonly branch: Branch;
  readonly node: NodeIndex;
}

export interface Exits {
  readonly entrances: readonly Entrance[];
  /** Consumers' terminals and ends of the line that no device stands before. */
  readonly open: readonly NodeIndex[];
  /** How each node was reached. */
  readonly by: ReadonlyMap<NodeIndex, { readonly from: NodeIndex; readonly branch: Branch }>;
}

const pairsOf = new WeakMap<Analysis, ReadonlyMap<NodeIndex, readonly PairAt[]>>();

/** Supply pairs by either of their nodes. */
export function pairsAt(analysis: Analysis): ReadonlyMap<NodeIndex, readonly PairAt[]> {
  let all = pairsOf.get(analysis);
  if (all === undefined) {
    const made = new Map<NodeIndex, PairAt[]>();
    for (const at of supplyPairs(analysis.network)) {
      for (const node of [at.plus, at.minus]) {
        const list = made.get(node);
        if (list === undefined) made.set(node, [at]);
        else list.push(at);
      }
    }
    pairsOf.set(analysis, (all = made));
  }
  return all;
}

/** Has this node a wire on it? */
export function isWiredNode(analysis: Analysis, node: NodeIndex): boolean {
  const end = analysis.network.terminalOfNode[node];
  return end !== undefined && analysis.network.wiresAt(end).length > 0;
}

/** Search from a node outward, not back over `arrival`, not into `not` (the poles of the feed). */
export function exits(
  analysis: Analysis,
  start: NodeIndex,
  arrival: Branch | undefined,
  not: ReadonlyMap<NodeIndex, unknown>,
): Exits {
  const beside = neighbours(analysis.network);
  const pairs = pairsAt(analysis);
  const by = new Map<NodeIndex, { readonly from: NodeIndex; readonly branch: Branch }>();
  const seen = new Set([start]);
  const queue = [start];
  const entrances: Entrance[] = [];
  const open: NodeIndex[] = [];
  for (let head = 0; head < queue.length; head += 1) {
    const at = queue[head] ?? start;
    const consumes = (pairs.get(at) ?? []).length > 0;
    let onward = 0;
    for (const { to, branch } of beside(at)) {
      if (branch === arrival || by.get(at)?.branch === branch) continue;
      // A bleeder inside a consumer limits nothing that its wires carry.
      if (branch.role === "resistor" && consumes) continue;
      if (branch.role === "protection" || branch.role === "resistor") {
        entrances.push({ branch, node: at });
        onward += 1;
        continue;
      }
      if (!PACK_ROLES.has(branch.role)) continue;
      onward += 1;
      if (seen.has(to) || not.has(to)) continue;
      seen.add(to);
      by.set(to, { from: at, branch });
      queue.push(to);
    }
    if (not.has(at)) continue;
    if (at === CHASSIS_NODE || consumes || (onward === 0 && isWiredNode(analysis, at))) open.push(at);
  }
  return { entrances, open, by };
}

/** The branches from the start of the search to a node. */
export function wayWithin({ by }: Exits, node: NodeIndex): readonly Branch[] {
  const way: Branch[] = [];
  for (let step = by.get(node); step !== undefined; step = by.get(step.from)) way.push(step.branch);
  return way.reverse();
}
