/** Capacitor: stores charge; takes an inrush when switched on and keeps its voltage when switched off. */
import { definePart } from "./define.ts";
import { choice, NO_YES, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, lead, pinPair, plusMark, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const terminals = () =>
  together([terminal("+", "lead", false, "Plus"), terminal("-", "lead", false, "Minus")], ["+", "-"]);

export const capacitor = definePart({
  kind: "capacitor",
  letter: "C",
  title: "Capacitor",
  words: ["condenser", "buffer", "smoothing", "bus capacitor"],
  group: "passive",
  explanation:
    "Stores charge: it draws a short, high current when it is switched on, and stays charged when switched off.",
  parameters: {
    capacitance: quantity("capacitance", {
      title: "Capacitance",
      explanation: "How much charge it holds for each volt.",
      where: "Printed on the body.",
      least: 0,
    }),
    voltage: quantity("voltage", {
      title: "Highest voltage",
      explanation: "The highest direct voltage; above it, it bursts.",
      where: "Printed on the body.",
      least: 0,
    }),
    polarised: choice(NO_YES, {
      title: "Polarised",
      explanation: "Whether plus must be on +; reversed, an electrolytic capacitor bursts.",
      where: "A stripe with minus signs or a plus sign on the body.",
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "capacitor",
      "Capacitor",
      drawn(
        [
          lead(0, 0, 6.75, 0),
          lead(6.75, -3.75, 6.75, 3.75),
          lead(8.25, -3.75, 8.25, 3.75),
          lead(8.25, 0, 15, 0),
          ...plusMark(4.5, -2),
        ],
        pinPair("+", "-"),
      ),
    ),
  ],
  face: () => plainFace(terminals()),
  circuit: ({ values }) => [
    {
      type: "capacitor",
      name: "capacitor",
      a: "+",
      b: "-",
      role: "capacitor",
      capacitance: values.number("capacitance"),
    },
  ],
  limits: (values) => [
    { parameter: "voltage", kind: "voltage-across", a: "+", b: "-", value: values.number("voltage") },
  ],
  traits: {},
  notes: ["Open in a steady state; its voltage matters in transitions."],
});
