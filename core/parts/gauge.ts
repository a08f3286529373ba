/** Gauge: an instrument with a supply of its own that shows a voltage (of the pack, or across a shunt). */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import type { Element } from "./element.ts";
import { resistance, tie } from "./make-element.ts";
import { isolated, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { arc, arrow, labelledBox, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** About 50 mA at 12 V; sense input 1 Mohm (common practice, no source). */
const SUPPLY_INPUT = 240;
const SENSE_INPUT = 1e6;

const terminals: readonly TerminalSpec[] = [
  terminal("supply+", "tab", true, "Supply, plus"),
  terminal("supply-", "tab", true, "Supply, minus"),
  terminal("sense+", "tab", false, "Measured point, plus"),
  terminal("sense-", "tab", false, "Measured point, minus"),
];

const circuit = (values: Values): readonly Element[] => [
  resistance("supply", "supply+", "supply-", "sense", SUPPLY_INPUT),
  resistance("sense", "sense+", "sense-", "sense", SENSE_INPUT),
  ...(values.choice("isolated") === "no" ? [tie("tie", "supply-", "sense-")] : []),
];

export const gauge = definePart({
  kind: "gauge",
  letter: "P",
  title: "Gauge",
  words: ["ammeter", "state of charge gauge", "fuel gauge", "battery gauge", "amp-hour meter"],
  group: "sensors",
  explanation: "A dashboard instrument that needs a supply and shows what it measures elsewhere.",
  parameters: {
    senseMax: quantity("voltage", {
      title: "Measuring range",
      explanation: "The highest voltage that its measuring terminals stand.",
      where: "Data sheet; for a shunt instrument the millivolts of its shunt.",
      least: 0,
    }),
    isolated: isolated({
      explanation:
        "Whether its supply is separate from what it measures; if not, its supply minus is joined to its sense minus.",
    }),
    supplyMin: quantity("voltage", {
      title: "Supply voltage, least",
      explanation: "The lowest supply on which it works.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
    supplyMax: quantity("voltage", {
      title: "Supply voltage, most",
      explanation: "The highest supply that it stands.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
  },
  // Where supply and sense share a minus, the supply's wire is the return of both.
  terminals: (values) => (values.choice("isolated") === "yes" ? together(terminals, ["sense+", "sense-"]) : terminals),
  supplyPairs: () => [{ plus: "supply+", minus: "supply-", polarised: true, direction: "input", main: false }],
  views: () => [
    view(
      "main",
      "Gauge",
      labelledBox(["supply+", "supply-"], ["sense+", "sense-"], "Gauge", {
        glyph: { list: [arc(0, 2, 4, 200, 340), ...arrow(0, 3, 2.2, -1.2)], width: 9, height: 7.5 },
      }),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values }) => circuit(values),
  limits: (values) => [
    { parameter: "senseMax", kind: "voltage-across", a: "sense+", b: "sense-", value: values.number("senseMax") },
    { parameter: "supplyMax", kind: "voltage-across", a: "supply+", b: "supply-", value: values.number("supplyMax") },
    { parameter: "supplyMin", kind: "voltage-least", a: "supply+", b: "supply-", value: values.number("supplyMin") },
  ],
  traits: { gauge: true, sensor: true },
  notes: [
    "Its supply is taken to draw 50 mA at 12 V when solving (common practice, no source).",
    "Where nobody stated whether it is isolated, no tie is drawn in the circuit: what depends on it is not checked.",
  ],
});
