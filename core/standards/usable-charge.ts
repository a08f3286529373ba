/** How much of a battery's rated capacity a vehicle may count on, standing or with its converter failed. */
import type { Coulomb, Ratio } from "../quantity/kinds.ts";
import type { Chemistry } from "./cells.ts";
import type { Source } from "./source.ts";

export interface UsableShare {
  /** A share that surely is there, and the most that there can be. */
  readonly range: readonly [least: Ratio, most: Ratio];
  readonly source: Source;
}

/**
 * Lead-acid: the rated capacity is what 20 hours take out down to 10.5 V, and half of it is what may be taken without
 * harm. Lithium and the rest: the monitor stops before the last fifth.
 */
const LEAD: UsableShare = {
  range: [0.5, 1],
  source: {
    text: "EN 50342-1: rated capacity in 20 hours down to 10.5 V; half of it by common practice, no source",
    known: "memory",
  },
};
const OTHER: UsableShare = {
  range: [0.8, 1],
  source: { text: "Common practice, no source", known: "none" },
};

/** Unstated chemistry counts as lead-acid, the lower of the two. */
export function usableShare(chemistry: Chemistry | undefined): UsableShare {
  return chemistry === undefined || chemistry.endsWith("-lead") ? LEAD : OTHER;
}

/** Charge that may be used of a rated capacity: least and most. */
export function usableCharge(capacity: Coulomb, chemistry: Chemistry | undefined): readonly [Coulomb, Coulomb] {
  const { range } = usableShare(chemistry);
  return [capacity * range[0], capacity * range[1]];
}
