/** Resistances that are sold. */
import type { Ohm } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

/** E12: twelve values a decade. */
const E12: readonly number[] = [10, 12, 15, 18, 22, 27, 33, 39, 47, 56, 68, 82];
export const E12_SOURCE: Source = { text: "IEC 60063, series E12", known: "memory" };

/** The largest value of the series that is not above this one. */
export function standardResistorBelow(resistance: Ohm): Ohm {
  const decade = 10 ** (Math.floor(Math.log10(resistance) + 1e-9) - 1);
  const step = E12.findLast((each) => each * decade <= resistance * (1 + 1e-9)) ?? 10;
  return Number((step * decade).toPrecision(3));
}
