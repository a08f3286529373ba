/** Coils of contactors and relays, and what is put across them. */
import type { Ampere, Henry, Ohm, Ratio, Second, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

/** Supply of a nominal 12 V vehicle circuit in use. */
export const TWELVE_VOLT_RANGE: readonly [Volt, Volt] = [9, 16];
export const TWELVE_VOLT_SOURCE: Source = { text: "ISO 16750-2, supply voltage of 12 V systems", known: "memory" };

/** Most that a coil of another nominal voltage may see for long, as a part of nominal: the 16 V of a 12 V coil. */
export const COIL_MOST: Ratio = 1.33;

/** The voltages at which a coil may be held when its maker states none: 9-16 V for 12 V, else pick-up to 133 %. */
export function coilRange(nominal: Volt, pickUp: Ratio): readonly [Volt, Volt] {
  return nominal === 12 ? TWELVE_VOLT_RANGE : [pickUp * nominal, COIL_MOST * nominal];
}

/** Lowest voltage of a 12 V battery that still has to close a contactor: an empty block. */
export const LOWEST_AUXILIARY: Volt = 10.5;
export const LOWEST_AUXILIARY_SOURCE: Source = { text: "Lead-acid end of discharge, 1.75 V a cell", known: "seen" };

/** Something has to take up a coil's current when its switch opens. */
export const SUPPRESSION_SOURCE: Source = {
  text: "Published note on contact protection: coils need a diode, zener, varistor or resistor across them",
  known: "seen",
};

/** A plain diode across a main contactor's coil. */
export const SLOW_RELEASE_SOURCE: Source = {
  text: "Published application note on coil suppression and relay life: slow opening under load erodes and welds contacts",
  known: "seen",
};

/** A plain diode makes release five to ten times slower. */
export const DIODE_RELEASE_SOURCE: Source = {
  text: "Published comparison of coil suppression on 125 V DC relays",
  known: "seen",
};

/** Time in which a coil's current falls to its drop-out value through a plain diode: L/R ln(I0/I) (diode drop neglected). */
export function diodeReleaseTime(inductance: Henry, resistance: Ohm, dropOut: Ratio): Second {
  return (inductance / resistance) * Math.log(1 / dropOut);
}

/** Peak across a coil with a resistor in parallel when its switch opens: coil current times that resistor. */
export function resistorPeak(coilCurrent: Ampere, resistor: Ohm): Volt {
  return coilCurrent * resistor;
}
