/** Display: shows what a controller or monitor sends it over a serial line. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import type { Element } from "./element.ts";
import { resistance, tie } from "./make-element.ts";
import { isolated } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { labelledBox, lead, rectangle, view } from "./symbol.ts";
import { neededBy } from "./terminal-needs.ts";

/** About 100 mA at 12 V; serial pins 10 kohm (common practice, no source). */
const SUPPLY_INPUT = 120;
const SERIAL_INPUT = 10e3;

const terminals: readonly TerminalSpec[] = [
  terminal("supply+", "pin", true, "Supply, plus"),
  terminal("supply-", "pin", true, "Supply, minus"),
  terminal("serial-tx", "pin", false, "Serial, sends"),
  terminal("serial-rx", "pin", false, "Serial, receives"),
  terminal("serial-ground", "pin", false, "Serial, ground"),
];

const circuit = (values: Values): readonly Element[] => [
  resistance("supply", "supply+", "supply-", "sense", SUPPLY_INPUT),
  resistance("serial-tx", "serial-tx", "serial-ground", "sense", SERIAL_INPUT),
  resistance("serial-rx", "serial-rx", "serial-ground", "sense", SERIAL_INPUT),
  ...(values.choice("isolated") === "no" ? [tie("tie", "supply-", "serial-ground")] : []),
];

export const display = definePart({
  kind: "display",
  letter: "P",
  title: "Display",
  words: ["screen", "dash display", "serial display", "hand-held programmer"],
  group: "sensors",
  explanation: "A screen that shows what a controller or monitor reports over a serial line.",
  parameters: {
    isolated: isolated({
      explanation:
        "Whether its serial line is separate from its supply; if not, its supply minus is joined to the serial ground.",
    }),
  },
  terminals: (values) =>
    values.choice("isolated") === "yes" ? neededBy(terminals, "serial-ground", "serial-tx", "serial-rx") : terminals,
  supplyPairs: () => [{ plus: "supply+", minus: "supply-", polarised: true, direction: "input", main: false }],
  views: () => [
    view(
      "main",
      "Display",
      labelledBox(["supply+", "supply-"], ["serial-tx", "serial-rx", "serial-ground"], "Display", {
        glyph: {
          list: [rectangle(-4, -3, 8, 6), lead(-2.5, -1, 2.5, -1), lead(-2.5, 1, 1, 1)],
          width: 10,
          height: 8,
        },
      }),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values }) => circuit(values),
  limits: () => [],
  traits: { gauge: true },
  notes: [
    "Its supply is taken to draw 100 mA at 12 V when solving (common practice, no source).",
    "Where nobody stated whether it is isolated, no tie is drawn in the circuit: what depends on it is not checked.",
  ],
});
