/**
 * Where a pack's voltage stands: the nodes that are joined to it by what carries current (not by leaks and meters),
 * state by state. Kept per analysis.
 */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";

/** Metal and what passes a supply on: a coil or a resistor in a lead does not take its voltage away. */
const CARRIES: readonly Role[] = ["conductor", "contact", "protection", "shunt", "source", "diode", "coil", "resistor"];
const CARRIES_AND_LOADS: readonly Role[] = [...CARRIES, "load", "driver"];

export interface Reached {
  readonly carried: ReadonlySet<NodeIndex>;
  readonly withLoads: ReadonlySet<NodeIndex>;
}

const kept = new WeakMap<Analysis, Map<Pack, Map<SolvedState, Reached>>>();

function reached(analysis: Analysis, pack: Pack, state: SolvedState): Reached {
  let byPack = kept.get(analysis);
  if (byPack === undefined) kept.set(analysis, (byPack = new Map<Pack, Map<SolvedState, Reached>>()));
  let byState = byPack.get(pack);
  if (byState === undefined) byPack.set(pack, (byState = new Map<SolvedState, Reached>()));
  let here = byState.get(state);
  if (here === undefined) {
    here = {
      carried: analysis.reach(state, pack.negative, { through: CARRIES }),
      withLoads: analysis.reach(state, pack.negative, { through: CARRIES_AND_LOADS }),
    };
    byState.set(state, here);
  }
  return here;
}

/** What a pack reaches in a state, for loops over many nodes: with and without loads in between. */
export function reachedBy(analysis: Analysis, pack: Pack, state: SolvedState): Reached {
  return reached(analysis, pack, state);
}

/** The pack is joined to this node in this state, other than through loads, meters and leaks. */
export function isFedBy(analysis: Analysis, pack: Pack, state: SolvedState, node: NodeIndex): boolean {
  return reached(analysis, pack, state).carried.has(node);
}

/** ... in some state. */
export function isOnPack(analysis: Analysis, pack: Pack, node: NodeIndex): boolean {
  return analysis.states.some((state) => isFedBy(analysis, pack, state, node));
}

/** The pack's voltage stands at this node, a load in between or not. */
export function isLive(analysis: Analysis, pack: Pack, state: SolvedState, node: NodeIndex): boolean {
  return reached(analysis, pack, state).withLoads.has(node);
}

export function tractionPacks(analysis: Analysis): readonly Pack[] {
  return analysis.packs.filter(({ duty }) => duty === "traction");
}

export function auxiliaryPacks(analysis: Analysis): readonly Pack[] {
  return analysis.packs.filter(({ duty }) => duty === "auxiliary");
}
