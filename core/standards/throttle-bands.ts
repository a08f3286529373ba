/** Where a throttle's signal counts as broken. */
import type { Ampere, Ratio, Volt } from "../quantity/kinds.ts";
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

/** The first tenth of the travel does nothing: up to there a reading still counts as idle. */
export const IDLE_MOST: Ratio = 0.1;
/** A 0-5 kohm pedal reaches 4.4 kohm at least with the pedal to the floor. */
export const FULL_LEAST: Ratio = 0.88;
/** A throttle's resistance may be this much above the one that its input asks for: 5 kohm +/-10 %. */
export const RESISTANCE_MOST: Ratio = 1.1;
export const SPAN_SOURCE: Source = {
  text: "Published manual of a cart controller: 5 kohm within 10 %; a home-built controller's record: the first tenth is idle, full at 4.4 kohm of 5 kohm",
  known: "seen",
};
