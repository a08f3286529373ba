/** How much voltage may be lost on the way, out and back. */
import type { Ampere, Ratio, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const VOLTAGE_DROP_SOURCE: Source = {
  text: "Boat council recommendation E-11: 3 % for critical circuits, 10 % for others",
  known: "seen",
};
/** Control, critical circuits, traction at continuous current. */
export const CRITICAL_DROP: Ratio = 0.03;
export const OTHER_DROP: Ratio = 0.1;

/** Ohm circular mils per foot of copper in the formula of small craft. */
export const CIRCULAR_MIL_CONSTANT = 10.75;
export const CIRCULAR_MIL_SOURCE: Source = {
  text: "Circular-mil form of ABYC E-11 and ISO 10133, K = 10.75",
  known: "memory",
};

/**
 * Least conductor in circular mils: CM = K x I x L / E.
 * @param feet length out and back
 * @param drop volts that may be lost
 */
export function leastCircularMils(current: Ampere, feet: number, drop: Volt): number {
  return (CIRCULAR_MIL_CONSTANT * current * feet) / drop;
}
