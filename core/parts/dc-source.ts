/** A direct-current source that is neither battery, converter nor charger: a bench supply, a solar controller. */
import type { Ampere, Ohm } from "../quantity/kinds.ts";
import { definePart } from "./define.ts";
import { sideLeaks } from "./leak.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { circleBetweenLeads, drawn, lead, minusMark, pinPair, plusMark, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const OUTPUT_RESISTANCE: Ohm = 5e-3;
const UNLIMITED: Ampere = 1e4;

const terminals = () =>
  together([terminal("+", "tab", false, "Plus"), terminal("-", "tab", false, "Minus")], ["+", "-"]);

export const dcSource = definePart({
  kind: "dc-source",
  letter: "G",
  title: "DC source",
  words: ["bench supply", "power supply", "solar", "generator", "alternator"],
  group: "sources",
  explanation:
    "Any other source of direct current, with a voltage that it holds and a current that it does not exceed.",
  parameters: {
    voltage: quantity("voltage", {
      title: "Voltage",
      explanation: "What it holds on its terminals.",
      where: "Rating plate or its setting.",
    }),
    currentMax: quantity("current", {
      title: "Current, most",
      explanation: "The most that it delivers.",
      where: "Rating plate or its setting.",
      least: 0,
    }),
  },
  terminals,
  supplyPairs: () => [{ plus: "+", minus: "-", polarised: true, direction: "output", main: false }],
  views: () => [
    view(
      "source",
      "DC source",
      drawn(
        [...circleBetweenLeads(0, 0), lead(2.5, 0, 12.5, 0), ...plusMark(1, -2), ...minusMark(14, -2)],
        pinPair("+", "-"),
      ),
    ),
  ],
  face: () => plainFace(terminals()),
  circuit: ({ values }) => [
    {
      type: "limited-source",
      name: "output",
      a: "+",
      b: "-",
      role: "source",
      emf: values.number("voltage") ?? 0,
      resistance: OUTPUT_RESISTANCE,
      limit: values.number("voltage") === undefined ? 0 : (values.number("currentMax") ?? UNLIMITED),
      oneWay: true,
    },
    ...sideLeaks("output", "+", "-"),
  ],
  limits: (values) => [
    {
      parameter: "currentMax",
      kind: "current-through",
      a: "+",
      b: "-",
      element: "output",
      value: values.number("currentMax"),
    },
  ],
  traits: {},
  notes: [
    "Takes no current back. Without a stated voltage it delivers nothing; without a stated current nothing limits it (5 mohm, common practice, no source).",
  ],
});
