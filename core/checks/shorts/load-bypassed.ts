import type { Branch, Network, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { defineCheck } from "../define.ts";
import { takeOffWire, wireBetween } from "../remedies/take-out.ts";
import type { Place } from "../define.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const CONSUMES: ReadonlySet<Role> = new Set<Role>(["load", "coil", "shunt"]);

export const loadBypassed = defineCheck({
  id: "load-bypassed",
  group: "shorts",
  title: "Load or sensor bypassed",
  about:
    "Looks at both terminals of every load, coil, shunt, sensor and gauge, and at the supply of every part: where wires, busbars and plugs alone join the two, no current passes through it. A current sensor is left out, as its conductor is one piece of metal. A contact in the way may be meant to bypass and is left to the checks on shorts.",
  severities: ["WARNING"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: true,
    contact:
      "a contact between the two terminals is a switch that may be meant to bypass; only metal alone is judged here",
    rename: true,
  },
  without: { notChecked: "Which terminals the wires join is always known." },
  messages: {
    bypassed: {
      title: "{a} and {b} are joined by metal alone, so that nothing passes through {part}.",
      why: "The current takes the wire and not {part}: it does not work or does not measure, and what feeds it may be shorted.",
      mend: "Take off the wire that joins {a} and {b}, or move one end of it to the terminal it was meant for.",
    },
  },
  reasons: {},
  foldsUnder: ["source-shorted"],
  run(analysis, report) {
    const { network } = analysis;
    for (const part of network.parts) {
      const pairs = pairsOf(network, part);
      if (pairs.length === 0) continue;
      const wired = pairs.filter((pair) => pair.every(({ terminal }) => isWired(network, part, terminal)));
      const bypassed = wired.find(([a, b]) => network.netOfNode[a.node] === network.netOfNode[b.node]);
      if (bypassed !== undefined) {
        const [a, b] = bypassed;
        const { id } = part.part;
        const wire = wireBetween(network, [id, a.terminal], [id, b.terminal]);
        const where: readonly Place[] = [terminalPlace(part, a.terminal), terminalPlace(part, b.terminal)];
        report.fails({
          message: "bypassed",
          facts: {
            part: { place: partPlace(part) },
            a: { place: terminalPlace(part, a.terminal) },
            b: { place: terminalPlace(part, b.terminal) },
          },
          severity: "WARNING",
          where,
          touches: wiresOf(network, a.node),
          remedies: wire === undefined ? [] : [takeOffWire(wire)],
        });
      } else if (wired.length > 0) report.passes(partPlace(part));
      else report.doesNotApply(partPlace(part));
    }
  },
});

interface End {
  readonly terminal: string;
  readonly node: NodeIndex;
}

/** Terminals between which something consumes or measures, and supply pairs; taps of a monitor may well be joined. */
function pairsOf(network: Network, part: NetworkPart): readonly (readonly [End, End])[] {
  const { traits } = part.kind;
  const measures = traits.sensor === true || traits.throttle === true || traits.gauge === true;
  const end = (node: NodeIndex): End | undefined => {
    const at = network.terminalOfNode[node];
    return at?.[0] === part.part.id ? { terminal: at[1], node } : undefined;
  };
  const pair = (a: End | undefined, b: End | undefined): readonly (readonly [End, End])[] =>
    a === undefined || b === undefined || a.node === b.node ? [] : [[a, b]];
  const works = ({ role }: Branch): boolean =>
    CONSUMES.has(role) || (measures && (role === "sense" || role === "resistor"));
  const inside = network.branches
    .slice(part.firstBranch, part.firstBranch + part.branchCount)
    .flatMap((branch) => (works(branch) ? pair(end(branch.a), end(branch.b)) : []));
  if (traits.monitor === true) return inside;
  const supplies = part.kind
    .supplyPairs(part.values)
    .flatMap(({ plus, minus }) => pair(end(part.nodes.get(plus) ?? -1), end(part.nodes.get(minus) ?? -1)));
  return [...supplies, ...inside];
}

function isWired(network: Network, part: NetworkPart, terminal: string): boolean {
  return network.wiresAt([part.part.id, terminal]).length > 0;
}

function wiresOf(network: Network, node: NodeIndex): readonly Place[] {
  const net = network.netOfNode[node];
  return network.conductors.filter(({ a }) => network.netOfNode[a] === net).map(({ wire }) => ({ wire: wire.id }));
}
