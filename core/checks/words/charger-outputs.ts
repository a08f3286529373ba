/** Outputs of chargers with the traction packs that they charge, or would with every contact closed. */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";
import type { Place } from "../define.ts";
import { ClosedFeed } from "./closed-feed.ts";
import { fewestOpen } from "./feed-path.ts";
import { terminalPlace } from "./places.ts";

export interface ChargerOutput extends PairAt {
  readonly place: Place;
  readonly packs: readonly Pack[];
}

const remembered = new WeakMap<Analysis, readonly ChargerOutput[]>();

export function chargerOutputs(analysis: Analysis): readonly ChargerOutput[] {
  let found = remembered.get(analysis);
  if (found === undefined) remembered.set(analysis, (found = find(analysis)));
  return found;
}

export function chargers(analysis: Analysis): readonly NetworkPart[] {
  return analysis.network.parts.filter(({ kind }) => kind.traits.charger === true);
}

/** A diode towards the pack is a way for the charger alone. */
const TOWARDS_PACK: readonly Role[] = ["conductor", "contact", "protection", "shunt", "diode"];

function find(analysis: Analysis): readonly ChargerOutput[] {
  const [any] = analysis.states;
  if (any === undefined || chargers(analysis).length === 0) return [];
  const closed = new ClosedFeed(analysis, any, { contacts: "closed" });
  const charges = (pack: Pack, plus: NodeIndex, minus: NodeIndex): boolean =>
    fewestOpen(analysis, any, plus, pack.positive, { through: TOWARDS_PACK }) !== undefined &&
    fewestOpen(analysis, any, pack.negative, minus, { through: TOWARDS_PACK }) !== undefined;
  return supplyPairs(analysis.network).flatMap((at): ChargerOutput[] => {
    const { part, pair, plus, minus } = at;
    if (part.kind.traits.charger !== true || pair.direction !== "output" || !at.wired) return [];
    const joined = closed.isFed(plus, minus) ? closed.packsAt(plus) : [];
    const metal = joined.filter((pack) => joined.length === 1 || !closed.isFedBesides(pack, plus, minus));
    const packs = (joined.length > 0 ? metal : analysis.packs.filter((pack) => charges(pack, plus, minus))).filter(
      ({ duty }) => duty === "traction",
    );
    return packs.length === 0 ? [] : [{ ...at, place: terminalPlace(part, pair.plus), packs }];
  });
}
