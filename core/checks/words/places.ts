/** Places from network things, so that every check writes them alike. */
import type { Branch, NetworkPart, Network, NodeIndex } from "../../network/network.ts";
import type { Wire } from "../../project/document.ts";
import type { Place } from "../define.ts";

export function partPlace(part: NetworkPart): Place {
  return { part: part.part.id };
}

export function terminalPlace(part: NetworkPart, terminal: string): Place {
  return { part: part.part.id, terminal };
}

/** The parts at both ends of a wire, each once. */
export function endPlaces(network: Network, { ends }: Wire): readonly Place[] {
  const parts = ends.flatMap((end) => (end === null ? [] : (network.partById.get(end[0]) ?? [])));
  return [...new Set(parts)].map(partPlace);
}

/** The terminal at a node; undefined for chassis and inner nodes. */
export function nodePlace(network: Network, node: NodeIndex): Place | undefined {
  const end = network.terminalOfNode[node];
  return end === undefined ? undefined : { part: end[0], terminal: end[1] };
}

/** The wire or the part that a branch belongs to; undefined for the network's own leaks. */
export function branchPlace(branch: Branch): Place | undefined {
  if (branch.conductor !== undefined) return { wire: branch.conductor.wire.id };
  return branch.part === undefined ? undefined : { part: branch.part.part.id };
}

/** Places of a path or loop, each once, in its order. */
export function branchPlaces(branches: readonly Branch[]): readonly Place[] {
  const seen = new Set<string>();
  return branches.flatMap((branch) => {
    const place = branchPlace(branch);
    const key = JSON.stringify(place);
    if (place === undefined || seen.has(key)) return [];
    seen.add(key);
    return [place];
  });
}
