/** Supply pairs that a traction pack feeds or could feed, each with the states in which closed contacts do so. */
import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { MissingField, Place } from "../define.ts";
import { ClosedFeed, closedFeed, isClosedContact, waysBetween } from "./closed-feed.ts";
import { terminalPlace } from "./places.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";

export interface TractionPair extends PairAt {
  readonly place: Place;
  /** The traction packs that feed it, or would with every contact closed. */
  readonly packs: readonly Pack[];
  /** States in which it is fed. */
  readonly states: readonly SolvedState[];
}

const remembered = new WeakMap<Analysis, readonly TractionPair[]>();

/** Pairs of loads (no coils, no meters, no chargers) that a traction pack feeds, or would with every contact closed. */
export function tractionPairs(analysis: Analysis): readonly TractionPair[] {
  let pairs = remembered.get(analysis);
  if (pairs === undefined) remembered.set(analysis, (pairs = find(analysis)));
  return pairs;
}

/** Of these, what drives the vehicle: the main pairs of controllers and of motors that contacts alone feed. */
export function drivePairs(analysis: Analysis): readonly TractionPair[] {
  return tractionPairs(analysis).filter(
    ({ part, pair }) => pair.main && (part.kind.traits.controller === true || part.kind.traits.motor === true),
  );
}

function find(analysis: Analysis): readonly TractionPair[] {
  const [any] = analysis.states;
  if (any === undefined) return [];
  const closed = new ClosedFeed(analysis, any, { contacts: "closed" });
  const loads = supplyPairs(analysis.network).filter(
    ({ part, pair }) =>
      pair.direction === "input" && part.kind.traits.load === true && part.kind.traits.charger !== true,
  );
  return loads.flatMap((at): TractionPair[] => {
    // Most loads of a vehicle hang on its 12 V side: whatever closes, no traction pack comes near them.
    if (closed.packsAt(at.plus).every(({ duty }) => duty !== "traction")) return [];
    const states = analysis.states.filter((state) => fedBetween(analysis, closedFeed(analysis, state), at));
    const motor = at.part.kind.traits.motor === true;
    const ways = [
      ...states.map((state) => closedFeed(analysis, state)),
      ...(!motor && closed.isFed(at.plus, at.minus) ? [closed] : []),
    ];
    const feeding = ways.flatMap((way) => {
      const joined = way.packsAt(at.plus);
      return joined.filter((pack) => joined.length === 1 || !way.isFedBesides(pack, at.plus, at.minus));
    });
    const packs = [...new Set(feeding)].filter(({ duty }) => duty === "traction");
    if (packs.length === 0) return [];
    return [{ ...at, place: terminalPlace(at.part, at.pair.plus), packs, states }];
  });
}

/** The nodes between which a pair is fed; a motor's own further windings (a series field) may lie in between. */
export function fedBetween(
  analysis: Analysis,
  feed: ClosedFeed,
  { part, plus, minus }: Pick<PairAt, "part" | "plus" | "minus">,
): readonly [plus: NodeIndex, minus: NodeIndex] | undefined {
  if (part.kind.traits.motor !== true) return feed.isFed(plus, minus) ? [plus, minus] : undefined;
  const windings = analysis.network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .filter(({ role, a, b }) => role === "load" && !(isEnd(a, plus, minus) && isEnd(b, plus, minus)));
  const through = (start: NodeIndex): readonly NodeIndex[] => {
    const nodes = [start];
    for (const node of nodes) {
      for (const { a, b } of windings) {
        const far = feed.island(a) === feed.island(node) ? b : feed.island(b) === feed.island(node) ? a : undefined;
        if (far !== undefined && nodes.every((known) => feed.island(known) !== feed.island(far))) nodes.push(far);
      }
    }
    return nodes;
  };
  for (const a of through(plus)) for (const b of through(minus)) if (feed.isFed(a, b)) return [a, b];
  return undefined;
}

function isEnd(node: NodeIndex, plus: NodeIndex, minus: NodeIndex): boolean {
  return node === plus || node === minus;
}

/**
 * What may be lacking where no state closes the contacts ahead of a pair: a controller that does not say how it drives
 * its contactor leaves it open for good, which proves nothing about what opens it.
 */
export function unstatedDrivers(analysis: Analysis): readonly MissingField[] {
  return analysis.network.parts
    .filter(
      ({ part, kind, values }) =>
        kind.traits.controller === true &&
        values.choice("contactorDriver") === undefined &&
        analysis.network.wiresAt([part.id, "contactor-out"]).length > 0,
    )
    .map(({ part }) => ({ part: part.id, parameter: "contactorDriver" }));
}

/** Highest voltage of the packs behind a pair. */
export function packVolts(packs: readonly Pack[]): number {
  return packs.reduce((most, pack) => Math.max(most, pack.highest), 0);
}

/** Contactors and relays that stay closed in the path. */
export function poweredContacts(
  analysis: Analysis,
  state: SolvedState,
  [plus, minus]: readonly [number, number],
): readonly NetworkPart[] {
  const parts = waysBetween(analysis, state, plus, minus).flatMap((branch) => {
    const element = state.elements[branch.index];
    const powered = element?.type === "contact" && (element.movedBy === "coil" || element.movedBy === "logic");
    return powered && isClosedContact(state, branch) && branch.part !== undefined ? [branch.part] : [];
  });
  return [...new Set(parts)];
}
