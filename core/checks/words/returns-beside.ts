/**
 * Returns that pass beside what should carry or cut all of a current: a monitor's ports, a shunt, a switch in the minus
 * lead. Looked at with that guard taken out and every other contact closed.
 */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { barriersOf } from "../../circuit/barriers.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, BranchIndex, NetworkPart, NodeIndex } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";
import type { MissingField, Place } from "../define.ts";
import { ClosedFeed } from "./closed-feed.ts";
import { nodePlace } from "./places.ts";

/** What a signal or a small supply takes on its way; resistors of their own are pre-charge paths. */
const SIGNAL: ReadonlySet<Role> = new Set<Role>(["load", "coil", "sense", "driver", "diode"]);

export interface Guard {
  readonly part: NetworkPart;
  /** All its branches between the two sides. */
  readonly branches: readonly Branch[];
}

/** Every other contact closed, the guard taken out. */
export function withoutGuard(analysis: Analysis, { branches }: Guard): ClosedFeed | undefined {
  const [any] = analysis.states;
  if (any === undefined) return undefined;
  const without = new Set<BranchIndex>(branches.map(({ index }) => index));
  return new ClosedFeed(analysis, any, { contacts: "closed", without });
}

/** Supply pairs of loads and chargers that a pack still feeds or is charged through. Meters and monitors draw next to nothing. */
export function pairsBeside(analysis: Analysis, feed: ClosedFeed, pack: Pack, guard: NetworkPart): readonly PairAt[] {
  return supplyPairs(analysis.network).filter(({ part, pair, plus, minus }) => {
    const { traits } = part.kind;
    if (part === guard || traits.sensor === true || traits.monitor === true || traits.load !== true) return false;
    if (pair.direction === "output" && traits.charger !== true) return false;
    return feed.isFed(plus, minus) && feed.packsAt(plus).includes(pack) && !feed.isFedBesides(pack, plus, minus);
  });
}

/** Where signals and small supplies lead from the switched side to the pack's side other than by the pack's far pole. */
export function signalsBeside(
  analysis: Analysis,
  feed: ClosedFeed,
  guard: NetworkPart,
  from: NodeIndex,
  to: NodeIndex,
  farPole: NodeIndex,
): readonly Place[] {
  const { network } = analysis;
  const beside = neighbours(network);
  const members = new Map<number, NodeIndex[]>();
  for (let node = 0; node < network.nodeCount; node += 1) {
    const island = feed.island(node);
    const list = members.get(island);
    if (list === undefined) members.set(island, [node]);
    else list.push(node);
  }
  const [start, goal, barred] = [from, to, farPole].map((node) => feed.island(node));
  if (start === undefined || goal === undefined || start === goal) return [];
  const seen = new Set([start]);
  const queue = [start];
  const arrivals = new Map<string, Place>();
  for (let island = queue.pop(); island !== undefined; island = queue.pop()) {
    for (const node of members.get(island) ?? []) {
      for (const { to: far, branch } of beside(node)) {
        if (!SIGNAL.has(branch.role) || branch.part === undefined || branch.part === guard) continue;
        const next = feed.island(far);
        if (next === barred) continue;
        if (next === goal) {
          const place = nodePlace(network, far);
          if (place !== undefined) arrivals.set(JSON.stringify(place), place);
        } else if (!seen.has(next)) {
          seen.add(next);
          queue.push(next);
        }
      }
    }
  }
  return [...arrivals.values()];
}

/** Fields that would say whether two nodes are one metal through a barrier that nobody stated; empty where they cannot be. */
export function unknownMetal(
  analysis: Analysis,
  feed: ClosedFeed,
  a: NodeIndex,
  b: NodeIndex,
): readonly MissingField[] {
  const { network } = analysis;
  const sets = new DisjointSets(network.nodeCount);
  const fields: MissingField[] = [];
  for (const part of network.parts) {
    for (const { parameter, sides, breaks } of barriersOf(part)) {
      if (part.values.choice(parameter) !== undefined) continue;
      const isWired = (id: string): boolean => network.wiresAt([part.part.id, id]).length > 0;
      if (!sides.every((side) => side.some(isWired))) continue;
      // What is not isolated shares its minus; of its plus nothing follows.
      for (const [inside, outside] of breaks.filter(([end]) => !end.endsWith("+"))) {
        const [x, y] = [part.nodes.get(inside), part.nodes.get(outside)];
        if (x !== undefined && y !== undefined) sets.join(feed.island(x), feed.island(y));
      }
      fields.push({ part: part.part.id, parameter });
    }
  }
  return sets.together(feed.island(a), feed.island(b)) ? fields : [];
}
