/** Reading between the rows of a published table. */

/**
 * Straight line between the two rows around `x`; `rows` ascend in their first column. Outside the table the
 * nearest row holds: nothing is extrapolated.
 */
export function interpolate(rows: readonly (readonly [x: number, y: number])[], x: number): number {
  const above = rows.findIndex(([each]) => each >= x);
  const high = rows[above === -1 ? rows.length - 1 : above];
  const low = rows[Math.max(0, above === -1 ? rows.length - 1 : above - 1)];
  if (high === undefined || low === undefined) return Number.NaN;
  const span = high[0] - low[0];
  if (span === 0 || x >= high[0]) return high[1];
  if (x <= low[0]) return low[1];
  return low[1] + ((high[1] - low[1]) * (x - low[0])) / span;
}
