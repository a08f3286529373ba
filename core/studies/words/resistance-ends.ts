/** A state at both ends of the batteries' resistance, where only a range of it is known. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";

const kept = new WeakMap<SolvedState, readonly SolvedState[]>();

/** Nothing more than the state itself shows: [] where every resistance is stated. Relays stay where they are. */
export function bothEnds(analysis: Analysis, state: SolvedState): readonly SolvedState[] {
  let ends = kept.get(state);
  if (ends === undefined) {
    const ranged = state.elements.some((element) => "range" in element && element.range !== undefined);
    ends = ranged
      ? (["lowest", "highest"] as const).map((resistances) => analysis.solveChanged(state, { resistances, hold: true }))
      : [];
    kept.set(state, ends);
  }
  return ends;
}
