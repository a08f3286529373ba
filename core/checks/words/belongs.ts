/** Traction, auxiliary, chassis: questions about where a terminal belongs, computed by the analysis and never read off a name. */
import type { Analysis, Belonging, Pack } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";

export function belongingAt(analysis: Analysis, node: NodeIndex): Belonging {
  const net = analysis.network.netOfNode[node];
  return net === undefined ? { traction: [], auxiliary: [], chassis: false } : analysis.belonging(net);
}

export function isTraction(analysis: Analysis, node: NodeIndex): boolean {
  return belongingAt(analysis, node).traction.length > 0;
}

/** The highest voltage that any traction pack reaching this node can have (absorption by chemistry); 0 if none does. */
export function tractionVolts(analysis: Analysis, node: NodeIndex): number {
  return highestOf(belongingAt(analysis, node).traction);
}

export function highestOf(packs: readonly Pack[]): number {
  return packs.reduce((most, pack) => Math.max(most, pack.highest), 0);
}

/**
 * A low-voltage terminal: its net belongs to no traction source, or it is a pin of a controller's signal plug
 * (which is low-voltage to the person who wires it, whatever it is referenced to).
 */
export function isLowVoltageTerminal(analysis: Analysis, part: NetworkPart, terminal: string): boolean {
  const node = part.nodes.get(terminal);
  if (node === undefined) return false;
  const form = part.terminals.find((spec) => spec.id === terminal)?.form;
  if (part.kind.traits.controller === true && form === "pin") return true;
  return !isTraction(analysis, node);
}
