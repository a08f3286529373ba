/** Three-wire throttle: a potentiometer between high and low, its wiper gives the signal. */
import { definePart, type TerminalSpec } from "./define.ts";
import { LEAST_RESISTANCE, resistance } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { arrowHead, bodyBetweenLeads, drawn, lead, link, pin, pinPair, stroke, view } from "./symbol.ts";

const terminals: readonly TerminalSpec[] = [
  terminal("high", "tab", true, "Supply end"),
  terminal("wiper", "tab", true, "Signal"),
  terminal("low", "tab", true, "Return end"),
];

export const throttleThreeWire = definePart({
  kind: "throttle-three-wire",
  letter: "B",
  title: "Throttle, three-wire",
  words: ["potentiometer", "0-5 V throttle", "pot box", "accelerator", "throttle pedal"],
  group: "sensors",
  explanation: "Tells the controller how far the pedal is pressed, by a voltage tapped from a potentiometer.",
  parameters: {
    resistance: quantity("resistance", {
      title: "Resistance, end to end",
      explanation: "Resistance of the whole track; it loads the controller's throttle supply.",
      where: "Measure between high and low: it does not change with the pedal.",
      default: "5 kohm",
      rating: true,
      least: 1,
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Throttle",
      drawn(
        [
          ...bodyBetweenLeads(0, 0, 7.5, 2.5),
          lead(7.5, 7.5, 7.5, 1.25),
          arrowHead(7.5, 1.25, 270),
          link(7.5, -1.25, 7.5, -5),
          stroke([
            [4.5, -4],
            [10.5, -6],
          ]),
        ],
        [...pinPair("high", "low"), pin("wiper", 7.5, 7.5, "down")],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values, position }) => {
    const whole = values.number("resistance") ?? 5000;
    const [upper, lower] = position === "full" ? [0, whole] : [whole, 0];
    return [
      resistance("upper", "high", "wiper", "sense", Math.max(upper, LEAST_RESISTANCE)),
      resistance("lower", "wiper", "low", "sense", Math.max(lower, LEAST_RESISTANCE)),
    ];
  },
  control: { positions: () => ["idle", "full"], at: (condition) => condition.throttle, flip: false },
  limits: () => [],
  traits: { sensor: true, throttle: true, throttleSignal: "divider" },
  notes: [],
});
