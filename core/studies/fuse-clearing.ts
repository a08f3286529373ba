/**
 * How long a fuse takes to clear a current: always a range. From the maker's curve where its points are stated, else
 * from the published limits of its class; nothing is extrapolated beyond either.
 */
import type { NetworkPart } from "../network/network.ts";
import { parseCurve } from "../parts/curve.ts";
import type { Ampere, Ratio, Second } from "../quantity/kinds.ts";
import { CURVE_SOURCE, CURVE_TOLERANCE, fuseTime, fuseTimeSource } from "../standards/fuse-times.ts";
import type { FuseClass } from "../standards/fuse-times.ts";
import type { Source } from "../standards/source.ts";

export interface CurvePoint {
  /** Of the rating. */
  readonly multiple: Ratio;
  readonly time: Second;
}

/** What decides how fast a device clears. `clearingDevice` reads one off a part; a study may make one up. */
export interface ClearingDevice {
  readonly rating: Ampere | undefined;
  readonly fuseClass: FuseClass | undefined;
  /** The maker's curve, multiples rising; empty where unstated. */
  readonly points: readonly CurvePoint[];
}

/** A device of which only its rating is known: a breaker without a trip curve, the fuse inside a battery pack. */
const silent = (rating: Ampere | undefined): ClearingDevice => ({ rating, fuseClass: undefined, points: [] });

/** A fuse, a breaker, or a battery pack for the fuse inside it. */
export function clearingDevice({ kind, values }: NetworkPart): ClearingDevice {
  if (kind.traits.battery === true) return silent(values.number("internalFuseRating"));
  const rating = values.number("rating");
  if (kind.traits.device !== "fuse") return silent(rating);
  const text = values.text("curvePoints");
  const curve = text === undefined ? undefined : parseCurve(text);
  return {
    rating,
    fuseClass: values.choice("curve") as FuseClass | undefined,
    points: curve?.ok === true ? curve.points : [],
  };
}

export interface ClearingTime {
  /** It does not clear sooner. Infinity: it carries this for ever. */
  readonly least: Second;
  /** It has cleared by then. Infinity: nothing says that it ever does. */
  readonly most: Second;
  readonly source: Source;
}

const RATED: Source = { text: "A device carries its rating for ever, by the meaning of the word", known: "calc" };

/**
 * Between which times a device has cleared a constant current. Up to its rating: never. On the maker's curve, points
 * joined by straight lines on logarithmic scales, between the times at 110 % and at 90 % of the current (the tolerance
 * of IEC 60269-1). Beyond the ends of the curve and without one: the limits of the class, held together with what the
 * nearest point says (time falls as the current rises).
 * @returns undefined where nothing is known: no rating, or neither a curve nor a class with published limits
 */
export function clearingTime(device: ClearingDevice, current: Ampere): ClearingTime | undefined {
  const { rating, fuseClass, points } = device;
  if (rating === undefined || rating <= 0) return undefined;
  const multiple = Math.abs(current) / rating;
  if (multiple <= 1) return { least: Infinity, most: Infinity, source: RATED };
  const byClass = fuseClass === undefined ? undefined : classTime(fuseClass, multiple);
  if (points.length === 0) return byClass;
  const least = onCurve(points, multiple * (1 + CURVE_TOLERANCE)).least;
  const most = onCurve(points, multiple * (1 - CURVE_TOLERANCE)).most;
  const beyond = least === 0 || most === Infinity;
  if (!beyond || byClass === undefined) return { least, most, source: CURVE_SOURCE };
  const held = { least: Math.max(least, byClass.least), most: Math.min(most, byClass.most) };
  // A curve that contradicts its class is the maker's word against a table's: the maker's holds.
  return held.least > held.most ? { least, most, source: CURVE_SOURCE } : { ...held, source: byClass.source };
}

function classTime(fuseClass: FuseClass, multiple: Ratio): ClearingTime | undefined {
  const time = fuseTime(fuseClass, multiple);
  if (time.least === 0 && time.most === Infinity) return undefined;
  return { ...time, source: fuseTimeSource(fuseClass) };
}

/** The time at a multiple; at or beyond an end, what that end says: not sooner than the first, not later than the last. */
function onCurve(points: readonly CurvePoint[], multiple: Ratio): { readonly least: Second; readonly most: Second } {
  const above = points.find((point) => point.multiple >= multiple);
  const below = points.findLast((point) => point.multiple <= multiple);
  if (above === undefined) return { least: 0, most: below?.time ?? Infinity };
  if (below === undefined) return { least: above.time, most: Infinity };
  if (above === below) return { least: above.time, most: above.time };
  const share = Math.log(multiple / below.multiple) / Math.log(above.multiple / below.multiple);
  const time = below.time * (above.time / below.time) ** share;
  return { least: time, most: time };
}

/** Below this time the arc makes up a good part of what the curve shows, and melting alone is not known (common practice, no source). */
const ARC_COUNTS: Second = 0.01;

export interface FuseEnergy {
  /** A2s that surely do not melt it; 0 where the curve does not say. */
  readonly least: number;
  /** A2s that it lets through at most; Infinity where nothing says that it clears. */
  readonly most: number;
  readonly source: Source;
}

/**
 * I2t of a device at a current, in A2s: `least` melts it at the earliest (pre-arcing), `most` is what it lets through
 * until it has cleared, the arc included (operating time = pre-arcing time + arcing time, IEC 60269). Below 10 ms the
 * arc takes a share that no curve of clearing times tells, so that `least` is then 0. Constant current: a fuse that
 * limits the peak lets less through.
 */
export function preArcingI2t(device: ClearingDevice, current: Ampere): FuseEnergy | undefined {
  const time = clearingTime(device, current);
  if (time === undefined) return undefined;
  const square = current ** 2;
  return {
    least: time.least < ARC_COUNTS ? 0 : square * time.least,
    most: square * time.most,
    source: time.source,
  };
}
