/** Bonded: below 0.1 ohm to the chassis through conductors and bonds alone (UN R100 5.1.2.2, seen). */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { NodeIndex } from "../../network/network.ts";

export const BOND_LIMIT = 0.1;

/** True where metal alone leads from the node to the chassis and its resistance is below the limit. */
export function isBonded(analysis: Analysis, state: SolvedState, node: NodeIndex): boolean {
  if (node === CHASSIS_NODE) return true;
  if (!analysis.reach(state, CHASSIS_NODE, { through: ["conductor"] }).has(node)) return false;
  return analysis.resistanceBetween(state, node, CHASSIS_NODE) < BOND_LIMIT;
}
