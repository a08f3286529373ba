/** What explains the readings, as a person reads it in a terminal window: the best first, and what speaks against it. */
import type { Analysis } from "../../core/circuit/analysis.ts";
import { CHASSIS_NODE } from "../../core/network/network.ts";
import type { Explanation, ReadingSet } from "../../core/studies/diagnose.ts";
import { explanationWords } from "../../core/studies/diagnose-json.ts";
import { printQuantity } from "../../core/quantity/print.ts";
import { wrap } from "./table.ts";

const MOST_RANKS = 5;
const MOST_ALIKE = 8;
const MOST_AGAINST = 4;

/** Below this a best explanation explains less than it leaves open. */
const POOR = 0.7;

const volts = (value: number): string => printQuantity(Math.round(value * 10) / 10, "voltage");

function readingNames({ network }: Analysis, sets: readonly ReadingSet[]): readonly (readonly [string, number])[] {
  const at = (node: number): string => {
    const end = network.terminalOfNode[node];
    return node === CHASSIS_NODE ? "chassis" : end === undefined ? "an inner point" : network.label(end);
  };
  return sets.flatMap(({ state, points, volts: read }) =>
    points.map(([plus, minus], place) => [`${at(plus)} to ${at(minus)} in ${state}`, read[place] ?? 0] as const),
  );
}

function against(best: Explanation, names: readonly (readonly [string, number])[]): readonly string[] {
  const lines = best.against.slice(0, MOST_AGAINST).map((place) => {
    const [name = "", read = 0] = names[place] ?? [];
    return wrap(`Against it: ${name} reads ${volts(read)}, it would be ${volts(best.shows[place] ?? 0)}.`, "         ");
  });
  const left = best.against.length - lines.length;
  return left > 0 ? [...lines, `         and ${left} more readings against it`] : lines;
}

/** The whole report, without a newline at its end. */
export function diagnoseReport(
  name: string,
  analysis: Analysis,
  sets: readonly ReadingSet[],
  told: readonly Explanation[],
): string {
  const names = readingNames(analysis, sets);
  const blocks = [
    wrap(`${name}: ${names.length} readings in ${sets.map(({ state }) => state).join(", ")}.`, ""),
    "What explains them, the best first. Fit: 1.00 = every reading as it would be.",
    "",
  ];
  for (let rank = 1; rank <= MOST_RANKS; rank += 1) {
    const group = told.filter((each) => each.rank === rank);
    const [best] = group;
    if (best === undefined) break;
    const lines = group.slice(0, MOST_ALIKE).map((each, place) => {
      const head = place === 0 ? `${rank}. ${each.fit.toFixed(2)}  ` : "      or ";
      return head + wrap(`${explanationWords(analysis, each)}.`, "         ").trimStart();
    });
    if (group.length > MOST_ALIKE) lines.push(`         or ${group.length - MOST_ALIKE} more`);
    if (group.length > 1)
      lines.push(wrap("None of the readings tells these apart: measure closer to one of them.", "         "));
    blocks.push(...lines, ...against(best, names), "");
  }
  const [first] = told;
  if (first === undefined || first.fit < POOR) {
    blocks.push(
      wrap(
        "No single fault explains these readings well. Look for two faults at once, a wire that is on another terminal than drawn, or a reading taken in another state; then measure again.",
        "",
      ),
      "",
    );
  }
  blocks.push(
    wrap("Prove the meter on a known voltage before and after. Read with one hand, the wheels off the ground.", ""),
  );
  return blocks.join("\n");
}
