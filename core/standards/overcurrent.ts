/** Where a protective device stands and how large it may be: 33 CFR 183.455 and 183.460. */
import type { Ampere, Metre, Ratio, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const POSITION_SOURCE: Source = { text: "33 CFR 183.455(b)", known: "seen" };
/** 7 in from the source, measured along the conductor. */
export const POSITION_LIMIT: Metre = 0.178;
/** 40 in where the conductor is in a sheath or enclosure for the whole distance. */
export const POSITION_LIMIT_IN_SHEATH: Metre = 1.016;
/** 72 in straight from a battery terminal, in a sheath. */
export const POSITION_LIMIT_FROM_BATTERY: Metre = 1.829;
export const BATTERY_POSITION_SOURCE: Source = { text: "33 CFR 183.460", known: "memory" };

/** How far from its source the first device may be. `battery`: the conductor leads straight from a battery's stud. */
export function positionLimit(
  sheathed: boolean,
  battery: boolean,
): { readonly length: Metre; readonly source: Source } {
  if (sheathed && battery) return { length: POSITION_LIMIT_FROM_BATTERY, source: BATTERY_POSITION_SOURCE };
  return { length: sheathed ? POSITION_LIMIT_IN_SHEATH : POSITION_LIMIT, source: POSITION_SOURCE };
}

export const RATING_SOURCE: Source = { text: "33 CFR 183.455(c)", known: "seen" };
/** From this nominal voltage on, a device may not exceed the conductor's ampacity but for the next standard size. */
export const RATING_STEP: Volt = 50;
export const LARGEST_RATING: Ratio = 1.5;

/** Ratings that are sold, amperes. Common practice of the trade, no source. */
export const STANDARD_RATINGS: readonly Ampere[] = [
  1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40, 50, 60, 70, 80, 90, 100, 125, 150, 175, 200, 225, 250, 300, 350, 400,
  450, 500, 600, 700, 800,
];
export const STANDARD_RATINGS_SOURCE: Source = { text: "Common practice, no source", known: "none" };

/**
 * The largest device that may protect a conductor. Below 50 V: 150 % of its ampacity. From 50 V on: its ampacity;
 * where that is not a standard rating, the next one up, as long as that is not above 150 %.
 */
export function largestRating(ampacity: Ampere, volts: Volt, standard: readonly Ampere[] = STANDARD_RATINGS): Ampere {
  const most = LARGEST_RATING * ampacity;
  if (volts < RATING_STEP) return most;
  const next = standard.find((rating) => rating >= ampacity - 1e-9);
  return next !== undefined && next <= most ? Math.max(next, ampacity) : ampacity;
}

/** The smallest standard rating that a continuous load may use: the load is at most 80 % of the rating. */
export function ratingForLoad(load: Ampere): Ampere | undefined {
  return STANDARD_RATINGS.find((rating) => rating * CONTINUOUS_SHARE >= load - 1e-9);
}

/** A load of three hours and more may use this share of a device's rating. */
export const CONTINUOUS_SHARE: Ratio = 0.8;
export const CONTINUOUS_SOURCE: Source = {
  text: "NEC 210.20: continuous load at most 80 % of the device",
  known: "seen",
};

/** A device's voltage rating is not below the circuit's. */
export const VOLTAGE_RATING_SOURCE: Source = { text: "33 CFR 183.455(d)", known: "seen" };

/** A device can break what its source drives into a short circuit. */
export const INTERRUPTING_SOURCE: Source = {
  text: "33 CFR 183.455(e): interrupting rating not below the source's short-circuit current",
  known: "memory",
};
