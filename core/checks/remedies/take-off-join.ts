/** Takes off the one wire that joins the traction circuit to the chassis or to the 12 V side. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Network } from "../../network/network.ts";
import type { Wire } from "../../project/document.ts";
import type { Remedy } from "../define.ts";
import type { Join } from "../words/joins.ts";
import { isSpare, takeOffWire } from "./take-out.ts";

/**
 * Not offered where a part would lose a wire that it cannot work without: then it is wired to the wrong place. A
 * chassis point that was there for this wire alone goes with it.
 */
export function takeOffJoin({ network }: Analysis, { place, sole }: Join): readonly Remedy[] {
  const wire = "wire" in place ? network.conductorByWire.get(place.wire)?.wire : undefined;
  if (wire === undefined || !sole) return [];
  const points = pointsFor(network, wire);
  return isSpare(network, wire, points) ? [takeOffWire(wire, points)] : [];
}

/** Ids of chassis points on which nothing but this wire is bolted. */
function pointsFor(network: Network, { ends }: Wire): readonly string[] {
  return ends.flatMap((end) => {
    const part = end === null ? undefined : network.partById.get(end[0]);
    if (part?.kind.traits.chassisPoint !== true) return [];
    const wires = part.terminals.flatMap(({ id }) => network.wiresAt([part.part.id, id]));
    return wires.length === 1 ? [part.part.id] : [];
  });
}
