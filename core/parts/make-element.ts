/** Short ways to write the elements that nearly every kind is made of. */
import type { Ohm } from "../quantity/kinds.ts";
import type { Contact, Diode, Resistance, Role } from "./element.ts";

/** A joint, or a tie inside a part: 50 uohm (common practice, no source: one bolted or crimped joint). */
export const TIE: Ohm = 50e-6;

/** Contact of a control device: 10 mohm (common practice, no source; new signal contacts are sold with up to 100 mohm). */
export const SIGNAL_CONTACT: Ohm = 10e-3;

/** Contact of a power switch: 0.3 mohm, as for a contactor (common practice, no source). */
export const POWER_CONTACT: Ohm = 0.3e-3;

/** Forward drop of a silicon junction: 0.7 V (common practice, no source). */
export const JUNCTION_DROP = 0.7;

/** No sensor's resistance is taken below this: an ideal zero would be a short that no wire has. */
export const LEAST_RESISTANCE: Ohm = 1e-3;

/** Metal inside a part between two of its terminals. */
export const tie = (name: string, a: string, b: string, joins = false): Resistance => ({
  type: "resistance",
  name,
  a,
  b,
  role: "conductor",
  resistance: TIE,
  ...(joins ? { joins } : {}),
});

export const resistance = (
  name: string,
  a: string,
  b: string,
  role: Role,
  ohms: Ohm,
  range?: readonly [Ohm, Ohm],
): Resistance => ({ type: "resistance", name, a, b, role, resistance: ohms, ...(range ? { range } : {}) });

export const contact = (
  name: string,
  a: string,
  b: string,
  closed: boolean,
  movedBy: Contact["movedBy"],
  ohms: Ohm = SIGNAL_CONTACT,
): Contact => ({ type: "contact", name, a, b, role: "contact", closed, resistance: ohms, movedBy });

/** Silicon diode, anode first. */
export const diode = (name: string, anode: string, cathode: string, drop = JUNCTION_DROP): Diode => ({
  type: "diode",
  name,
  a: anode,
  b: cathode,
  role: "diode",
  drop,
  resistance: 1e-3,
});
