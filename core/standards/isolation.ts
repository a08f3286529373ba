/** Isolation of the traction circuit from the chassis: limits in ohm per volt and the two-reading method. */
import type { Ohm, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

/** Ohm per volt of working voltage: DC circuits alone, and circuits that are joined to an AC drive. */
export const ISOLATION_DC = 100;
export const ISOLATION_AC = 500;
export const ISOLATION_SOURCE: Source = { text: "UN R100, 5.1.3; ISO 6469-4:2015, 5.2.3", known: "seen" };

export const METHOD_SOURCE: Source = { text: "UN R100, annex 4 (isolation by two voltage readings)", known: "seen" };

/** The method asks for a voltmeter of at least this resistance. */
export const METER_RESISTANCE: Ohm = 10e6;

export interface IsolationReadings {
  /** Between the poles. */
  readonly pack: Volt;
  /** Negative pole to chassis, positive pole to chassis: sizes. */
  readonly negative: Volt;
  readonly positive: Volt;
  /** The larger of the two again, with the known resistor between that pole and chassis. */
  readonly loaded: Volt;
  readonly resistor: Ohm;
}

/**
 * Isolation resistance from readings: Ri = Ro Vb (1/V' - 1/V), V being the larger of the two pole-to-chassis
 * voltages. It is the smaller of the two leaks, and stays exact with a real voltmeter.
 */
export function isolationFromReadings(readings: IsolationReadings): Ohm {
  const unloaded = Math.max(readings.negative, readings.positive);
  return readings.resistor * readings.pack * (1 / readings.loaded - 1 / unloaded);
}

/** Resistor to use for the reading: the limit in ohm per volt times the nominal voltage. */
export function readingResistor(ohmPerVolt: number, nominal: Volt): Ohm {
  return ohmPerVolt * nominal;
}
