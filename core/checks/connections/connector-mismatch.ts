/** Halves of a connector that do not fit each other: positions used on one side only, nets that change their name. */
import type { Network, NetworkPart } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Report } from "../define.ts";
import { defineCheck } from "../define.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

/** Contacts of a connector: the terminals that face each other, found from what joins them. */
function contactsOf(network: Network, part: NetworkPart): readonly (readonly [string, string])[] {
  const pairs: (readonly [string, string])[] = [];
  for (let index = part.firstBranch; index < part.firstBranch + part.branchCount; index += 1) {
    const branch = network.branches[index];
    if (branch?.role !== "conductor") continue;
    const [a, b] = [network.terminalOfNode[branch.a], network.terminalOfNode[branch.b]];
    if (a !== undefined && b !== undefined) pairs.push([a[1], b[1]]);
  }
  return pairs;
}

/** User names of the net on each side of a contact, the connector taken as pulled apart. */
function namesApart(network: Network, part: NetworkPart): (terminal: string) => ReadonlySet<string> {
  const sets = new DisjointSets(network.nodeCount);
  for (const branch of network.branches) if (branch.joins && branch.part !== part) sets.join(branch.a, branch.b);
  const names = new Map<number, Set<string>>();
  for (const { at, name } of network.project.netNames) {
    const node = network.partById.get(at[0])?.nodes.get(at[1]);
    if (node === undefined) continue;
    const root = sets.find(node);
    names.set(root, (names.get(root) ?? new Set()).add(name));
  }
  return (terminal) => names.get(sets.find(part.nodes.get(terminal) ?? 0)) ?? new Set();
}

function compareNames(
  network: Network,
  part: NetworkPart,
  contacts: readonly (readonly [string, string])[],
  report: Report,
): void {
  const names = network.project.netNames.length < 2 ? undefined : namesApart(network, part);
  for (const [a, b] of contacts) {
    const [left, right] = [[...(names?.(a) ?? [])], [...(names?.(b) ?? [])]];
    const first = left[0];
    const second = right[0];
    if (first === undefined || second === undefined || left.some((name) => right.includes(name))) {
      report.passes(terminalPlace(part, a), terminalPlace(part, b));
      continue;
    }
    report.fails({
      message: "nets",
      facts: {
        a: { place: terminalPlace(part, a) },
        b: { place: terminalPlace(part, b) },
        first,
        second,
      },
      severity: "WARNING",
      where: [terminalPlace(part, a), terminalPlace(part, b)],
      variant: "nets",
    });
  }
}

export const connectorMismatch = defineCheck({
  id: "connector-mismatch",
  group: "connections",
  title: "Connector halves do not fit each other",
  about:
    "Looks at connectors that have wires on both halves: every position wired on one half must be wired on the other, and the net on one side of a contact must not bear another name of yours than the net on the other side. A connector with only one half wired (a socket for something that is not on the drawing) is left alone. Two wires swapped between positions that are both in use show only by their nets' names, or by what the circuit then does.",
  severities: ["WARNING"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: {
    splice: true,
    busbar: true,
    connector: "of two differently named nets, every connector between the two names may be the one with the swap",
    contact: "a net ends at a contact; what lies beyond it bears a name of its own",
    rename: true,
  },
  without: { notChecked: "Which positions are wired, and what nets are called, is always in the document." },
  messages: {
    positions: {
      title: "The halves of {part} use different positions: nothing is wired opposite {terminals}.",
      why: "A wire goes into the plug and does not come out again: what it should feed stays dead, or the wires are one position out and feed something else.",
      mend: "Compare the positions on both halves, and move or add the wire opposite {terminals}.",
    },
    nets: {
      title: "{a} carries the net {first}, and mates with {b}, which carries the net {second}.",
      why: "Two nets that you named differently become one when the plug goes in: two wires are probably swapped.",
      mend: "Move the wire to the position that its net has on the other half, or give the two nets one name if they are meant to be one.",
    },
  },
  reasons: {},
  run({ network }, report) {
    for (const part of network.parts) {
      if (part.kind.traits.connector !== true) continue;
      const isWired = (terminal: string): boolean => network.wiresAt([part.part.id, terminal]).length > 0;
      const contacts = contactsOf(network, part);
      const halves = [contacts.some(([a]) => isWired(a)), contacts.some(([, b]) => isWired(b))];
      if (!halves.every(Boolean)) {
        report.doesNotApply(partPlace(part));
        continue;
      }
      const alone = contacts.flatMap(([a, b]) => (isWired(a) === isWired(b) ? [] : [isWired(a) ? a : b]));
      const both = contacts.filter(([a, b]) => isWired(a) && isWired(b));
      if (alone.length > 0) {
        const places = alone.map((terminal) => terminalPlace(part, terminal));
        report.fails({
          message: "positions",
          facts: { part: { place: partPlace(part) }, terminals: { places } },
          severity: "WARNING",
          where: places,
          touches: alone.flatMap((terminal) =>
            network.wiresAt([part.part.id, terminal]).map((wire) => ({ wire: wire.id })),
          ),
        });
      }
      compareNames(network, part, both, report);
    }
  },
});
