/**
 * Touch and reach: which live terminals a spanner bridges, a loose plug touches on its lead, or a finger finds, and in
 * which states. Distances are measured on the face of each part and, where places are stated, across one panel.
 */
import type { Analysis, Pack } from "../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import type { Volt } from "../quantity/kinds.ts";
import { clearance, ratedImpulse } from "../standards/clearance.ts";
import { voltageClass } from "../standards/voltage-class.ts";
import { SPANNER_LENGTH, SPANNER_VOLTAGE } from "../standards/working-distances.ts";
import type { MissingField } from "./missing-field.ts";
import type { Place } from "./place.ts";
import { belongingAt, highestOf, isLowVoltageTerminal, isTraction } from "./words/belongs.ts";
import { highestBetween } from "./words/highest.ts";
import { isLive } from "./words/live.ts";
import { loosePlugs } from "./words/loose-plugs.ts";
import { distance, missingCover, panels, spotsOf } from "./words/panel.ts";
import type { Spot } from "./words/panel.ts";

/** Two terminals of the traction circuit, at most a spanner apart, neither of them covered. */
export interface SpannerBridge {
  readonly a: Spot;
  readonly b: Spot;
  /** The most between them; 0 where it may be above the limit only because something is unstated. */
  readonly volts: Volt;
  readonly states: readonly string[];
  /** mm */
  readonly apart: number;
}

export const nodeOfSpot = (spot: Spot): NodeIndex => spot.part.nodes.get(spot.terminal.id) ?? -1;

/** Bolted and clamped terminals of the traction circuit: pins of a plug are too small for a spanner. */
export function spannerSpots(analysis: Analysis, parts: readonly NetworkPart[]): readonly Spot[] {
  return parts
    .filter(({ nodes }) => [...nodes.values()].some((node) => isTraction(analysis, node)))
    .flatMap((part) => spotsOf(analysis.network.project, part))
    .filter((spot) => spot.terminal.form !== "pin" && isTraction(analysis, nodeOfSpot(spot)))
    .sort((a, b) => (a.part.part.id + a.terminal.id < b.part.part.id + b.terminal.id ? -1 : 1));
}

/**
 * Of unstated cover, and on one pack that has the voltage: what stands between them may hang on a contact or driver of
 * which something is unstated too. Between the posts of batteries it is known.
 */
function isPossible(analysis: Analysis, a: Spot, b: Spot): boolean {
  if (a.cover !== "unstated" && b.cover !== "unstated") return false;
  if (a.part.kind.traits.battery === true && b.part.kind.traits.battery === true) return false;
  const packs = belongingAt(analysis, nodeOfSpot(b)).traction;
  const shared = belongingAt(analysis, nodeOfSpot(a)).traction.filter((pack) => packs.includes(pack));
  return highestOf(shared) > SPANNER_VOLTAGE;
}

/** Pairs among these terminals that a spanner joins, with more than 30 V between them or possibly so. */
export function spannerBridges(analysis: Analysis, spots: readonly Spot[]): readonly SpannerBridge[] {
  const { netOfNode } = analysis.network;
  return spots.flatMap((a, index) =>
    spots.slice(index + 1).flatMap((b): SpannerBridge[] => {
      const apart = distance(a, b);
      const [from, to] = [nodeOfSpot(a), nodeOfSpot(b)];
      if (apart > SPANNER_LENGTH * 1000 || netOfNode[from] === netOfNode[to]) return [];
      if (a.cover === "covered" || b.cover === "covered") return [];
      const { volts, states, packs } = highestBetween(analysis, from, to);
      if (packs.length > 0 && volts > SPANNER_VOLTAGE) return [{ a, b, volts, states, apart }];
      return isPossible(analysis, a, b) ? [{ a, b, volts: 0, states: [], apart }] : [];
    }),
  );
}

/** A low-voltage contact and how far it reaches (mm): a plug as far as its lead, a fixed terminal the least clearance. */
export interface Threat {
  readonly place: Place;
  readonly nodes: readonly NodeIndex[];
  readonly at: NetworkPart;
  readonly x: number;
  readonly y: number;
  readonly reach: number;
  readonly loose: boolean;
  /** Its metal can touch something; undefined: nobody stated it. */
  readonly bare: boolean | undefined;
  readonly unstated: MissingField;
}

function loose(analysis: Analysis, among: ReadonlySet<NetworkPart>): readonly Threat[] {
  return loosePlugs(analysis, among).map(({ lead, part, ...plug }) => ({
    ...plug,
    reach: lead,
    loose: true,
    unstated: { part: part.part.id, parameter: "touchSafe" },
  }));
}

/** Fixed terminals: a distance below the clearance for the pack's voltage, on a dirty vehicle, is none. */
function fixed(analysis: Analysis, spot: Spot, packs: readonly Pack[]): Threat | undefined {
  const node = spot.part.nodes.get(spot.terminal.id);
  if (node === undefined || spot.terminal.form === "pin") return undefined;
  if (!isLowVoltageTerminal(analysis, spot.part, spot.terminal.id)) return undefined;
  const impulse = ratedImpulse(highestOf(packs), 2);
  const least = impulse === undefined ? undefined : clearance(impulse, 3);
  if (least === undefined) return undefined;
  return {
    place: { part: spot.part.part.id, terminal: spot.terminal.id },
    nodes: [node],
    at: spot.part,
    x: spot.x,
    y: spot.y,
    reach: least.length * 1000,
    loose: false,
    bare: spot.cover === "unstated" ? undefined : spot.cover === "bare",
    unstated: missingCover(analysis.network.project, spot.part, spot.terminal.id),
  };
}

/** A place of a busbar or strip that is there only because nobody stated how many it has. */
function isAssumed(analysis: Analysis, part: NetworkPart, terminal: string): boolean {
  if (!("positions" in part.kind.parameters) || part.values.stated("positions") === "confirmed") return false;
  return analysis.network.wiresAt([part.part.id, terminal]).length === 0;
}

export interface ThreatNear {
  readonly threat: Threat;
  /** mm */
  readonly apart: number;
}

/** A terminal of the traction circuit with the low-voltage metal that reaches it. */
export interface LowVoltageReach {
  readonly spot: Spot;
  readonly node: NodeIndex;
  readonly packs: readonly Pack[];
  /** States in which it is live. */
  readonly states: readonly string[];
  readonly near: readonly ThreatNear[];
}

/** States in which the voltage of one of these packs stands at a node. */
function statesLive(analysis: Analysis, packs: readonly Pack[], node: NodeIndex): readonly string[] {
  return analysis.states
    .filter((state) => packs.some((pack) => isLive(analysis, pack, state, node)))
    .map(({ name }) => name);
}

/** Terminals of the traction circuit on panels where some low-voltage metal is, each with what reaches it (or nothing). */
export function lowVoltageReaches(analysis: Analysis): readonly LowVoltageReach[] {
  const { network } = analysis;
  const tractionAt = (node: NodeIndex): readonly Pack[] => belongingAt(analysis, node).traction;
  const groups = panels(network.parts).filter((parts) =>
    parts.some(({ nodes }) => [...nodes.values()].some((node) => tractionAt(node).length > 0)),
  );
  const plugs = loose(analysis, new Set(groups.flat()));
  return groups.flatMap((parts): readonly LowVoltageReach[] => {
    const here = new Set(parts);
    const spots = parts.flatMap((part) => spotsOf(network.project, part));
    const traction = spots.flatMap((spot) => {
      const node = spot.part.nodes.get(spot.terminal.id);
      if (spot.terminal.form === "pin" || node === undefined || isAssumed(analysis, spot.part, spot.terminal.id)) {
        return [];
      }
      const packs = tractionAt(node);
      return packs.length > 0 ? [{ spot, node, packs }] : [];
    });
    if (traction.length === 0) return [];
    const packs = [...new Set(traction.flatMap((each) => each.packs))];
    const threats = [
      ...plugs.filter(({ at }) => here.has(at)),
      ...spots.flatMap((spot) => fixed(analysis, spot, packs) ?? []),
    ];
    if (threats.length === 0) return [];
    return traction.map(
      (each): LowVoltageReach => ({
        ...each,
        states: statesLive(analysis, each.packs, each.node),
        near: threats
          .filter(({ nodes }) => !nodes.some((other) => network.netOfNode[other] === network.netOfNode[each.node]))
          .map((threat) => ({ threat, apart: distance(each.spot, threat) }))
          .filter(({ threat, apart }) => apart <= threat.reach),
      }),
    );
  });
}

/** A terminal that is not covered and on which a pack stands in some state. */
export interface TouchableTerminal {
  readonly spot: Spot;
  readonly states: readonly string[];
  /** The pack at its highest. */
  readonly volts: Volt;
  /** Above 60 V: a finger must not reach it (UN R100). */
  readonly classB: boolean;
  /** What would settle whether it is covered; undefined: it is stated to be bare. */
  readonly missing: MissingField | undefined;
}

/** What a finger finds: bolted and clamped terminals that are bare, or of which nobody stated whether they are. */
export function touchableTerminals(analysis: Analysis): readonly TouchableTerminal[] {
  const { project, parts } = analysis.network;
  return spannerSpots(analysis, parts).flatMap((spot): TouchableTerminal[] => {
    if (spot.cover === "covered" || isAssumed(analysis, spot.part, spot.terminal.id)) return [];
    const packs = belongingAt(analysis, nodeOfSpot(spot)).traction;
    const states = statesLive(analysis, packs, nodeOfSpot(spot));
    if (states.length === 0) return [];
    const volts = highestOf(packs);
    const missing = spot.cover === "bare" ? undefined : missingCover(project, spot.part, spot.terminal.id);
    return [{ spot, states, volts, classB: voltageClass(volts) !== "A", missing }];
  });
}

export interface ReachStudy {
  readonly finger: readonly TouchableTerminal[];
  readonly spanner: readonly SpannerBridge[];
  /** Those that some low-voltage metal reaches. */
  readonly plug: readonly LowVoltageReach[];
}

/** All three for a drawing. */
export function reachStudy(analysis: Analysis): ReachStudy {
  return {
    finger: touchableTerminals(analysis),
    spanner: panels(analysis.network.parts).flatMap((parts) =>
      spannerBridges(analysis, spannerSpots(analysis, parts)).filter(({ volts }) => volts > 0),
    ),
    plug: lowVoltageReaches(analysis).filter(({ near, states }) => near.length > 0 && states.length > 0),
  };
}
