/** Two-wire throttle: a resistance that changes with the pedal; its two wires may be swapped. */
import { definePart, type TerminalSpec } from "./define.ts";
import { LEAST_RESISTANCE, resistance } from "./make-element.ts";
import { choice, quantity, YES_NO } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { arrow, bodyBetweenLeads, drawn, link, pinPair, stroke, view } from "./symbol.ts";

const terminals: readonly TerminalSpec[] = [
  terminal("1", "tab", true, "Either wire"),
  terminal("2", "tab", true, "Either wire"),
];

export const throttleTwoWire = definePart({
  kind: "throttle-two-wire",
  letter: "B",
  title: "Throttle, two-wire",
  words: ["pot box", "potbox", "0-5k throttle", "accelerator", "throttle pedal"],
  group: "sensors",
  explanation: "Tells the controller how far the pedal is pressed, by a resistance between two wires.",
  parameters: {
    resistanceIdle: quantity("resistance", {
      title: "Resistance at idle",
      explanation: "Resistance with the pedal free; it must be what the controller takes for no throttle.",
      where: "Measure between its wires with the pedal free, controller unplugged.",
      default: "0 ohm",
      rating: true,
      least: 0,
    }),
    resistanceFull: quantity("resistance", {
      title: "Resistance at full",
      explanation: "Resistance with the pedal to the floor; it must be what the controller takes for full throttle.",
      where: "Measure between its wires with the pedal to the floor, controller unplugged.",
      default: "5 kohm",
      rating: true,
      least: 0,
    }),
    sprung: choice(YES_NO, {
      title: "Springs back",
      explanation: "Whether the pedal or lever returns to idle when it is let go.",
      where: "Try it.",
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
          ...arrow(4.5, 3.5, 10.5, -3.5),
          link(7.5, -1.25, 7.5, -7.5),
          stroke([
            [4.5, -6.5],
            [10.5, -8.5],
          ]),
        ],
        pinPair("1", "2"),
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values, position }) => {
    const ohms =
      position === "full" ? (values.number("resistanceFull") ?? 5000) : (values.number("resistanceIdle") ?? 0);
    return [resistance("throttle", "1", "2", "sense", Math.max(ohms, LEAST_RESISTANCE))];
  },
  control: { positions: () => ["idle", "full"], at: (condition) => condition.throttle, flip: false },
  limits: () => [],
  traits: { sensor: true, throttle: true, throttleSignal: "resistance" },
  notes: [],
});
