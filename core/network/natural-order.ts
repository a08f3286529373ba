/** Natural order of designations and terminals: runs of digits count as numbers, so that F1:1 < F1:2 < F10:1. */
import type { WireEnd } from "../project/document.ts";

/** Negative, zero or positive. Compares by code unit, never by locale: the same order on every machine. */
export function compareNatural(a: string, b: string): number {
  return a === b ? 0 : compareRuns(runs(a), runs(b));
}

function compareRuns(left: readonly string[], right: readonly string[]): number {
  const shared = Math.min(left.length, right.length);
  for (let i = 0; i < shared; i += 1) {
    const x = left[i] ?? "";
    const y = right[i] ?? "";
    if (x === y) continue;
    const difference = isNumber(x) && isNumber(y) ? Number(x) - Number(y) : 0;
    if (difference !== 0) return difference;
    return x < y ? -1 : 1;
  }
  return left.length - right.length;
}

/** Order of terminals: by designation, then by terminal, then by part id (two parts may share a designation). */
export function compareTerminals(designationOf: (part: string) => string): (a: WireEnd, b: WireEnd) => number {
  const known = new Map<string, readonly string[]>();
  const runsOf = (text: string): readonly string[] => {
    let found = known.get(text);
    if (found === undefined) known.set(text, (found = runs(text)));
    return found;
  };
  const compare = (a: string, b: string): number => (a === b ? 0 : compareRuns(runsOf(a), runsOf(b)));
  return (a, b) => compare(designationOf(a[0]), designationOf(b[0])) || compare(a[1], b[1]) || compare(a[0], b[0]);
}

function runs(text: string): readonly string[] {
  return text.match(/\d+|\D+/g) ?? [];
}

function isNumber(run: string): boolean {
  return /^\d/.test(run);
}
