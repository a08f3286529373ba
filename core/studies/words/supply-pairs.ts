/** Supply pairs (plus and minus of what consumes or delivers), with their nodes. Checks look at pairs, never at a part's kind. */
import type { NetworkPart, Network, NodeIndex } from "../../network/network.ts";
import type { SupplyPair } from "../../parts/define.ts";

export interface PairAt {
  readonly part: NetworkPart;
  readonly pair: SupplyPair;
  readonly plus: NodeIndex;
  readonly minus: NodeIndex;
  /** Both terminals carry at least one wire. */
  readonly wired: boolean;
}

const remembered = new WeakMap<Network, readonly PairAt[]>();

/** Found once for a network. */
export function supplyPairs(network: Network): readonly PairAt[] {
  let pairs = remembered.get(network);
  if (pairs === undefined) remembered.set(network, (pairs = find(network)));
  return pairs;
}

function find(network: Network): readonly PairAt[] {
  return network.parts.flatMap((part) =>
    part.kind.supplyPairs(part.values).flatMap((pair): PairAt[] => {
      const plus = part.nodes.get(pair.plus);
      const minus = part.nodes.get(pair.minus);
      if (plus === undefined || minus === undefined) return [];
      const wired =
        network.wiresAt([part.part.id, pair.plus]).length > 0 && network.wiresAt([part.part.id, pair.minus]).length > 0;
      return [{ part, pair, plus, minus, wired }];
    }),
  );
}
