/** Remedy of tap wires in the wrong order: every wire goes to the tap that its height in the string asks for. */
import type { SolvedState } from "../../circuit/analysis.ts";
import type { Network, NetworkPart } from "../../network/network.ts";
import type { WireEnd } from "../../project/document.ts";
import type { Volt } from "../../quantity/kinds.ts";
import type { Remedy } from "../define.ts";
import { remedy } from "./edit.ts";
import { moveEnds } from "./swap-wires.ts";

/** Below this two taps are on one metal, and which of them comes first cannot be told. */
const APART: Volt = 0.5;

/**
 * The wired taps of one row, in the order of their numbers, get the potentials in ascending order. None where two of
 * them stand at one height, or where they are in order already.
 */
export function sortTaps(network: Network, state: SolvedState, part: NetworkPart, row: string): readonly Remedy[] {
  const taps = part.terminals.flatMap(({ id, row: own }) => {
    const [node, end] = [part.nodes.get(id), [part.part.id, id] as WireEnd];
    return own === row && node !== undefined && network.wiresAt(end).length > 0 ? [{ id, end, node }] : [];
  });
  const [lowest] = taps;
  if (lowest === undefined) return [];
  const heights = taps.map(({ id, node }) => ({ id, height: state.between(node, lowest.node) }));
  if (heights.some(({ height }) => !Number.isFinite(height))) return [];
  const sorted = [...heights].sort((a, b) => a.height - b.height);
  if (sorted.some(({ height }, index) => height - (sorted[index - 1]?.height ?? -Infinity) < APART)) return [];
  const goals = new Map(sorted.map(({ id }, index) => [id, taps[index]?.end]));
  return [
    remedy("sort-taps", `Sort the tap wires of ${part.part.designation} by their height in the string`, (edit) => {
      moveEnds(edit, edit.project, ([id, terminal]) => (id === part.part.id ? goals.get(terminal) : undefined));
    }),
  ];
}
