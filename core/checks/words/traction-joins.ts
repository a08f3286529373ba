/** Where a traction pack is joined to the chassis and to the 12 V side, and what of the drawing lies beyond such a join. */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Wire } from "../../project/document.ts";
import { belongingAt } from "../../studies/words/belongs.ts";
import { auxiliaryPacks, tractionPacks } from "../../studies/words/live.ts";
import type { Place } from "../define.ts";
import { placeId } from "../finding.ts";
import { JOINING } from "./joining-roles.ts";
import { joinOf } from "./joins.ts";
import type { Join } from "./joins.ts";
import { branchPlace } from "./places.ts";

/**
 * The 12 V side: auxiliary batteries, or without any the supplies that are one metal with the pack inside. An isolated
 * converter that feeds one instrument on the pack's own reference is no 12 V side: that is what it is there for.
 */
export function twelveVoltSide(analysis: Analysis): readonly Pack[] {
  const batteries = auxiliaryPacks(analysis);
  if (batteries.length > 0) return batteries;
  return analysis.supplies.filter(({ blocks }) => blocks.some(({ values }) => values.choice("isolated") === "no"));
}

const kept = new WeakMap<Analysis, Map<string, Join | undefined>>();

function remembered(analysis: Analysis, key: string, find: () => Join | undefined): Join | undefined {
  const joins = kept.get(analysis) ?? new Map<string, Join | undefined>();
  kept.set(analysis, joins);
  if (!joins.has(key)) joins.set(key, find());
  return joins.get(key);
}

const keyOf = ({ positive, negative }: Pack): string => `${positive} ${negative}`;

export function chassisJoin(analysis: Analysis, pack: Pack): Join | undefined {
  return remembered(analysis, keyOf(pack), () =>
    belongingAt(analysis, CHASSIS_NODE).traction.includes(pack)
      ? joinOf(analysis, pack, new Set([CHASSIS_NODE]))
      : undefined,
  );
}

export function auxiliaryJoin(analysis: Analysis, pack: Pack, partner: Pack): Join | undefined {
  return remembered(analysis, `${keyOf(pack)} ${keyOf(partner)}`, () => {
    const ends: readonly NodeIndex[] = [partner.negative, partner.positive];
    const joined = ends.some((node) => belongingAt(analysis, node).traction.includes(pack));
    return joined ? joinOf(analysis, pack, new Set(ends)) : undefined;
  });
}

/** Nodes that these reach without the part or wire that makes the join, every contact taken as closed. */
function withoutPlace(analysis: Analysis, from: readonly NodeIndex[], place: Place): ReadonlySet<NodeIndex> {
  const beside = neighbours(analysis.network);
  const taken = placeId(place);
  const leads = (branch: Branch): boolean => {
    const own = JOINING.has(branch.role) ? branchPlace(branch) : undefined;
    return own !== undefined && placeId(own) !== taken;
  };
  const seen = new Set(from);
  const queue = [...seen];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    for (const { to, branch } of beside(at)) {
      if (seen.has(to) || !leads(branch)) continue;
      seen.add(to);
      queue.push(to);
    }
  }
  return seen;
}

interface Sides {
  readonly place: Place;
  /** Nodes of the pack's own side and of the 12 V side or the chassis. */
  readonly near: ReadonlySet<NodeIndex>;
  readonly far: ReadonlySet<NodeIndex>;
}

const sides = new WeakMap<Analysis, readonly Sides[]>();

const terminalsOf = ({ blocks }: Pack): readonly NodeIndex[] =>
  blocks.flatMap((block) => block.terminals.flatMap(({ id }) => block.nodes.get(id) ?? []));

function findSides(analysis: Analysis): readonly Sides[] {
  const partners = twelveVoltSide(analysis);
  const far = [CHASSIS_NODE, ...partners.flatMap(terminalsOf)];
  const found = new Map<string, Sides>();
  for (const pack of tractionPacks(analysis)) {
    const joins = [chassisJoin(analysis, pack), ...partners.map((each) => auxiliaryJoin(analysis, pack, each))];
    for (const join of joins) {
      if (join?.sole !== true || found.has(placeId(join.place))) continue;
      const { place } = join;
      const near = withoutPlace(analysis, terminalsOf(pack), place);
      found.set(placeId(place), { place, near, far: withoutPlace(analysis, far, place) });
    }
  }
  return [...found.values()];
}

/** Nodes at both ends of wires. */
export function nodesOf({ network }: Analysis, wires: readonly Wire[]): readonly NodeIndex[] {
  return wires.flatMap(({ ends }) =>
    ends.flatMap((end) => (end === null ? [] : (network.partById.get(end[0])?.nodes.get(end[1]) ?? []))),
  );
}

/** The traction packs' own terminals. */
export function tractionTerminals(analysis: Analysis): readonly NodeIndex[] {
  return tractionPacks(analysis).flatMap(terminalsOf);
}

/** Checks that tell a join of the traction circuit; what is so only because of the join folds under theirs. */
const ROOTS: readonly string[] = ["traction-on-auxiliary", "traction-on-chassis"];

/** What ties a finding to a join, for folding. */
export interface ThroughJoin {
  readonly touches: readonly Place[];
  readonly foldsUnder: readonly string[];
}

/**
 * The joins that lie between a source and what is looked at: without them the one would not reach the other, and the
 * finding would not be. A join that is one of several ways parts nothing.
 */
export function throughJoin(
  analysis: Analysis,
  source: readonly NodeIndex[],
  looked: readonly NodeIndex[],
): ThroughJoin {
  let known = sides.get(analysis);
  if (known === undefined) sides.set(analysis, (known = findSides(analysis)));
  const only = (nodes: readonly NodeIndex[], own: ReadonlySet<NodeIndex>, other: ReadonlySet<NodeIndex>): boolean =>
    nodes.length > 0 && nodes.every((node) => own.has(node) && !other.has(node));
  const touches = known
    .filter(
      ({ near, far }) =>
        (only(source, near, far) && only(looked, far, near)) || (only(source, far, near) && only(looked, near, far)),
    )
    .map(({ place }) => place);
  return { touches, foldsUnder: touches.length > 0 ? ROOTS : [] };
}
