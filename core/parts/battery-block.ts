/** Battery block: one battery with two posts, of which several make a string. */
import {
  BATTERY_NOTES,
  batteryEmf,
  batteryLeaks,
  batteryLimits,
  batteryParameters,
  batteryResistance,
} from "./battery-cells.ts";
import { definePart, type Face, type Values } from "./define.ts";
import { countOf } from "./parameter.ts";
import { terminal } from "./plain-face.ts";
import { drawn, lead, pinPair, plusMark, rectangle, view } from "./symbol.ts";

const cellsOf = (values: Values): number => Math.max(1, countOf(values.number("cells"), 6));

/** 12 V: 330 x 170 mm, posts 250 mm apart; 6 V: 260 x 180 mm, posts 190 mm apart. */
function face(values: Values): Face {
  const small = cellsOf(values) <= 3;
  const [width, height, apart] = small ? [260, 180, 190] : [330, 170, 250];
  return {
    width,
    height,
    terminals: {
      "+": { x: (width - apart) / 2, y: 25, stud: "M8" },
      "-": { x: (width + apart) / 2, y: 25, stud: "M8" },
    },
    plugs: [],
    byDefault: true,
  };
}

export const batteryBlock = definePart({
  kind: "battery-block",
  letter: "G",
  title: "Battery block",
  words: ["battery", "12 V battery", "cell", "module", "accumulator", "traction battery", "starter battery"],
  group: "sources",
  explanation: "One battery with two posts. Blocks in a row, joined by jumpers, make the pack.",
  parameters: batteryParameters,
  terminals: () => [terminal("+", "stud", true, "Plus post"), terminal("-", "stud", true, "Minus post")],
  supplyPairs: () => [],
  views: () => [
    view(
      "block",
      "Battery block",
      drawn(
        [
          lead(0, 0, 5, 0),
          lead(5, -5, 5, 5),
          rectangle(6, -2.5, 0.6, 5, "ink"),
          lead(6.6, 0, 8.4, 0),
          lead(8.4, -5, 8.4, 5),
          rectangle(9.4, -2.5, 0.6, 5, "ink"),
          lead(10, 0, 15, 0),
          ...plusMark(2.5, -2),
        ],
        pinPair("+", "-"),
      ),
    ),
  ],
  face,
  circuit: (context) => [
    {
      type: "source",
      name: "emf",
      a: "+",
      b: "-",
      role: "source",
      emf: batteryEmf(context, cellsOf(context.values)),
      ...batteryResistance(context.values, cellsOf(context.values)),
      storage: true,
    },
    ...batteryLeaks(context.values),
  ],
  limits: batteryLimits,
  traits: { battery: true },
  notes: BATTERY_NOTES,
});
