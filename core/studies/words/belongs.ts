/** Traction, auxiliary, chassis: questions about where a terminal belongs, computed by the analysis and never read off a name. */
import type { Analysis, Belonging, Pack } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";

export function belongingAt(analysis: Analysis, node: NodeIndex): Belonging {
  const net = analysis.network.netOfNode[node];
  return net === undefined ? { traction: [], auxiliary: [], chassis: false } : analysis.belonging(net);
}

export function isTraction(analysis: Analysis, node: NodeIndex): boolean {
  return belongingAt(analysis, node).traction.length > 0;
}

/** The highest voltage that any of these packs can have (absorption by chemistry); 0 without any. */
export function highestOf(packs: readonly Pack[]): number {
  return packs.reduce((most, pack) => Math.max(most, pack.highest), 0);
}

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt"];

const kept = new WeakMap<Analysis, Map<Pack, ReadonlySet<NodeIndex>>>();

/** Nodes that metal and closed contacts join to a pack's own terminals in some state. Kept per analysis. */
function onMetalOf(analysis: Analysis, pack: Pack): ReadonlySet<NodeIndex> {
  const byPack = kept.get(analysis) ?? new Map<Pack, ReadonlySet<NodeIndex>>();
  kept.set(analysis, byPack);
  let nodes = byPack.get(pack);
  if (nodes === undefined) {
    const ends = pack.blocks.flatMap((block) => block.terminals.flatMap(({ id }) => block.nodes.get(id) ?? []));
    nodes = new Set(
      analysis.states.flatMap((state) => ends.flatMap((end) => [...analysis.reach(state, end, { through: METAL })])),
    );
    byPack.set(pack, nodes);
  }
  return nodes;
}

/**
 * A low-voltage terminal: its net belongs to no traction source, or it is a pin of a controller's signal plug
 * (which is low-voltage to the person who wires it, whatever it is referenced to). Where a part without isolation
 * joins both sides, every 12 V net belongs to the traction pack as well: one that is metal with a 12 V battery and
 * not with the pack stays low-voltage.
 */
export function isLowVoltageTerminal(analysis: Analysis, part: NetworkPart, terminal: string): boolean {
  const node = part.nodes.get(terminal);
  if (node === undefined) return false;
  const form = part.terminals.find((spec) => spec.id === terminal)?.form;
  if (part.kind.traits.controller === true && form === "pin") return true;
  const { traction, auxiliary } = belongingAt(analysis, node);
  if (traction.length === 0) return true;
  return (
    auxiliary.some((pack) => onMetalOf(analysis, pack).has(node)) &&
    !traction.some((pack) => onMetalOf(analysis, pack).has(node))
  );
}
