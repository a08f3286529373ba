/** What a bench reports. */
export interface Row {
  readonly what: string;
  /** Measured, with unit; or why it was not run. */
  readonly measured: string;
  /** What it is held to, if anything. */
  readonly wanted?: string;
  readonly met?: boolean;
}

export function median(list: readonly number[]): number {
  const sorted = [...list].sort((p, q) => p - q);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}

/** A time against what it must stay below, both in milliseconds. */
export function timed(what: string, milliseconds: number, below?: number): Row {
  const measured = `${milliseconds.toFixed(milliseconds < 1 ? 4 : 1)} ms`;
  if (below === undefined) return { what, measured };
  return { what, measured, wanted: `below ${below} ms`, met: milliseconds < below };
}
