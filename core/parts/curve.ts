/** A fuse's time-current curve as typed: `2:100 s; 5:0.5 s`, multiple of the rating against time to clear. */
import { parseQuantity } from "../quantity/parse.ts";
import type { Ratio, Second } from "../quantity/kinds.ts";

interface CurvePoint {
  readonly multiple: Ratio;
  readonly time: Second;
}

type CurveReading =
  | { readonly ok: true; readonly points: readonly CurvePoint[]; readonly text: string }
  | { readonly ok: false; readonly why: string };

const MOST_POINTS = 40;
const EXAMPLE = "write points such as 2:100 s; 5:0.5 s";

/**
 * Reads a curve: at least two points, multiples rising, times not rising. `text` is the tidied form that is stored.
 * Never throws; `why` is a sentence fragment.
 */
export function parseCurve(text: string): CurveReading {
  const pieces = text
    .split(";")
    .map((piece) => piece.trim())
    .filter((piece) => piece !== "");
  if (pieces.length < 2 || pieces.length > MOST_POINTS) {
    return { ok: false, why: `a curve needs 2 to ${String(MOST_POINTS)} points; ${EXAMPLE}` };
  }
  const points: CurvePoint[] = [];
  const tidied: string[] = [];
  for (const piece of pieces) {
    const [left, right, more] = piece.split(":");
    if (left === undefined || right === undefined || more !== undefined) {
      return { ok: false, why: `"${piece.slice(0, 20)}" is not a multiple, a colon and a time; ${EXAMPLE}` };
    }
    const multiple = parseQuantity(left, "count");
    if (!multiple.ok) return multiple;
    const time = parseQuantity(right, "time");
    if (!time.ok) return time;
    const last = points.at(-1);
    if (multiple.value < 1 || time.value <= 0) {
      return { ok: false, why: `multiples start at 1 and times above 0; ${EXAMPLE}` };
    }
    if (last !== undefined && (multiple.value <= last.multiple || time.value > last.time)) {
      return { ok: false, why: "along a curve the multiples rise and the times fall" };
    }
    points.push({ multiple: multiple.value, time: time.value });
    tidied.push(`${multiple.text}:${time.text}`);
  }
  return { ok: true, points, text: tidied.join("; ") };
}
