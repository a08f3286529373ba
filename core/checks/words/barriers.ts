/** Barriers inside parts of which nobody said whether they isolate: what is joined beyond them is not known. */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { MissingField } from "../define.ts";
import { belongingAt } from "./belongs.ts";

/** A parameter that says whether two sides of a part are one metal. */
interface Barrier {
  readonly parameter: string;
  readonly sides: readonly [readonly string[], readonly string[]];
}

const SERIAL = ["serial-ground", "serial-tx", "serial-rx"] as const;

const BARRIERS: readonly Barrier[] = [
  {
    parameter: "isolated",
    sides: [
      ["in+", "in-"],
      ["out+", "out-"],
    ],
  },
  {
    parameter: "isolated",
    sides: [
      ["supply+", "supply-"],
      ["sense+", "sense-"],
    ],
  },
  {
    parameter: "isolated",
    sides: [
      ["supply+", "supply-", ...SERIAL],
      ["B-", "P-", "C-", "pack+"],
    ],
  },
  { parameter: "serialIsolated", sides: [SERIAL, ["B+", "B-"]] },
  { parameter: "logicFeed", sides: [["logic-"], ["B+", "B-"]] },
];
/** A display's serial line counts only where it has no measuring side of its own. */
const DISPLAY: Barrier = { parameter: "isolated", sides: [["supply+", "supply-"], SERIAL] };

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
    const has = (id: string): boolean => part.nodes.has(id);
    const own = BARRIERS.filter(
      ({ parameter, sides: [a, b] }) => parameter in part.kind.parameters && a.some(has) && b.some(has),
    );
    const barriers = own.length === 0 && "isolated" in part.kind.parameters ? [DISPLAY] : own;
    return barriers.flatMap(({ parameter, sides }): UnknownBarrier[] => {
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
