/**
 * Volts lost in the wires between a source and what it feeds, out and back, with the wires as hot as their insulation
 * allows. Contacts and fuses are not counted: their drop is no matter of the wire.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, Conductor, NodeIndex } from "../../network/network.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { wayTo, walks } from "./fault-walk.ts";
import type { Walk } from "./fault-walk.ts";

export interface Lost {
  readonly conductor: Conductor;
  readonly volts: Volt;
  readonly amperes: Ampere;
}

export interface DropAt {
  readonly walk: Walk;
  /** Wires out and back, each with what it loses. */
  readonly wires: readonly Lost[];
  readonly volts: Volt;
}

const hot = new WeakMap<SolvedState, SolvedState>();

/** The state with its wires at the limit of their insulation; everything else stands as it is. */
export function hotState(analysis: Analysis, state: SolvedState): SolvedState {
  let solved = hot.get(state);
  if (solved === undefined) {
    hot.set(state, (solved = analysis.solveChanged(state, { resistances: "hot", hold: true })));
  }
  return solved;
}

export function lostIn(
  analysis: Analysis,
  state: SolvedState,
  branches: readonly Pick<Branch, "conductor">[],
): readonly Lost[] {
  const solved = hotState(analysis, state);
  return branches.flatMap(({ conductor }): Lost[] => {
    if (conductor === undefined) return [];
    const amperes = Math.abs(solved.currents[conductor.branch] ?? 0);
    return [{ conductor, amperes, volts: amperes * conductor.hot }];
  });
}

/** What is lost on the way to this pair in each walk that reaches both its ends from the two poles of one source. */
export function dropsAt(analysis: Analysis, plus: NodeIndex, minus: NodeIndex): readonly DropAt[] {
  return walks(analysis).flatMap((walk): DropAt[] => {
    const [a, b] = [walk.labels.get(plus), walk.labels.get(minus)];
    if (a === undefined || b === undefined || a.origin === b.origin) return [];
    if (!delivers(analysis, walk)) return [];
    const wires = lostIn(analysis, walk.state, [...wayTo(walk, plus), ...wayTo(walk, minus)]);
    return [{ walk, wires, volts: wires.reduce((sum, { volts }) => sum + volts, 0) }];
  });
}

/** A source that gives nothing in this state feeds nothing in it: another one does. */
function delivers(analysis: Analysis, { feed, state }: Walk): boolean {
  const { currents } = hotState(analysis, state);
  return feed.sources.some(({ index }) => (currents[index] ?? 0) > 0);
}
