/** Voltage divider: makes a high voltage small enough for a gauge or an input. */
import type { Ohm, Ratio } from "../quantity/kinds.ts";
import { definePart } from "./define.ts";
import { resistance } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, lead, pin, rectangle, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** From in to common (common practice, no source): small current, and still far below an insulation fault. */
const WHOLE: Ohm = 1e6;
const ASSUMED_RATIO: Ratio = 0.5;

const terminals = () =>
  together(
    [
      terminal("in", "tab", false, "High side"),
      terminal("out", "tab", false, "Divided voltage"),
      terminal("common", "tab", false, "Common of both"),
    ],
    ["in", "out", "common"],
  );

export const voltageDivider = definePart({
  kind: "voltage-divider",
  letter: "R",
  title: "Voltage divider",
  words: ["attenuator", "scaler", "sense divider"],
  group: "passive",
  explanation: "Two resistors that hand on a fixed part of a voltage, so that a low-voltage meter can watch the pack.",
  parameters: {
    ratio: quantity("ratio", {
      title: "Ratio",
      explanation: "The part of the voltage that comes out: 10 % turns 100 V into 10 V.",
      where: "Data sheet, or volts out divided by volts in.",
      least: 1e-4,
      most: 1,
    }),
    inputMax: quantity("voltage", {
      title: "Highest input",
      explanation: "The highest voltage between in and common.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
    outputMax: quantity("voltage", {
      title: "Highest output",
      explanation: "The highest voltage that may come out, by what it is connected to.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "divider",
      "Voltage divider",
      drawn(
        [
          lead(0, 0, 2.5, 0),
          rectangle(2.5, -1.25, 5, 2.5),
          lead(7.5, 0, 12.5, 0),
          lead(10, 0, 10, 5),
          rectangle(12.5, -1.25, 5, 2.5),
          lead(17.5, 0, 20, 0),
        ],
        [pin("in", 0, 0, "left"), pin("out", 10, 5, "down"), pin("common", 20, 0, "right")],
      ),
    ),
  ],
  face: () => plainFace(terminals()),
  circuit: ({ values }) => {
    const ratio = values.number("ratio") ?? ASSUMED_RATIO;
    return [
      resistance("upper", "in", "out", "sense", Math.max(WHOLE * (1 - ratio), 1)),
      resistance("lower", "out", "common", "sense", WHOLE * ratio),
    ];
  },
  limits: (values) => [
    { parameter: "inputMax", kind: "voltage-across", a: "in", b: "common", value: values.number("inputMax") },
    { parameter: "outputMax", kind: "voltage-across", a: "out", b: "common", value: values.number("outputMax") },
  ],
  traits: {},
  notes: ["Taken as 1 Mohm from in to common when solving; without a ratio as half and half."],
});
