/** A report for the unused-code tool that also says how many files it read, which its own reports leave out. */
import { writeFileSync } from "node:fs";

/**
 * @param {{ issues: Record<string, Record<string, Record<string, { symbol: string }>>>,
 *   counters: { processed: number }, options: string }} outcome
 */
export default function report({ issues, counters, options }) {
  const { file } = JSON.parse(options);
  const reports = Object.entries(issues).flatMap(([rule, places]) =>
    Object.entries(places).flatMap(([place, symbols]) =>
      Object.values(symbols).map(({ symbol }) => ({ rule, text: symbol === place ? place : `${place}: ${symbol}` })),
    ),
  );
  writeFileSync(file, JSON.stringify({ files: counters.processed, reports }));
}
