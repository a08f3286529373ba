/** Short questions that many checks ask of an analysis. */
import type { Conductor, Net, Network, NetworkPart, NodeIndex } from "../network/network.ts";
import type { Element } from "../parts/element.ts";
import type { WireEnd } from "../project/document.ts";
import type { Ampere, Volt } from "../quantity/kinds.ts";
import type { Analysis, SolvedState } from "./analysis.ts";

/** The wires of a net. */
export function conductorsOf(network: Network, net: Net): readonly Conductor[] {
  return network.conductors.filter(({ a }) => network.netOfNode[a] === net.index);
}

/** The net at a terminal; undefined where the drawing has no such terminal. */
export function netAt(network: Network, end: WireEnd): Net | undefined {
  const node = network.partById.get(end[0])?.nodes.get(end[1]);
  return node === undefined ? undefined : netOf(network, node);
}

export function netOf(network: Network, node: NodeIndex): Net | undefined {
  return network.nets[network.netOfNode[node] ?? -1];
}

/** Current of a wire in a state, from its first end to its second; undefined for a wire that is no branch (a loose end). */
export function wireCurrent(state: SolvedState, network: Network, wire: string): Ampere | undefined {
  const conductor = network.conductorByWire.get(wire);
  return conductor === undefined ? undefined : state.currents[conductor.branch];
}

/** Volts between two terminals of one part; undefined if it lacks one of them or nothing leads there. */
export function voltsBetween(state: SolvedState, part: NetworkPart, plus: string, minus: string): Volt | undefined {
  const [a, b] = [part.nodes.get(plus), part.nodes.get(minus)];
  if (a === undefined || b === undefined) return undefined;
  const volts = state.between(a, b);
  return Number.isNaN(volts) ? undefined : volts;
}

/**
 * What a voltage between two nodes could drive through a dead short: volts by two-point resistance. Tells a feed from a
 * voltage that leaks alone put there. Negative where b is above a; 0 where no voltage is known.
 */
export function drivenCurrent(analysis: Analysis, state: SolvedState, a: NodeIndex, b: NodeIndex): Ampere {
  const volts = state.between(a, b);
  const ohms = analysis.resistanceBetween(state, a, b);
  return Number.isNaN(volts) || ohms === Infinity || ohms <= 0 ? 0 : volts / ohms;
}

/** A part's element in a state with its current (a to b; a source's counts as delivered). */
export function elementOf(
  state: SolvedState,
  network: Network,
  part: NetworkPart,
  name: string,
): { readonly element: Element; readonly current: Ampere; readonly branch: number } | undefined {
  for (let branch = part.firstBranch; branch < part.firstBranch + part.branchCount; branch += 1) {
    const element = state.elements[branch];
    if (network.branches[branch]?.name !== name || element === undefined) continue;
    return { element, current: state.currents[branch] ?? 0, branch };
  }
  return undefined;
}

/** Wires of the traction circuit: those whose net belongs to a traction source in some state. */
export function tractionWires(analysis: Analysis): ReadonlySet<string> {
  const { network } = analysis;
  const belongs = network.conductors.filter(({ a }) => {
    const net = netOf(network, a);
    return net !== undefined && analysis.belonging(net.index).traction.length > 0;
  });
  return new Set(belongs.map(({ wire }) => wire.id));
}
