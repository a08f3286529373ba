/** Logic inputs and outputs of controllers and control units: when a pin counts as fed, and what it draws. */
import type { Ohm, Volt } from "../quantity/kinds.ts";
import { TWELVE_VOLT_RANGE } from "../standards/coils.ts";
import type { Contact, CurrentPort, Resistance } from "./element.ts";
import { resistance } from "./make-element.ts";
import type { Values } from "./define.ts";

/**
 * A logic pin counts as fed above this. IEC 61131-2 lets a 24 V direct-current input read "off" up to 5 V (from
 * memory); inputs for 12 V and more share it here.
 */
export const FED_ABOVE: Volt = 5;

/** Least voltage on which electronics for 12 V work. */
export const LOGIC_LEAST: Volt = TWELVE_VOLT_RANGE[0];

/** Input of unstated current (common practice, no source). */
const INPUT_RESISTANCE: Ohm = 100e3;

/** Logic of unstated current draws this much (common practice, no source). */
const ASSUMED_LOGIC_CURRENT = 0.05;

/** A transistor that is fully on (common practice, no source). */
export const DRIVER_ON: Ohm = 0.05;

export const isFed = (volts: Volt): boolean => volts > FED_ABOVE;

/** An input pin with its pull-down to the reference; `inputCurrent` at `nominal` volts where it is stated. */
export function inputPin(pin: string, reference: string, values: Values, nominal: Volt = 12): Resistance {
  const current = values.number("inputCurrent");
  const ohms = current !== undefined && current > 0 ? nominal / current : INPUT_RESISTANCE;
  return resistance(`input-${pin}`, pin, reference, "sense", ohms);
}

/** Electronics on their supply: their current as soon as there are a few volts, little below. */
export function logicSupply(plus: string, minus: string, current: number | undefined): CurrentPort {
  const drawn = current !== undefined && current > 0 ? current : ASSUMED_LOGIC_CURRENT;
  return {
    type: "current-port",
    name: "logic-supply",
    a: plus,
    b: minus,
    role: "load",
    current: drawn,
    resistance: FED_ABOVE / drawn,
  };
}

/** An output transistor from `a` to `b`. */
export const driver = (name: string, a: string, b: string, closed: boolean, ohms: Ohm = DRIVER_ON): Contact => ({
  type: "contact",
  name,
  a,
  b,
  role: "driver",
  closed,
  movedBy: "logic",
  resistance: ohms,
});
