/** Which lug fits which stud: inch sizes by the metric size whose lug fits them. */
import type { Source } from "./source.ts";

/** Convention of the trade: No. 10 takes an M5 lug, 1/4 in M6, 5/16 in M8, 3/8 in M10, 1/2 in M12. */
const METRIC_OF_INCH: Readonly<Record<string, number>> = { "#10": 5, "1/4": 6, "5/16": 8, "3/8": 10, "1/2": 12 };

export const STUD_SIZE_SOURCE: Source = {
  text: "Convention of the trade: the size of a lug's hole equals that of its stud; No. 10 = M5, 1/4 in = M6, 5/16 in = M8, 3/8 in = M10, 1/2 in = M12",
  known: "memory",
};

/** The number behind M of the thread that a stud or a lug's hole belongs to: 8 for "M8" and for "5/16 in"; undefined for others. */
export function metricThread(text: string): number | undefined {
  const metric = /^M\s*([0-9]+(?:\.[0-9]+)?)$/i.exec(text.trim());
  if (metric?.[1] !== undefined) return Number(metric[1]);
  const inch = /^(#[0-9]+|[0-9]+\/[0-9]+)\s*(?:in|")?$/i.exec(text.trim());
  return inch?.[1] === undefined ? undefined : METRIC_OF_INCH[inch[1]];
}
