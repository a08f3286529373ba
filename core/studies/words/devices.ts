/** Devices: what opens by itself on too much current (a fuse, a breaker, the fuse inside a pack), with its ratings. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { endsOverloads } from "../../standards/fuse-times.ts";
import type { FuseClass } from "../../standards/fuse-times.ts";
import type { MissingField } from "../missing-field.ts";

export interface Device {
  readonly branch: Branch;
  readonly part: NetworkPart;
  /** Undefined where nobody stated it. */
  readonly rating: Ampere | undefined;
  readonly ratingField: MissingField;
  /** False for a partial-range (aR) fuse: it clears short circuits only. */
  readonly endsOverloads: boolean;
  /** True for a fuse inside a battery pack. */
  readonly inside: boolean;
}

const remembered = new WeakMap<Analysis, ReadonlyMap<number, Device>>();

/** Devices by the index of their branch. */
export function devices(analysis: Analysis): ReadonlyMap<number, Device> {
  let all = remembered.get(analysis);
  if (all === undefined) {
    all = new Map(
      analysis.network.branches.flatMap((branch): [number, Device][] => {
        const { part, role, index } = branch;
        if (part === undefined || role !== "protection") return [];
        const inside = part.kind.traits.battery === true;
        const curve = part.values.choice("curve") as FuseClass | undefined;
        const parameter = inside ? "internalFuseRating" : "rating";
        return [
          [
            index,
            {
              branch,
              part,
              rating: part.values.number(parameter),
              ratingField: { part: part.part.id, parameter },
              endsOverloads: curve === undefined || endsOverloads(curve),
              inside,
            },
          ],
        ];
      }),
    );
    remembered.set(analysis, all);
  }
  return all;
}
