/** Resistor: pre-charge, bleed, sense or limiting. */
import type { Ohm } from "../quantity/kinds.ts";
import { definePart } from "./define.ts";
import { LEAST_RESISTANCE, resistance } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { bodyBetweenLeads, drawn, pinPair, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** Of a resistor without a stated value, when solving: usual for pre-charge (250 ohm to 1 kohm, from memory). */
const ASSUMED: Ohm = 1000;

const terminals = () =>
  together([terminal("1", "lead", false, "End 1"), terminal("2", "lead", false, "End 2")], ["1", "2"]);

export const resistor = definePart({
  kind: "resistor",
  letter: "R",
  title: "Resistor",
  words: ["pre-charge resistor", "bleeder", "discharge resistor", "ballast"],
  group: "passive",
  explanation:
    "Limits a current: for pre-charge it lets the controller's capacitors fill slowly before the contactor closes.",
  parameters: {
    resistance: quantity("resistance", {
      title: "Resistance",
      explanation: "How much it holds back; with the voltage it gives the current.",
      where: "Printed on the body or in colour rings; measure with nothing else connected.",
      least: 0,
    }),
    power: quantity("power", {
      title: "Power",
      explanation: "The heat that it can give off for good.",
      where: "Printed on the body, or by size in the data sheet.",
      least: 0,
    }),
    pulseEnergy: quantity("energy", {
      title: "Pulse energy",
      explanation: "The energy that it takes up in one short pulse; it decides in pre-charge, not the power.",
      where: "Data sheet, pulse or overload diagram; wire-wound ones take much, film ones little.",
      least: 0,
    }),
    voltage: quantity("voltage", {
      title: "Highest voltage",
      explanation: "The highest voltage between its ends.",
      where: "Data sheet.",
      least: 0,
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: () => [view("resistor", "Resistor", drawn(bodyBetweenLeads(0, 0, 7.5, 2.5), pinPair("1", "2")))],
  face: () => plainFace(terminals()),
  circuit: ({ values }) => [
    resistance("resistor", "1", "2", "resistor", Math.max(values.number("resistance") ?? ASSUMED, LEAST_RESISTANCE)),
  ],
  limits: (values) => [
    { parameter: "voltage", kind: "voltage-across", a: "1", b: "2", value: values.number("voltage") },
  ],
  traits: {},
  notes: ["Without a stated resistance it is taken as 1 kohm when solving; figures through it are then approximate."],
});
