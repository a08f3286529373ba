/** Bonded: below 0.1 ohm to the chassis through conductors and bonds alone. */
import type { Analysis, PathQuery, SolvedState } from "../../circuit/analysis.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { NodeIndex } from "../../network/network.ts";
import type { Ohm } from "../../quantity/kinds.ts";
import type { MissingField } from "../define.ts";

export interface Bond {
  /** Infinity: nothing leads to the chassis. */
  readonly ohms: Ohm;
  /** Lengths and sizes that the figure lacks. */
  readonly missing: readonly MissingField[];
}

const METAL: PathQuery = { through: ["conductor"] };
const NONE: Bond = { ohms: Infinity, missing: [] };

/** Resistance of the shortest way; of several side by side only where that way alone is too much. */
export function bondOf(analysis: Analysis, node: NodeIndex, limit: Ohm): Bond {
  const [state] = analysis.states;
  const way = state === undefined ? undefined : analysis.path(state, node, CHASSIS_NODE, METAL);
  if (state === undefined || way === undefined) return NONE;
  const alone = way.reduce((sum, { index }) => sum + resistanceOf(state, index), 0);
  const missing = way.flatMap(({ conductor }) =>
    (conductor?.assumed ?? []).map((field) => ({ wire: conductor?.wire.id ?? "", field })),
  );
  return { ohms: alone < limit ? alone : analysis.resistanceBetween(state, node, CHASSIS_NODE), missing };
}

function resistanceOf(state: SolvedState, index: number): Ohm {
  const element = state.elements[index];
  return element !== undefined && "resistance" in element ? element.resistance : 0;
}
