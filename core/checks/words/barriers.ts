/** Barriers inside parts of which nobody said whether they isolate: what is joined beyond them is not known. */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { barriersOf } from "../../circuit/barriers.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { MissingField } from "../define.ts";
import { belongingAt } from "../../studies/words/belongs.ts";

export interface UnknownBarrier {
  readonly part: NetworkPart;
  readonly missing: MissingField;
  /** What lies beyond it, seen from the pack. */
  readonly beyond: { readonly chassis: boolean; readonly auxiliary: boolean };
}

const kept = new WeakMap<Analysis, Map<Pack, readonly UnknownBarrier[]>>();

/** Barriers of unknown kind between this pack and the chassis or the 12 V side. */
export function unknownBarriers(analysis: Analysis, pack: Pack): readonly UnknownBarrier[] {
  let byPack = kept.get(analysis);
  if (byPack === undefined) kept.set(analysis, (byPack = new Map<Pack, readonly UnknownBarrier[]>()));
  let found = byPack.get(pack);
  if (found === undefined) byPack.set(pack, (found = look(analysis, pack)));
  return found;
}

function look(analysis: Analysis, pack: Pack): readonly UnknownBarrier[] {
  return analysis.network.parts.flatMap((part) => {
    if (part.kind.traits.charger === true) return [];
    return barriersOf(part).flatMap(({ parameter, sides }): UnknownBarrier[] => {
      if (part.values.choice(parameter) !== undefined) return [];
      const nodes = sides.map((side) => wiredNodes(analysis, part, side));
      const onPack = nodes.map((side) => side.some((node) => belongingAt(analysis, node).traction.includes(pack)));
      const far = onPack[0] === onPack[1] ? undefined : nodes[onPack[0] === true ? 1 : 0];
      if (far === undefined || far.length === 0) return [];
      const places = far.map((node) => belongingAt(analysis, node));
      const beyond = {
        chassis: places.some(({ chassis }) => chassis),
        auxiliary: places.some(({ auxiliary }) => auxiliary.length > 0),
      };
      if (!beyond.chassis && !beyond.auxiliary) return [];
      return [{ part, missing: { part: part.part.id, parameter }, beyond }];
    });
  });
}

function wiredNodes(analysis: Analysis, part: NetworkPart, side: readonly string[]): readonly NodeIndex[] {
  return side.flatMap((id) => {
    const node = part.nodes.get(id);
    return node === undefined || analysis.network.wiresAt([part.part.id, id]).length === 0 ? [] : [node];
  });
}
