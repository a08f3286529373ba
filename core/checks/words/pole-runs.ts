/**
 * From each pole of a feed to what first stands in the way: the runs of wire whose length decides whether the device
 * is close enough to the source, and whether the pole has one at all.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, Conductor, NodeIndex } from "../../network/network.ts";
import { wayWithin } from "../../studies/words/fault-exits.ts";
import type { Entrance } from "../../studies/words/fault-exits.ts";
import { poleRegion } from "../../studies/words/faults.ts";
import type { PoleRegion } from "../../studies/words/faults.ts";
import { polesOn, walks } from "../../studies/words/fault-walk.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { runVerdict } from "../../studies/words/run-length.ts";
import type { RunVerdict } from "../../studies/words/run-length.ts";

export interface PoleRun {
  readonly origin: NodeIndex;
  readonly wires: readonly Conductor[];
  /** The device or resistor at its end; undefined where it ends at a consumer or nowhere. */
  readonly entrance: Entrance | undefined;
  readonly end: NodeIndex;
  readonly verdict: RunVerdict;
}

export interface Pole {
  readonly region: PoleRegion;
  readonly runs: readonly PoleRun[];
  readonly hasDevice: boolean;
}

/** One walk a feed: contacts do not matter to what lies ahead of the first device. */
export function feedWalks(analysis: Analysis): readonly Walk[] {
  const first = new Map(walks(analysis).map((walk) => [walk.feed, walk]));
  for (const walk of [...walks(analysis)].reverse()) first.set(walk.feed, walk);
  return [...first.values()];
}

/** The poles of one side with their runs. */
export function polesWithRuns(analysis: Analysis, walk: Walk, side: "plus" | "minus"): readonly Pole[] {
  return polesOn(walk, side).map((origin): Pole => {
    const region = poleRegion(analysis, walk, origin);
    const { entrances, open } = region.exits;
    const runTo = (end: NodeIndex, entrance: Entrance | undefined): PoleRun => {
      const way = wayWithin(region.exits, end);
      return {
        origin,
        wires: way.flatMap(({ conductor }) => conductor ?? []),
        entrance,
        end,
        verdict: runVerdict(analysis, way, walk.feed.storage && isStraight(way)),
      };
    };
    return {
      region,
      hasDevice: entrances.some(({ branch }) => branch.role === "protection"),
      runs: [
        ...entrances.map((entrance) => runTo(entrance.node, entrance)),
        ...open.map((end) => runTo(end, undefined)),
      ].filter(({ wires }) => wires.length > 0),
    };
  });
}

/** Nothing but wire and joints. */
function isStraight(way: readonly Branch[]): boolean {
  return way.every(({ joins }) => joins);
}
