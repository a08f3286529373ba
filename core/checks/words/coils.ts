/** Coils of relays and contactors with their nodes, and whether a state joins both ends of one to a source. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { CoilSpec } from "../../parts/define.ts";
import { DisjointSets } from "../../network/sets.ts";
import { joinedIn } from "./joined.ts";

export interface CoilAt {
  readonly part: NetworkPart;
  readonly coil: CoilSpec;
  readonly plus: NodeIndex;
  readonly minus: NodeIndex;
  /** Both ends carry at least one wire. */
  readonly wired: boolean;
}

export function coilsOf(analysis: Analysis): readonly CoilAt[] {
  const { network } = analysis;
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
  readonly sources: DisjointSets;
  readonly touched: ReadonlySet<number>;
}

const remembered = new WeakMap<SolvedState, Map<ReadonlySet<Role>, Feeds>>();

function feedsIn(analysis: Analysis, state: SolvedState, roles: ReadonlySet<Role>): Feeds {
  const known = remembered.get(state) ?? new Map<ReadonlySet<Role>, Feeds>();
  remembered.set(state, known);
  let feeds = known.get(roles);
  if (feeds === undefined) {
    const metal = joinedIn(analysis, state, roles);
    const sources = new DisjointSets(analysis.network.nodeCount);
    const touched = new Set<number>();
    for (const { index, role, a, b } of analysis.network.branches) {
      if (role !== "source" || state.conducting[index] !== 1) continue;
      const [plus, minus] = [metal.find(a), metal.find(b)];
      touched.add(plus).add(minus);
      sources.join(plus, minus);
    }
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
  const { metal, sources } = feedsIn(analysis, state, roles);
  const at = sources.find(metal.find(plus));
  const parts = analysis.network.branches.flatMap(({ index, role, a, part }) =>
    role === "source" && part !== undefined && state.conducting[index] === 1 && sources.find(metal.find(a)) === at
      ? [part]
      : [],
  );
  return [...new Set(parts)];
}
