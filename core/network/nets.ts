/** Nets: terminals joined by wires, busbars, splices, strips and mated connectors. Contacts never join nets. */
import type { Project, WireEnd } from "../project/document.ts";
import { compareTerminals } from "./natural-order.ts";
import type { Branch, Net } from "./network.ts";
import { CHASSIS_NODE } from "./network.ts";
import { DisjointSets } from "./sets.ts";

export interface NodeNames {
  readonly nodeCount: number;
  readonly terminalOfNode: readonly (WireEnd | undefined)[];
  /** What to call a node that is no terminal, e.g. "T1:5V" for an inner node. */
  readonly nameOfNode: (node: number) => string;
  readonly designationOf: (part: string) => string;
}

/**
 * Nets in natural order of their first terminal; nets without terminals (inner nodes, undrawn structures) last.
 * A net bears the user's name if one of its terminals was given one (the first in natural order wins).
 */
export function buildNets(
  project: Project,
  branches: readonly Branch[],
  names: NodeNames,
): { nets: readonly Net[]; netOfNode: Int32Array } {
  const { nodeCount, terminalOfNode } = names;
  const sets = new DisjointSets(nodeCount);
  for (const branch of branches) if (branch.joins) sets.join(branch.a, branch.b);

  const members = new Map<number, number[]>();
  for (let node = 0; node < nodeCount; node += 1) {
    const root = sets.find(node);
    const list = members.get(root);
    if (list === undefined) members.set(root, [node]);
    else list.push(node);
  }

  const compare = compareTerminals(names.designationOf);
  const given = new Map(project.netNames.map(({ at, name }) => [`${at[0]}:${at[1]}`, name]));
  const groups = [...members.values()].map((nodes) => ({
    nodes: sortedByTerminal(nodes, terminalOfNode, compare),
    terminals: nodes
      .map((node) => terminalOfNode[node])
      .filter((end) => end !== undefined)
      .sort(compare),
    chassis: sets.together(nodes[0] ?? CHASSIS_NODE, CHASSIS_NODE),
  }));
  groups.sort((a, b) => {
    const [x, y] = [a.terminals[0], b.terminals[0]];
    if (x !== undefined && y !== undefined) return compare(x, y);
    if (x === undefined && y === undefined) return (a.nodes[0] ?? 0) - (b.nodes[0] ?? 0);
    return x === undefined ? 1 : -1;
  });

  const netOfNode = new Int32Array(nodeCount);
  const nets = groups.map(({ nodes, terminals, chassis }, index): Net => {
    for (const node of nodes) netOfNode[node] = index;
    const first = terminals[0];
    const user = terminals
      .map(([part, terminal]) => given.get(`${part}:${terminal}`))
      .find((name) => name !== undefined);
    const own =
      first === undefined ? names.nameOfNode(nodes[0] ?? CHASSIS_NODE) : `${names.designationOf(first[0])}:${first[1]}`;
    return { index, name: user ?? own, nodes, terminals, chassis };
  });
  return { nets, netOfNode };
}

/** Terminals first, in natural order, so that a net's first node is the one its voltage is told at. */
function sortedByTerminal(
  nodes: readonly number[],
  terminalOfNode: readonly (WireEnd | undefined)[],
  compare: (a: WireEnd, b: WireEnd) => number,
): readonly number[] {
  return [...nodes].sort((a, b) => {
    const [x, y] = [terminalOfNode[a], terminalOfNode[b]];
    if (x !== undefined && y !== undefined) return compare(x, y);
    if (x === undefined && y === undefined) return a - b;
    return x === undefined ? 1 : -1;
  });
}
