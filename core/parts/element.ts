/**
 * Circuit elements: what a part is, electrically, in one operating condition. Every element has two ends and
 * a monotone current-voltage curve, so that the whole network stays a symmetric matrix of positive
 * conductances (see core/circuit). Ends are terminal ids of the part, inner nodes (names that begin with ":"),
 * or CHASSIS.
 */
import type { Ampere, Farad, Henry, Ohm, Ratio, Volt, Watt } from "../quantity/kinds.ts";

export const CHASSIS = "#chassis";

/**
 * What an element is to a check. Checks classify paths by role, never by a part's name.
 *  conductor   metal: ties inside a part, busbars, splices, plugged connectors, bonds
 *  contact     anything that opens and closes: contactor, relay, switch, disconnect, plug
 *  protection  fuse or breaker       shunt   measuring resistor in a main path
 *  source      EMF                   load    consumes: motor, lamp, converter input, logic supply, heater
 *  coil        relay or contactor coil       resistor   a resistor part
 *  diode       diode or body diode           capacitor  input bank or capacitor
 *  leak        insulation resistance         sense      meter, monitor, input pin, divider, throttle
 *  driver      an output transistor of a controller or control unit
 */
export type Role =
  | "conductor"
  | "contact"
  | "protection"
  | "shunt"
  | "source"
  | "load"
  | "coil"
  | "resistor"
  | "diode"
  | "capacitor"
  | "leak"
  | "sense"
  | "driver";

interface Common {
  /** Unique within the part, e.g. "contact", "coil", "leak-in". */
  readonly name: string;
  readonly a: string;
  readonly b: string;
  readonly role: Role;
}

/** Ohmic resistance. */
export interface Resistance extends Common {
  readonly type: "resistance";
  readonly resistance: Ohm;
  /** Where only a range is known (from memory): both ends of it. */
  readonly range?: readonly [Ohm, Ohm];
  /** True for busbars, splices, terminal strips, mated connectors: both ends are one net (contacts never are). */
  readonly joins?: boolean;
  /** A wet lead-acid string shares 1 Mohm over its blocks: the network rescales this leak. */
  readonly shared?: "wet-lead-string";
}

/** EMF from b (minus) to a (plus) behind a resistance. */
export interface Source extends Common {
  readonly type: "source";
  readonly emf: Volt;
  readonly resistance: Ohm;
  readonly range?: readonly [Ohm, Ohm];
  /** Battery or pack, or a converter/charger output. */
  readonly storage: boolean;
}

/**
 * A contact: open elements stay in the list so that the topology, and with it the ordering, is the same in every state.
 * With role "conductor" it is a connector's pin: while it is closed both ends are one net.
 */
export interface Contact extends Common {
  readonly type: "contact";
  readonly closed: boolean;
  readonly resistance: Ohm;
  /** What moves it: its own coil/logic, a hand or machine part, or nothing (a fuse that may blow). */
  readonly movedBy: "coil" | "control" | "logic" | "none";
}

export interface Capacitor extends Common {
  readonly type: "capacitor";
  readonly capacitance: Farad | undefined;
}

/** A coil: resistance in steady state, inductance in transitions. */
export interface Coil extends Common {
  readonly type: "coil";
  readonly resistance: Ohm;
  readonly inductance: Henry | undefined;
}

/** Conducts from a (anode) to b (cathode) above `drop`, through `resistance`. */
export interface Diode extends Common {
  readonly type: "diode";
  readonly drop: Volt;
  readonly resistance: Ohm;
}

/**
 * A source that limits its current: EMF `emf` from b to a behind `resistance`, at most `limit` out of a;
 * takes no current back when `oneWay`. Converters, chargers, 5 V supplies, driver outputs.
 */
export interface LimitedSource extends Common {
  readonly type: "limited-source";
  readonly emf: Volt;
  readonly resistance: Ohm;
  readonly limit: Ampere;
  readonly oneWay: boolean;
}

/** Draws `current` from a to b as soon as the voltage allows it, else behaves as `resistance` (a transistor fully on). Negative current = regeneration: pushes from b to a until the voltage a-b reaches `ceiling`. */
export interface CurrentPort extends Common {
  readonly type: "current-port";
  readonly current: Ampere;
  readonly resistance: Ohm;
  readonly ceiling?: Volt;
}

/** Constant power drawn from a to b: `power`, or what element `follows` of the same part delivers divided by `efficiency`. */
export interface PowerPort extends Common {
  readonly type: "power-port";
  readonly power: Watt | undefined;
  readonly follows?: string;
  readonly efficiency: Ratio;
  /** Below this voltage it draws nothing. */
  readonly minimum: Volt;
}

/** Blocks either way up to `clamp`, then conducts through `resistance`; `oneWay`: a zener, which conducts forward (b to a) like a diode. */
export interface Clamp extends Common {
  readonly type: "clamp";
  readonly clamp: Volt;
  readonly resistance: Ohm;
  readonly oneWay: boolean;
}

export type Element =
  | Resistance
  | Source
  | Contact
  | Capacitor
  | Coil
  | Diode
  | LimitedSource
  | CurrentPort
  | PowerPort
  | Clamp;
