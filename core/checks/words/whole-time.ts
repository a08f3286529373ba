/** A time to be read: two digits of the unit in which it is printed (days, hours, minutes, seconds), rounded down. */
import type { Second } from "../../quantity/kinds.ts";

/** From how many seconds each unit is printed, as core/quantity does it. */
const UNITS: readonly (readonly [from: Second, unit: Second])[] = [
  [2 * 86400, 86400],
  [7200, 3600],
  [180, 60],
];

export function wholeTime(seconds: Second): Second {
  const unit = UNITS.find(([from]) => seconds >= from)?.[1] ?? 1;
  const count = seconds / unit;
  if (!Number.isFinite(count) || count <= 0) return seconds;
  const step = 10 ** (Math.floor(Math.log10(count)) - 1);
  return Math.floor(count / step + 1e-9) * step * unit;
}
