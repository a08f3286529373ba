/** Charging a controller's capacitors through a resistor before the main contactor closes. */
import type { Ampere, Farad, Joule, Ohm, Ratio, Second, Volt, Watt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

/** The bus should stand at this share of the pack when the main contactor closes. */
export const PRECHARGE_TARGET: Ratio = 0.95;
export const PRECHARGE_TARGET_SOURCE: Source = {
  text: "Published reference designs of pre-charge circuits: 95 %",
  known: "seen",
};
/** Least share in competition rules. */
export const PRECHARGE_LEAST: Ratio = 0.9;
export const PRECHARGE_LEAST_SOURCE: Source = { text: "Student racing rules: at least 90 %", known: "memory" };

/** Energy of capacitors closed onto without pre-charge: above the first DANGER, above the second WARNING. */
export const INRUSH_ENERGY: readonly [danger: Joule, warning: Joule] = [5, 0.5];
export const INRUSH_SOURCE: Source = { text: "Common practice, no source", known: "none" };

/** Part of the pack that may stand across a contact that closes without a resistor. */
export const CLOSING_SHARE: Ratio = 0.1;

/** R C, time to a share, largest resistor, current and power of the first moment. */
export const PRECHARGE_SOURCE: Source = {
  text: "Published calculators of pre-charge circuits: V (1 - exp(-t/RC))",
  known: "seen",
};
export const PRECHARGE_ENERGY_SOURCE: Source = {
  text: "Published reference design of a pre-charge circuit: C V2/2, whatever the resistor",
  known: "seen",
};

/** Below the threshold after three time constants something is wrong: resistor open, capacitor shorted, load on. */
export const PRECHARGE_TIMEOUT_TAUS = 3;
export const PRECHARGE_TIMEOUT_SOURCE: Source = {
  text: "Published page on the curve of pre-charge: a fault after about three time constants",
  known: "seen",
};

export function timeConstant(resistance: Ohm, capacitance: Farad): Second {
  return resistance * capacitance;
}

/** Time to a share q of the pack: -R C ln(1 - q). */
export function prechargeTime(resistance: Ohm, capacitance: Farad, share: Ratio): Second {
  return -resistance * capacitance * Math.log(1 - share);
}

/** Largest resistor that reaches a share in a time: t/(-ln(1 - q) C). */
export function largestPrechargeResistor(capacitance: Farad, share: Ratio, time: Second): Ohm {
  return time / (-Math.log(1 - share) * capacitance);
}

export function inrushCurrent(volts: Volt, resistance: Ohm): Ampere {
  return volts / resistance;
}

export function inrushPower(volts: Volt, resistance: Ohm): Watt {
  return volts ** 2 / resistance;
}

/** Energy that the resistor turns into heat at each full charge, whatever its value: C V2/2. */
export function capacitorEnergy(capacitance: Farad, volts: Volt): Joule {
  return 0.5 * capacitance * volts ** 2;
}

/** Where the bus ends while a load draws a constant current through the resistor. */
export function settledVoltage(volts: Volt, resistance: Ohm, load: Ampere): Volt {
  return volts - load * resistance;
}
