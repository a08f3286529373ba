/** The states that checks on polarity, shorts and coils look at: the operating states and what a hand may do in each of them. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";

const remembered = new WeakMap<Analysis, readonly SolvedState[]>();

/** Operating states, *parked* after driving, the plugged-in ones, and each with one control flipped. */
export function everyState(analysis: Analysis): readonly SolvedState[] {
  let all = remembered.get(analysis);
  if (all === undefined) {
    const after = analysis.parkedAfterDriving;
    all = [...analysis.states, ...(after === undefined ? [] : [after]), ...analysis.plugged, ...analysis.flipped];
    remembered.set(analysis, all);
  }
  return all;
}
