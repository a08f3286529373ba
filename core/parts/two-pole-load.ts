/** What lamp, buzzer, load, heater and pump share: a resistance from voltage and power between + and -. */
import type { Ampere, Volt, Watt } from "../quantity/kinds.ts";
import type { Limit, SupplyPair, TerminalSpec, Values } from "./define.ts";
import type { Resistance } from "./element.ts";
import { resistance } from "./make-element.ts";
import { choice, needsPolarity, quantity, voltageMax } from "./parameter.ts";
import { terminal } from "./plain-face.ts";

/** What a load is taken to be where nobody stated it: for solving only. */
export interface Assumed {
  readonly voltage: Volt;
  readonly power: Watt;
}

/** An assumed power may be wrong by this factor either way: figures that depend on it are a range. */
const ASSUMED_SPREAD = 4;

export const loadTerminals: readonly TerminalSpec[] = [
  terminal("+", "tab", true, "Plus"),
  terminal("-", "tab", true, "Minus"),
];

/** Resistance "load" of `voltage`^2 / `power`, or `voltage` / `current`; a range where power is assumed. */
export function loadElement(values: Values, assumed: Assumed): Resistance {
  const volts = values.number("voltage") ?? assumed.voltage;
  const current: Ampere | undefined = values.number("current");
  const power = values.number("power") ?? (current === undefined ? undefined : volts * current);
  const whole = values.number("voltage") !== undefined && power !== undefined && power > 0;
  const ohms = (volts * volts) / (power !== undefined && power > 0 ? power : assumed.power);
  return resistance("load", "+", "-", "load", ohms, whole ? undefined : [ohms / ASSUMED_SPREAD, ohms * ASSUMED_SPREAD]);
}

export function loadPairs(values: Values): readonly SupplyPair[] {
  const needsPolarity = values.choice("needsPolarity");
  const pair = { plus: "+", minus: "-", polarised: needsPolarity === "yes", direction: "input", main: false } as const;
  return [needsPolarity === undefined ? { ...pair, undecided: "needsPolarity" } : pair];
}

export const loadLimits = (values: Values): readonly Limit[] => [
  { parameter: "voltageMax", kind: "voltage-across", a: "+", b: "-", value: values.number("voltageMax") },
];

export const loadVoltage = quantity("voltage", {
  title: "Voltage",
  explanation: "The voltage at which it draws its power.",
  where: "Rating plate or base of the part.",
  least: 0.1,
});

export const loadPower = quantity("power", {
  title: "Power",
  explanation: "What it draws at its voltage.",
  where: "Rating plate or base of the part; or volts times measured amperes.",
  least: 0,
});

export const loadCurrent = quantity("current", {
  title: "Current",
  explanation: "What it draws at its voltage, where the plate gives amperes instead of watts.",
  where: "Rating plate, or measure it.",
  least: 0,
});

export const assumedNote = (assumed: Assumed): string =>
  `Where voltage or power is unstated it is taken as ${String(assumed.power)} W at ${String(assumed.voltage)} V when solving, from a quarter to four times of it (common practice, no source).`;

/** What a load and a pump are asked: braking or steering may depend on either. */
export const consumerParameters = {
  voltage: loadVoltage,
  voltageMax,
  power: loadPower,
  current: loadCurrent,
  needsPolarity,
  purpose: choice(["brake-assist", "steering-assist", "other"], {
    title: "Purpose",
    explanation: "Whether braking or steering depends on it: then it must not go off with the drive.",
    where: "What you use it for.",
  }),
};
