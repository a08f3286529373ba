/** Where the feed or the return of a dead terminal may have been forgotten: terminals without a wire, a wire that hangs loose. */
import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { Place } from "../define.ts";
import { nodePlace, partPlace } from "./places.ts";

const CARRIES: ReadonlySet<Role> = new Set<Role>(["conductor", "contact", "protection", "shunt", "diode", "resistor"]);

/** Of a part's terminal and the one that it is fed against: all that is reached with every contact closed, short of the chassis. */
export function openAround(analysis: Analysis, part: NetworkPart, terminal: string): readonly Place[] {
  const { network } = analysis;
  const pair = part.kind.supplyPairs(part.values).find(({ plus, minus }) => plus === terminal || minus === terminal);
  const ends = pair === undefined ? [terminal] : [pair.plus, pair.minus];
  const beside = neighbours(network);
  const seen = new Set<NodeIndex>(ends.flatMap((end) => part.nodes.get(end) ?? []));
  const queue = [...seen];
  for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
    for (const { to, branch } of beside(at)) {
      if (to === CHASSIS_NODE || seen.has(to) || branch.part === part || !CARRIES.has(branch.role)) continue;
      seen.add(to);
      queue.push(to);
    }
  }
  // A wire that is the only one to hang loose is what is missing here, wherever its other end is.
  const loose = network.project.wires.filter(({ ends: [a, b] }) => (a === null) !== (b === null));
  const [only, second] = loose.map(({ id }): Place => ({ wire: id }));
  const open = [...seen].flatMap((node) => {
    const end = network.terminalOfNode[node];
    const place = end === undefined ? undefined : nodePlace(network, node);
    if (end === undefined || place === undefined) return [];
    const leads = network.wiresAt([end[0], end[1]]).some(({ ends: [a, b] }) => a !== null && b !== null);
    return leads ? [] : [place];
  });
  return only === undefined || second !== undefined ? open : [...open, only];
}

/**
 * What charges a terminal through a resistor, or should: the resistors at its net, the relays that let them in, and what
 * hangs loose on the way.
 */
export function prechargeAround(analysis: Analysis, part: NetworkPart, terminal: string): readonly Place[] {
  const { network } = analysis;
  const net = network.netOfNode[part.nodes.get(terminal) ?? -1];
  const onNet = (node: NodeIndex): boolean => network.netOfNode[node] === net;
  const parts = new Set<NetworkPart>();
  const found: Place[] = [];
  const resistors = network.branches.filter(
    ({ role, part: own, a, b }) => role === "resistor" && own !== undefined && own !== part && onNet(a) !== onNet(b),
  );
  const beside = neighbours(network);
  for (const { a, b, part: resistor } of resistors) {
    if (resistor === undefined) continue;
    parts.add(resistor);
    const seen = new Set([onNet(a) ? b : a]);
    const queue = [...seen];
    for (let at = queue.pop(); at !== undefined; at = queue.pop()) {
      const end = network.terminalOfNode[at];
      if (end !== undefined && network.wiresAt([end[0], end[1]]).length === 0)
        found.push({ part: end[0], terminal: end[1] });
      for (const { to, branch } of beside(at)) {
        if (seen.has(to) || onNet(to) || !CARRIES.has(branch.role)) continue;
        seen.add(to);
        // Behind the relay that lets the resistor in the pack's own metal begins.
        if (branch.role !== "contact") queue.push(to);
        else if (branch.part?.kind.coils !== undefined) parts.add(branch.part);
      }
    }
  }
  return [...found, ...[...parts].map(partPlace)];
}
