/** Where a throttle's signal counts as broken. */
import type { Ampere, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

/** A voltage signal outside this band is a fault. */
export const SIGNAL_BAND: readonly [Volt, Volt] = [0.4, 4.6];
export const SIGNAL_BAND_SOURCE: Source = {
  text: "Published manual of a vehicle controller: throttle within 0.4 to 4.6 V",
  known: "seen",
};

export function signalFault(volts: Volt): boolean {
  return volts < SIGNAL_BAND[0] || volts > SIGNAL_BAND[1];
}

/** A Hall throttle above this is a fault. */
export const HALL_FAULT: Volt = 4;
export const HALL_SOURCE: Source = {
  text: "Published manual of a small controller: above 4.0 V is a fault",
  known: "seen",
};

/** A two-wire throttle whose loop current falls below this has a broken wire. */
export const LOOP_CURRENT_LEAST: Ampere = 1e-4;
export const LOOP_SOURCE: Source = {
  text: "Published manual of a series-motor controller: below 0.1 mA is a fault",
  known: "seen",
};
