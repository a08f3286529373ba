/** What blocks and packs share: parameters, EMF by operating state, resistance, leaks. */
import type { Coulomb, Ohm, Volt } from "../quantity/kinds.ts";
import { resistanceRange, widestResistanceRange } from "../standards/battery-resistance.ts";
import { blockEmf, CHEMISTRIES, type Chemistry } from "../standards/cells.ts";
import type { Limit, ParameterSpec, PartContext, Values } from "./define.ts";
import type { Resistance } from "./element.ts";
import { isolation, sideLeaks, wetLeaks } from "./leak.ts";
import { choice, NO_YES, quantity } from "./parameter.ts";

/** A block whose chemistry nobody stated is solved as the commonest, which is also the wettest. */
const ASSUMED_CHEMISTRY: Chemistry = "flooded-lead";
/** A block whose capacity nobody stated is solved as one of 100 Ah, in which the published resistances are given. */
const ASSUMED_CAPACITY: Coulomb = 100 * 3600;

export const batteryParameters: Readonly<Record<string, ParameterSpec>> = {
  duty: choice(["traction", "auxiliary"], {
    title: "Serves",
    explanation: "Whether it drives the vehicle or feeds the 12 V side; unstated, the wiring decides.",
    where: "Your own plan.",
  }),
  chemistry: choice(CHEMISTRIES, {
    title: "Chemistry",
    explanation: "What the cells are made of: it sets the voltage full, empty and on charge.",
    where: "Label of the battery. Caps or a filler on top: flooded lead.",
  }),
  cells: quantity("count", {
    title: "Cells in series",
    explanation: "How many cells make the block: a 12 V lead block has 6, a 6 V one 3.",
    where: "Nominal voltage divided by the cell's: 2 V lead, 3.2 V iron phosphate, 3.6 V others of lithium.",
    default: "6",
    rating: true,
    least: 1,
    most: 400,
    whole: true,
  }),
  capacity: quantity("charge", {
    title: "Capacity",
    explanation: "The charge that it holds; with it the resistance can be estimated.",
    where: "Label, in Ah.",
    least: 0,
  }),
  resistance: quantity("resistance", {
    title: "Internal resistance",
    explanation: "What holds back a short circuit; unstated, only a range is known and many checks cannot decide.",
    where: "Data sheet, or volts lost under a known load divided by that load.",
    least: 0,
  }),
  chargeState: quantity("ratio", {
    title: "State of charge",
    explanation: "How full it is; unstated, each operating state takes what is usual in it.",
    where: "Rested voltage against the table of its chemistry.",
    least: 0,
    most: 1,
  }),
  dischargeMax: quantity("current", {
    title: "Discharge current, most",
    explanation: "The most that may be drawn from it for long.",
    where: "Data sheet, or the limit of the monitor inside.",
    least: 0,
  }),
  chargeMax: quantity("current", {
    title: "Charging current, most",
    explanation: "The most that may be pushed into it.",
    where: "Data sheet.",
    least: 0,
  }),
  internalMonitor: choice(NO_YES, {
    title: "Monitor inside",
    explanation: "Whether electronics inside can cut it off by themselves.",
    where: "Data sheet; most lithium blocks in a lead-block shape have one.",
  }),
  isolation,
};

const chemistryOf = (values: Values): Chemistry =>
  (values.choice("chemistry") as Chemistry | undefined) ?? ASSUMED_CHEMISTRY;

/** The state's demands are on the traction pack; an auxiliary battery stands rested and full, or as stated. */
export function batteryEmf({ values, condition, duty }: PartContext, cells: number): Volt {
  const serves = values.choice("duty") ?? duty ?? "traction";
  return blockEmf(
    chemistryOf(values),
    cells,
    serves === "auxiliary" ? "rest" : condition.pack,
    values.number("chargeState") ?? 1,
  );
}

/** Stated resistance, else the published range and a figure in its (geometric) middle. */
export function batteryResistance(
  values: Values,
  cells: number,
): { readonly resistance: Ohm; readonly range?: readonly [Ohm, Ohm] } {
  const stated = values.number("resistance");
  if (stated !== undefined) return { resistance: Math.max(stated, 1e-6) };
  const chemistry = chemistryOf(values);
  const capacity = values.number("capacity");
  const known = capacity !== undefined && capacity > 0;
  const [least, greatest] = resistanceRange(chemistry, cells, known ? capacity : ASSUMED_CAPACITY).range;
  return {
    resistance: Math.sqrt(least * greatest),
    range: known ? [least, greatest] : widestResistanceRange(chemistry, cells),
  };
}

export function batteryLeaks(values: Values): readonly Resistance[] {
  const stated = values.number("isolation");
  if (stated === undefined && chemistryOf(values) === "flooded-lead") return wetLeaks();
  return sideLeaks("pack", "+", "-", stated);
}

/** Discharge and charge are both the current of the EMF: out of + and into it. */
export const batteryLimits = (values: Values): readonly Limit[] => [
  {
    parameter: "dischargeMax",
    kind: "current-through",
    a: "+",
    b: "-",
    element: "emf",
    value: values.number("dischargeMax"),
  },
];

export const BATTERY_NOTES: readonly string[] = [
  "Chemistry unstated: solved as flooded lead. Capacity unstated: solved as 100 Ah; the range of resistance then covers 7 to 225 Ah.",
  "Rest, load and regeneration: open-circuit voltage when full (or at the stated charge). Low: 10 %. On charge: absorption voltage.",
  "Duty unstated: the wiring decides. An auxiliary battery stands rested and full in every state.",
];
