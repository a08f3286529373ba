/** Diode: lets current through from anode to cathode only. */
import { definePart } from "./define.ts";
import { diode as junction, JUNCTION_DROP } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { diodeMark, drawn, lead, pinPair, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const terminals = () =>
  together(
    [
      terminal("anode", "lead", false, "Anode (plain end)"),
      terminal("cathode", "lead", false, "Cathode (ring or bar)"),
    ],
    ["anode", "cathode"],
  );

export const diode = definePart({
  kind: "diode",
  letter: "R",
  title: "Diode",
  words: ["rectifier", "freewheel diode", "flyback diode", "blocking diode", "coil diode"],
  group: "passive",
  explanation: "Lets current flow one way only: across a coil it takes up the kick, in a lead it stops back-feeding.",
  parameters: {
    current: quantity("current", {
      title: "Current",
      explanation: "The forward current that it carries for good.",
      where: "Data sheet of the type printed on it.",
      least: 0,
    }),
    reverseVoltage: quantity("voltage", {
      title: "Reverse voltage",
      explanation: "The highest voltage that it blocks.",
      where: "Data sheet of the type printed on it.",
      least: 0,
    }),
    drop: quantity("voltage", {
      title: "Forward drop",
      explanation: "The voltage that is lost across it while it conducts.",
      where: "Data sheet; 0.7 V for silicon, 0.3 V for Schottky.",
      default: "0.7 V",
      least: 0,
      most: 5,
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: () => [view("diode", "Diode", drawn([lead(0, 0, 15, 0), ...diodeMark(5, 0, 5)], pinPair("anode", "cathode")))],
  face: () => plainFace(terminals()),
  circuit: ({ values }) => [junction("diode", "anode", "cathode", values.number("drop") ?? JUNCTION_DROP)],
  limits: (values) => [
    {
      parameter: "current",
      kind: "current-through",
      a: "anode",
      b: "cathode",
      element: "diode",
      value: values.number("current"),
    },
    {
      parameter: "reverseVoltage",
      kind: "voltage-across",
      a: "cathode",
      b: "anode",
      value: values.number("reverseVoltage"),
    },
  ],
  traits: {},
  notes: ["Piecewise linear: nothing below the drop, the drop and 1 mohm above it."],
});
