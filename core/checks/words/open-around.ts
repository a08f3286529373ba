/** Where the feed or the return of a dead terminal may have been forgotten: terminals without a wire, a wire that hangs loose. */
import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { Place } from "../define.ts";
import { nodePlace } from "./places.ts";

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
