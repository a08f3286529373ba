/** Natural order of designations and terminals: runs of digits count as numbers, so that F1:1 < F1:2 < F10:1. */
import type { WireEnd } from "../project/document.ts";

/** Negative, zero or positive. Compares by code unit, never by locale: the same order on every machine. */
export function compareNatural(a: string, b: string): number {
  const left = runs(a);
  const right = runs(b);
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
  return (a, b) =>
    compareNatural(designationOf(a[0]), designationOf(b[0])) ||
    compareNatural(a[1], b[1]) ||
    compareNatural(a[0], b[0]);
}

function runs(text: string): readonly string[] {
  return text.match(/\d+|\D+/g) ?? [];
}

function isNumber(run: string): boolean {
  return /^\d/.test(run);
}
