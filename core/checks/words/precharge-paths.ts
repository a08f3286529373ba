/**
 * Pre-charge paths: resistors through which alone a pack charges the capacitors at a load in some state, with the
 * contacts of their own in series with them.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, BranchIndex, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { closedFeed, isClosedContact, waysBetween } from "./closed-feed.ts";
import { feedingResistors } from "./feeding-resistors.ts";
import { packLoops } from "./pack-loops.ts";
import { tractionPairs } from "./traction-pairs.ts";
import type { TractionPair } from "./traction-pairs.ts";

export interface PrechargePath {
  readonly resistor: Branch;
  readonly part: NetworkPart;
  readonly pair: TractionPair;
  /** Closed contacts in series with the resistor that break nothing but it. */
  readonly contacts: readonly Branch[];
  /** Capacitors that it charges. */
  readonly capacitors: readonly Branch[];
  /** The state in which it was seen to feed. */
  readonly state: SolvedState;
}

const remembered = new WeakMap<Analysis, readonly PrechargePath[]>();

/** Each resistor once, with the first load behind it. */
export function prechargePaths(analysis: Analysis): readonly PrechargePath[] {
  let paths = remembered.get(analysis);
  if (paths === undefined) remembered.set(analysis, (paths = find(analysis)));
  return paths;
}

function find(analysis: Analysis): readonly PrechargePath[] {
  const found = new Map<Branch, PrechargePath>();
  for (const pair of tractionPairs(analysis)) {
    for (const state of analysis.states) {
      const resistors = feedingResistors(analysis, state, pair);
      if (resistors.length === 0 || resistors.every((resistor) => found.has(resistor))) continue;
      const feed = closedFeed(analysis, state);
      const [plus, minus] = [feed.island(pair.plus), feed.island(pair.minus)];
      const capacitors = analysis.network.branches.filter(({ role, index, a, b }) => {
        const element = state.elements[index];
        if (role !== "capacitor" || element?.type !== "capacitor" || element.capacitance === 0) return false;
        return feed.island(a) === plus && feed.island(b) === minus;
      });
      if (capacitors.length === 0) continue;
      const direct = new Set<BranchIndex>(pair.packs.flatMap((pack) => [...packLoops(analysis, pack, false)]));
      const contacts = waysBetween(analysis, state, pair.plus, pair.minus, resistors).filter(
        (branch) => isClosedContact(state, branch) && !direct.has(branch.index),
      );
      for (const resistor of resistors) {
        if (resistor.part === undefined || found.has(resistor)) continue;
        found.set(resistor, { resistor, part: resistor.part, pair, contacts, capacitors, state });
      }
    }
  }
  const number = ({ part }: PrechargePath): number => Number(part.part.id.slice(1));
  return [...found.values()].sort((a, b) => number(a) - number(b));
}

/** At twice its rating every class of fuse with published limits has opened after two minutes at most (UL 248-14, ISO 8820-3). */
const OPENS_AT = 2;

/** Does a fuse that carries at least this current open by it? */
export function fuseEnds(analysis: Analysis, state: SolvedState, current: Ampere): boolean {
  return analysis.network.branches.some(({ role, part, index }) => {
    const rating = role === "protection" ? part?.values.number("rating") : undefined;
    const own = Math.abs(state.currents[index] ?? 0);
    return rating !== undefined && own >= current * 0.99 && own >= OPENS_AT * rating;
  });
}
