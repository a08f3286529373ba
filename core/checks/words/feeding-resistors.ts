/** Resistors through which alone a pack feeds a pair: pre-charge paths, and resistors left across an open contactor. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { drivenCurrent } from "../../circuit/questions.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import { closedFeed, waysBetween } from "./closed-feed.ts";
import type { ClosedFeed } from "./closed-feed.ts";
import { branchesOf } from "./joined.ts";
import type { TractionPair } from "./traction-pairs.ts";

/** What a resistor lets through counts from here on, as for a reversed supply. */
const LEAST_CURRENT = 1e-3;

/** Resistor parts through which alone a pack feeds the pair in a state; a resistor across the pair itself is none. */
export function feedingResistors(
  analysis: Analysis,
  state: SolvedState,
  { plus, minus }: Pick<TractionPair, "plus" | "minus">,
): readonly Branch[] {
  const feed = closedFeed(analysis, state);
  if (feed.isFed(plus, minus)) return [];
  const ends = [feed.island(plus), feed.island(minus)];
  const resistors = branchesOf(analysis, "resistor").filter(
    ({ part, a, b }) =>
      part?.kind.traits.load !== true && !(ends.includes(feed.island(a)) && ends.includes(feed.island(b))),
  );
  if (!isLinked(feed, resistors, plus, minus)) return [];
  const ways = waysBetween(analysis, state, plus, minus, resistors);
  if (!ways.some(({ role }) => role === "source")) return [];
  if (Math.abs(drivenCurrent(analysis, state, plus, minus)) < LEAST_CURRENT) return [];
  const number = ({ part }: Branch): number => Number(part?.part.id.slice(1));
  return ways.filter((branch) => resistors.includes(branch)).sort((a, b) => number(a) - number(b));
}

/** Do the resistors join what hangs on the two ends? Seen at a glance, before the ways themselves are looked for. */
function isLinked(feed: ClosedFeed, resistors: readonly Branch[], plus: NodeIndex, minus: NodeIndex): boolean {
  const reached = new Set([feed.group(plus)]);
  for (let grown = true; grown; ) {
    grown = false;
    for (const { a, b } of resistors) {
      const [from, to] = [feed.group(a), feed.group(b)];
      if (reached.has(from) === reached.has(to)) continue;
      reached.add(from).add(to);
      grown = true;
    }
  }
  return resistors.length > 0 && reached.has(feed.group(minus));
}
