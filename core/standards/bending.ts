/** How sharply a flexible cable may be bent. */
import type { Metre, SquareMetre } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const BENDING_SOURCE: Source = {
  text: "HD 516 (guide to the use of flexible cables): inner radius of a bend at least four times the diameter above 12 mm",
  known: "memory",
};

/** Inner radius over diameter. Thinner cables may be bent a little more sharply: three times; four is the safer figure. */
const RADIUS_OVER_DIAMETER = 4;

/**
 * Radius of the sharpest bend, by the copper alone: insulation only makes it wider, and no drawing states its thickness.
 * @param area of the conductor
 */
export function leastBendRadius(area: SquareMetre): Metre {
  return RADIUS_OVER_DIAMETER * Math.sqrt((4 * area) / Math.PI);
}

/** What a quarter bend at each of its two ends takes beyond the straight distance: 2 (pi/2 - 1) r. */
export function bendAllowance(area: SquareMetre): Metre {
  return (Math.PI - 2) * leastBendRadius(area);
}
