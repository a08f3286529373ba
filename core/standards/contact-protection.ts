/** Guarding people from live parts: probes, bonding, marking, discharge. UN R100 unless said otherwise. */
import type { Farad, Joule, Ohm, Second, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";
import { CLASS_B_DC } from "./voltage-class.ts";

/** IPXXD: a wire 1 mm thick and 100 mm long must not reach live parts; IPXXB: a jointed finger 12 mm thick and 80 mm long. */
export type Probe = "IPXXD" | "IPXXB";
export const PROBE_SOURCE: Source = { text: "UN R100, 5.1.1", known: "seen" };

/** The probe that has to be kept out: the wire in passenger and luggage spaces, the finger elsewhere. */
export function probeFor(zoneKind: string): Probe {
  return zoneKind === "passenger" || zoneKind === "luggage" ? "IPXXD" : "IPXXB";
}

/** Exposed metal is bonded to the chassis below this, measured with at least 0.2 A. */
export const BOND_LIMIT: Ohm = 0.1;
export const BOND_SOURCE: Source = { text: "UN R100, 5.1.2.2: below 0.1 ohm with at least 0.2 A", known: "seen" };

export function isBonded(resistance: Ohm): boolean {
  return resistance < BOND_LIMIT;
}

export const ORANGE_SOURCE: Source = {
  text: "UN R100, 5.1.1.5.3: cables outside enclosures have an orange cover",
  known: "seen",
};
export const MARK_SOURCE: Source = {
  text: "UN R100, 5.1.1.5: yellow triangle with black flash on enclosures",
  known: "memory",
};

/** Energy that a person may meet: 0.2 J (ISO 6469-4:2015, 5.2.2). */
export const ENERGY_LIMIT: Joule = 0.2;
export const ENERGY_SOURCE: Source = { text: "ISO 6469-4:2015, 5.2.2: less than 0.2 J", known: "seen" };

/** Energy that a capacitor holds above 60 V: C (V2 - 60 V2)/2 (UN R94 annex 11, formula from memory); 0 up to 60 V. */
export function energyAboveTouchLimit(capacitance: Farad, volts: Volt): Joule {
  return Math.max(0, 0.5 * capacitance * (volts ** 2 - CLASS_B_DC ** 2));
}

/** Voltages have to be down to 60 V this long after a crash at the latest; taken for switching off as well. */
export const DISCHARGED_WITHIN: Second = 60;
export const DISCHARGED_SOURCE: Source = {
  text: "UN R94, annex 11: at most 60 V DC within 60 s of the impact, taken for switching off as well",
  known: "memory",
};
/** What circuits made for it reach. */
export const DISCHARGE_AIM: Second = 5;
export const DISCHARGE_AIM_SOURCE: Source = { text: "Student racing rules: at most 60 V within 5 s", known: "memory" };

/** Time in which a resistor takes a capacitor from one voltage down to another: R C ln(V/U). */
export function dischargeTime(resistance: Ohm, capacitance: Farad, from: Volt, to: Volt): Second {
  return from <= to ? 0 : resistance * capacitance * Math.log(from / to);
}

/** Largest bleeder that takes a capacitor down in a time: t/(C ln(V/U)). */
export function bleederFor(capacitance: Farad, from: Volt, to: Volt, time: Second): Ohm {
  return time / (capacitance * Math.log(from / to));
}
