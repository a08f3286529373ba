/**
 * Insulation as a resistance to chassis: what a sound part leaks when nobody measured it, so that a floating pack sits
 * where its leaks put it, as on the vehicle.
 */
import type { Ohm } from "../quantity/kinds.ts";
import type { ParameterSpec } from "./define.ts";
import { CHASSIS, type Resistance } from "./element.ts";
import { resistance } from "./make-element.ts";
import { quantity } from "./parameter.ts";

/** Each galvanic side of a source, converter, charger, controller, motor or heater (common practice, no source). */
const SIDE_LEAK: Ohm = 10e6;
/** A whole string of wet lead-acid blocks with its damp tops (common practice, no source). */
const WET_STRING_LEAK: Ohm = 1e6;
/** A metal case on its rubber feet, and everything else that is not listed (common practice, no source). */
export const SLIGHT_LEAK: Ohm = 10e9;

export const isolation: ParameterSpec = quantity("resistance", {
  title: "Isolation",
  explanation: "Resistance from the part's live terminals to the vehicle's metal; a low one puts the pack on the body.",
  where: "Measured with an insulation tester on the part alone; the data sheet names the least when new.",
  least: 0,
});

const leak = (name: string, at: string, ohms: Ohm): Resistance => resistance(name, at, CHASSIS, "leak", ohms);

/**
 * Leaks of one galvanic side, elements "leak-<side>-plus" and "leak-<side>-minus". A stated isolation lies wholly at
 * minus: the two-reading method then gives just that figure, the safer of the possible ones. Unstated: two equal
 * halves, each of twice the value, so that a floating pack sits symmetrically.
 */
export function sideLeaks(side: string, plus: string, minus: string, stated?: Ohm): readonly Resistance[] {
  if (stated !== undefined) return [leak(`leak-${side}-minus`, minus, Math.max(stated, 1e-3))];
  return [leak(`leak-${side}-plus`, plus, 2 * SIDE_LEAK), leak(`leak-${side}-minus`, minus, 2 * SIDE_LEAK)];
}

/** Leaks of a wet lead-acid block: the network shares the string's figure over its blocks. */
export function wetLeaks(): readonly Resistance[] {
  return ["+", "-"].map((pole) => ({
    ...leak(pole === "+" ? "leak-pack-plus" : "leak-pack-minus", pole, 2 * WET_STRING_LEAK),
    shared: "wet-lead-string" as const,
  }));
}

/** Leak of a winding or anything else with one side only. */
export const windingLeak = (name: string, at: string, stated?: Ohm): Resistance =>
  leak(name, at, stated === undefined ? SIDE_LEAK : Math.max(stated, 1e-3));

/** An unbonded metal case hangs on next to nothing. */
export const caseLeak = (): Resistance => leak("leak-case", "case", SLIGHT_LEAK);
