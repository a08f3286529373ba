/**
 * How long a fuse may and must carry a multiple of its rating, by the published limits of its class. Where limits
 * differ by rating, the row holds all of them: the shortest least time and the longest greatest time.
 */
import type { Ratio, Second } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

/** Choices of the parameter `curve` of a fuse. */
export type FuseClass = "blade" | "bolted-strip" | "traction-gR" | "semiconductor-aR" | "glass";

interface Row {
  readonly multiple: number;
  /** It must not open sooner than this. Absent: no limit is published. */
  readonly least?: Second;
  /** It must have opened by then. Absent: no limit is published. */
  readonly most?: Second;
}

const HOUR = 3600;
const MINUTE = 60;

const LIMITS: Readonly<Record<FuseClass, { readonly rows: readonly Row[]; readonly source: Source }>> = {
  glass: {
    rows: [
      { multiple: 1.1, least: 4 * HOUR },
      { multiple: 1.35, most: 60 * MINUTE },
      { multiple: 2, most: 2 * MINUTE },
    ],
    source: { text: "UL 248-14 and CSA 248-14, fast fuses", known: "seen" },
  },
  blade: {
    rows: [
      { multiple: 1.1, least: 100 * HOUR },
      { multiple: 1.35, least: 0.75, most: 1800 },
      { multiple: 1.6, least: 0.25, most: 50 },
      { multiple: 2, least: 0.15, most: 5 },
      { multiple: 3.5, least: 0.04, most: 0.5 },
      { multiple: 6, least: 0.02, most: 0.1 },
    ],
    source: { text: "ISO 8820-3, types C and F", known: "memory" },
  },
  "bolted-strip": {
    rows: [
      { multiple: 1.1, least: 4 * HOUR },
      { multiple: 1.35, least: 120, most: 1800 },
      { multiple: 2, least: 1, most: 15 },
      { multiple: 3.5, least: 0.3, most: 5 },
      { multiple: 6, least: 0.1, most: 1 },
    ],
    source: { text: "ISO 8820-5, bolt-in strip fuses", known: "memory" },
  },
  // No limits common to these classes are published: the maker's curve is needed.
  "traction-gR": { rows: [], source: { text: "IEC 60269-4, utilisation class gR (full range)", known: "seen" } },
  "semiconductor-aR": {
    rows: [],
    source: { text: "IEC 60269-4, utilisation class aR (partial range: short circuits only)", known: "seen" },
  },
};

export function fuseTimeSource(fuse: FuseClass): Source {
  return LIMITS[fuse].source;
}

/**
 * Between which times a fuse opens at a multiple of its rating. Time falls as the current rises, so the last row
 * not above bounds it from above and the first row not below bounds it from below: nothing is interpolated.
 * Infinity: it may carry this for ever; 0: no least time is published.
 */
export function fuseTime(fuse: FuseClass, multiple: number): { readonly least: Second; readonly most: Second } {
  const { rows } = LIMITS[fuse];
  const above = rows.findLast((row) => row.multiple <= multiple && row.most !== undefined);
  const below = rows.find((row) => row.multiple >= multiple && row.least !== undefined);
  return { least: below?.least ?? 0, most: above?.most ?? Number.POSITIVE_INFINITY };
}

/** A partial-range fuse clears short circuits only and must not be relied on to end an overload. */
export function endsOverloads(fuse: FuseClass): boolean {
  return fuse !== "semiconductor-aR";
}

/** A single fuse may differ from its maker's curve by this part of the current. */
export const CURVE_TOLERANCE: Ratio = 0.1;
export const CURVE_SOURCE: Source = {
  text: "The maker's time-current curve, within the 10 % in current of IEC 60269-1",
  known: "memory",
};
