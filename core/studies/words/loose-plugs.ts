/**
 * Low-voltage plugs that can come off and swing on their leads: the signal plugs of parts, and drawn connectors. A
 * plug on a part swings from its place on the face; a connector from its own place on the panel and from the terminals
 * in which its leads end.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { WireEnd } from "../../project/document.ts";
import { LOOSE_LEAD } from "../../standards/working-distances.ts";
import type { Place } from "../place.ts";
import { isLowVoltageTerminal } from "./belongs.ts";
import { spotsOf } from "./panel.ts";

export interface LoosePlug {
  readonly place: Place;
  readonly part: NetworkPart;
  /** Nodes of its contacts. */
  readonly nodes: readonly NodeIndex[];
  /** Where it hangs, and the part that says on which panel that is. */
  readonly at: NetworkPart;
  readonly x: number;
  readonly y: number;
  /** mm */
  readonly lead: number;
  /** Its contacts can touch something when it is off; undefined: nobody stated it. */
  readonly bare: boolean | undefined;
}

const isWired = (analysis: Analysis, end: WireEnd): boolean => analysis.network.wiresAt(end).length > 0;

/** Plugs on the faces of parts: every wired low-voltage pin is a place where its plug may be. */
function signalPlugs(analysis: Analysis, part: NetworkPart): readonly LoosePlug[] {
  return spotsOf(analysis.network.project, part).flatMap(({ terminal, x, y }): LoosePlug[] => {
    const node = part.nodes.get(terminal.id);
    if (terminal.form !== "pin" || node === undefined || !isWired(analysis, [part.part.id, terminal.id])) return [];
    if (!isLowVoltageTerminal(analysis, part, terminal.id)) return [];
    const place = { part: part.part.id, terminal: terminal.id };
    return [{ place, part, nodes: [node], at: part, x, y, lead: LOOSE_LEAD * 1000, bare: true }];
  });
}

/** Terminals in which the leads of a connector end, past splices and further plugs that have no place of their own. */
function leadEnds(analysis: Analysis, part: NetworkPart): readonly WireEnd[] {
  const { network } = analysis;
  const ends: WireEnd[] = [];
  const seen = new Set<string>([part.part.id]);
  const queue: WireEnd[] = part.terminals.map(({ id }) => [part.part.id, id] as const);
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    for (const wire of network.wiresAt(at)) {
      for (const end of wire.ends) {
        if (end === null || end[0] === at[0] || seen.has(end[0])) continue;
        const other = network.partById.get(end[0]);
        if (other === undefined) continue;
        if (other.kind.group !== "connecting" || other.part.panel !== undefined) {
          ends.push(end);
          continue;
        }
        seen.add(end[0]);
        queue.push(...other.terminals.map(({ id }) => [end[0], id] as const));
      }
    }
  }
  return ends;
}

function connectorPlugs(analysis: Analysis, part: NetworkPart): readonly LoosePlug[] {
  const wired = part.terminals.filter(({ id }) => isWired(analysis, [part.part.id, id]));
  if (wired.length === 0 || wired.some(({ id }) => !isLowVoltageTerminal(analysis, part, id))) return [];
  const { project, partById } = analysis.network;
  // Wires on pins that it does not have while their number is unstated: what the plug carries is not known.
  const isKnown = part.values.number("positions") !== undefined;
  const onPins = (end: WireEnd | null): boolean => end === null || end[0] !== part.part.id || part.nodes.has(end[1]);
  if (!isKnown && !project.wires.every(({ ends }) => ends.every(onPins))) return [];
  const safe = part.values.choice("touchSafe");
  const common = {
    place: { part: part.part.id },
    part,
    nodes: wired.flatMap(({ id }) => part.nodes.get(id) ?? []),
    lead: (part.values.number("leadLength") ?? LOOSE_LEAD) * 1000,
    bare: safe === undefined ? undefined : safe === "no",
  };
  const own =
    part.part.panel === undefined
      ? []
      : spotsOf(project, part).map(({ x, y }): LoosePlug => ({ ...common, at: part, x, y }));
  const ends = leadEnds(analysis, part).flatMap(([id, terminal]): LoosePlug[] => {
    const at = partById.get(id);
    const spot =
      at?.part.panel === undefined ? undefined : spotsOf(project, at).find((each) => each.terminal.id === terminal);
    return at === undefined || spot === undefined ? [] : [{ ...common, at, x: spot.x, y: spot.y }];
  });
  return [...own, ...ends];
}

/** The signal plugs of these parts, and every connector, wherever its leads end. */
export function loosePlugs(analysis: Analysis, among: ReadonlySet<NetworkPart>): readonly LoosePlug[] {
  return analysis.network.parts.flatMap((part) => {
    if (part.kind.traits.connector === true) return connectorPlugs(analysis, part);
    return among.has(part) ? signalPlugs(analysis, part) : [];
  });
}
