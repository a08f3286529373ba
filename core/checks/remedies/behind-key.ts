/** A remedy: the one wire that feeds a terminal past the key is led to the key's switched side instead. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { reconnect } from "../../project/commands/reconnect.ts";
import type { WireEnd } from "../../project/document.ts";
import type { Remedy } from "../define.ts";
import { joinedIn } from "../words/joined.ts";

/**
 * Offered where one wire alone leads to the terminal and its far end is joined by metal to the fed side of a key's
 * contact that is closed while driving and open now.
 */
export function behindKey(
  analysis: Analysis,
  driving: SolvedState,
  off: SolvedState,
  keys: readonly NetworkPart[],
  [part, terminal]: WireEnd,
): readonly Remedy[] {
  const { network } = analysis;
  const [wire, ...others] = network.wiresAt([part, terminal]);
  if (wire === undefined || others.length > 0) return [];
  const end = wire.ends[0]?.[0] === part && wire.ends[0][1] === terminal ? 1 : 0;
  const far = wire.ends[end];
  if (far === null) return [];
  const node = network.partById.get(far[0])?.nodes.get(far[1]);
  if (node === undefined) return [];
  const metal = joinedIn(analysis, off);
  const at = metal.find(node);
  for (const key of keys) {
    for (const { index, a, b } of network.branches.slice(key.firstBranch, key.firstBranch + key.branchCount)) {
      const [before, after] = [driving.elements[index], off.elements[index]];
      if (before?.type !== "contact" || !before.closed || after?.type !== "contact" || after.closed) continue;
      const switched = metal.find(a) === at ? b : metal.find(b) === at ? a : undefined;
      const to = switched === undefined ? undefined : network.terminalOfNode[switched];
      if (to === undefined || (to[0] === far[0] && to[1] === far[1])) continue;
      return [
        {
          id: "behind-key",
          label: `Lead wire ${wire.number} to ${network.label(to)} instead of ${network.label(far)}`,
          apply: (project) => execute(project, reconnect, { wire: wire.id, end, to }, KINDS).project,
        },
      ];
    }
  }
  return [];
}
