/** What the motors share: ratings, windings as resistances, their leaks, and the circle of a machine. */
import type { DisplayList } from "../geometry/display.ts";
import type { Ampere, Ohm } from "../quantity/kinds.ts";
import type { Limit, ParameterSpec, SupplyPair, TerminalSpec, Values } from "./define.ts";
import { LEAST_RESISTANCE, resistance } from "./make-element.ts";
import type { Resistance } from "./element.ts";
import { isolation } from "./leak.ts";
import { quantity } from "./parameter.ts";
import { terminal } from "./plain-face.ts";
import { arc, circle, lead, letter } from "./symbol.ts";

/**
 * Windings of unstated resistance, only so that the circuit can be solved (common practice, no source): a heavy
 * winding that carries the motor current, and a thin shunt field.
 */
export const ASSUMED_HEAVY_WINDING: Ohm = 10e-3;
export const ASSUMED_FIELD: Ohm = 1;

export const windingNote =
  "A winding of unstated resistance is taken as 10 mohm (a separately fed field: 1 ohm) when solving, from common practice and no source: voltages and currents that depend on it are approximate.";
export const standstillNote =
  "The machine is solved as its windings alone: without a controller that limits the current it draws what it would at standstill.";

export const windingParameter = (title: string, where: string): ParameterSpec =>
  quantity("resistance", {
    title,
    explanation: "Resistance of the winding, warm; it decides the voltage that the current costs.",
    where,
    least: 0,
  });

/** currentContinuous, voltageMax and isolation: on every motor. */
export const motorRatings: Readonly<Record<string, ParameterSpec>> = {
  currentContinuous: quantity("current", {
    title: "Continuous current",
    explanation: "The current that the motor carries for an hour or more; cables and contacts must carry it as well.",
    where: "Rating plate, marked S1, 60 min or continuous.",
    least: 0,
  }),
  voltageMax: quantity("voltage", {
    title: "Highest voltage",
    explanation: "The highest voltage for which its windings and its commutator are made.",
    where: "Rating plate or data sheet.",
    least: 0,
  }),
  isolation,
};

/** A stud of a winding. */
export const windingStud = (id: string, required: boolean, title: string): TerminalSpec =>
  terminal(id, "stud", required, title);

export const motorCase: TerminalSpec = terminal("case", "stud", false, "Metal of the motor, for the bond to chassis");

export const winding = (name: string, a: string, b: string, stated: Ohm | undefined, assumed: Ohm): Resistance =>
  resistance(name, a, b, "load", Math.max(stated ?? assumed, LEAST_RESISTANCE));

/** A pair of winding ends; motors run either way round, so that no pair is polarised. */
export const windingPair = (plus: string, minus: string, main: boolean): SupplyPair => ({
  plus,
  minus,
  polarised: false,
  direction: "input",
  main,
});

/** Voltage across and current through the armature. */
export const armatureLimits = (values: Values, a: string, b: string, element: string): readonly Limit[] => [
  { parameter: "voltageMax", kind: "voltage-across", a, b, value: values.number("voltageMax") },
  {
    parameter: "currentContinuous",
    kind: "current-through",
    a,
    b,
    element,
    value: values.number("currentContinuous") satisfies Ampere | undefined,
  },
];

/** Circle of a machine around (x, y), 10 mm across, with its letters. */
export const machineCircle = (x: number, y: number, letters: string): DisplayList => [
  circle(x, y, 5),
  letter(x, y, letters),
];

/** A field winding along the x axis from (x, y): three humps, 15 mm with its leads. */
export const fieldWinding = (x: number, y: number): DisplayList => [
  lead(x, y, x + 3.75, y),
  ...[0, 1, 2].map((hump) => arc(x + 5 + hump * 2.5, y, 1.25, 180, 360)),
  lead(x + 11.25, y, x + 15, y),
];
