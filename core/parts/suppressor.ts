/** Suppressor: takes up the kick of a coil or a surge, so that no contact and no transistor has to. */
import type { DisplayList } from "../geometry/display.ts";
import type { Farad, Ohm } from "../quantity/kinds.ts";
import { definePart, type Values } from "./define.ts";
import type { Element } from "./element.ts";
import { SLIGHT_LEAK } from "./leak.ts";
import { resistance } from "./make-element.ts";
import { choice, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { bodyBetweenLeads, drawn, lead, outline, pinPair, stroke, text, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** What a clamp that conducts has left (common practice, no source). */
const CLAMP_RESISTANCE: Ohm = 0.1;
/** Usual snubber across a contact: 100 ohm and 0.1 uF (common practice, no source). */
const SNUBBER: { readonly ohms: Ohm; readonly farads: Farad } = { ohms: 100, farads: 0.1e-6 };

const terminals = () =>
  together([terminal("1", "lead", false, "End 1"), terminal("2", "lead", false, "End 2")], ["1", "2"]);

const SLANT: DisplayList = [
  stroke([
    [2.5, 3.5],
    [4.5, 3.5],
    [10.5, -3.5],
  ]),
];

function symbol(type: string | undefined): DisplayList {
  switch (type) {
    case "zener":
      return [
        lead(0, 0, 15, 0),
        outline([
          [10, -2.5],
          [5, 0],
          [10, 2.5],
        ]),
        stroke([
          [6, -3.5],
          [5, -2.5],
          [5, 2.5],
          [4, 3.5],
        ]),
      ];
    case "bidirectional":
      return [
        lead(0, 0, 15, 0),
        outline([
          [2.5, -2.5],
          [7.5, 0],
          [2.5, 2.5],
        ]),
        outline([
          [12.5, -2.5],
          [7.5, 0],
          [12.5, 2.5],
        ]),
        stroke([
          [6.5, -3.5],
          [7.5, -2.5],
          [7.5, 2.5],
          [8.5, 3.5],
        ]),
      ];
    case "rc":
      return [
        lead(0, 0, 1.25, 0),
        outline([
          [1.25, -1.25],
          [6.25, -1.25],
          [6.25, 1.25],
          [1.25, 1.25],
        ]),
        lead(6.25, 0, 10, 0),
        lead(10, -2.5, 10, 2.5),
        lead(11.25, -2.5, 11.25, 2.5),
        lead(11.25, 0, 15, 0),
      ];
    default:
      return [...bodyBetweenLeads(0, 0, 7.5, 2.5), ...SLANT, text(12.2, 3.4, "U", 1.8)];
  }
}

function circuit(values: Values): readonly Element[] {
  const type = values.choice("type");
  if (type === "rc") {
    return [
      resistance("resistor", "1", ":between", "resistor", SNUBBER.ohms),
      { type: "capacitor", name: "capacitor", a: ":between", b: "2", role: "capacitor", capacitance: SNUBBER.farads },
    ];
  }
  const clamp = values.number("clampVoltage");
  if (type === undefined || clamp === undefined) {
    return [resistance("clamp", "1", "2", "resistor", SLIGHT_LEAK)];
  }
  return [
    {
      type: "clamp",
      name: "clamp",
      a: "1",
      b: "2",
      role: "diode",
      clamp,
      resistance: CLAMP_RESISTANCE,
      oneWay: type === "zener",
    },
  ];
}

export const suppressor = definePart({
  kind: "suppressor",
  letter: "F",
  title: "Suppressor",
  words: ["varistor", "zener", "transient suppressor", "snubber", "surge protection", "coil suppression"],
  group: "protection",
  explanation: "Takes up voltage peaks, such as the kick of a coil, so that contacts and electronics last.",
  parameters: {
    type: choice(["varistor", "zener", "bidirectional", "rc"], {
      title: "Type",
      explanation:
        "Varistor and bidirectional clamp either way; a zener conducts forwards like a diode; rc only slows.",
      where: "Print or data sheet: a disc is a varistor, a stripe on one end a zener.",
    }),
    clampVoltage: quantity("voltage", {
      title: "Clamping voltage",
      explanation: "The voltage at which it begins to conduct; it must lie above everything that is normal.",
      where: "Data sheet, breakdown or clamping voltage.",
      least: 0.1,
    }),
    energy: quantity("energy", {
      title: "Energy",
      explanation: "How much it can take up at once without failing.",
      where: "Data sheet.",
      least: 0,
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: (values) => [view("suppressor", "Suppressor", drawn(symbol(values.choice("type")), pinPair("1", "2")))],
  face: () => plainFace(terminals()),
  circuit: ({ values }) => circuit(values),
  limits: () => [],
  traits: {},
  notes: [
    "A zener has its bar (cathode) at 1.",
    "Without type or clamping voltage it conducts nothing when solving.",
    "rc is taken as 100 ohm and 0.1 uF (common practice, no source).",
  ],
});
