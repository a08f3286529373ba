/** Remedy of what lies the wrong way round: all that is wired to one terminal goes to another, and the other way round. */
import type { Network } from "../../network/network.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { Project, WireEnd } from "../../project/document.ts";
import type { Remedy } from "../define.ts";
import type { Edit } from "./edit.ts";
import { remedy } from "./edit.ts";

export type Swap = readonly [WireEnd, WireEnd];

const same = (a: WireEnd | null, b: WireEnd): boolean => a !== null && a[0] === b[0] && a[1] === b[1];

/** Every wire end on a terminal that `to` knows goes where it says; the others stay. */
export function moveEnds(edit: Edit, before: Project, to: (end: WireEnd) => WireEnd | undefined): void {
  for (const { id: wire, ends } of before.wires) {
    for (const end of [0, 1] as const) {
      const at = ends[end];
      const goal = at === null ? undefined : to(at);
      if (at !== null && goal !== undefined && !same(at, goal)) edit.run(reconnect, { wire, end, to: goal });
    }
  }
}

/** One edit for all swaps. None where a terminal has no wire: then it is not a swap that is missing. */
export function swapWires(network: Network, swaps: readonly Swap[], label: string): readonly Remedy[] {
  if (swaps.length === 0 || swaps.flat().some((end) => network.wiresAt(end).length === 0)) return [];
  return [
    remedy("swap-wires", label, (edit) => {
      moveEnds(edit, edit.project, (end) => {
        for (const [a, b] of swaps) {
          if (same(end, a)) return b;
          if (same(end, b)) return a;
        }
        return undefined;
      });
    }),
  ];
}

/** "Swap the wires at T2:in+ and T2:in-" */
export function swapLabel(network: Network, [a, b]: Swap): string {
  return `Swap the wires at ${network.label(a)} and ${network.label(b)}`;
}
