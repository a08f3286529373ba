/** Hall throttle: electronics that give a voltage by the pedal's position, while they are supplied. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { resistance } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { labelledBox, lead, stroke, view } from "./symbol.ts";

/** Ratiometric practice: 10-90 % of 5 V (published service data of pedals; seen). */
const ASSUMED_IDLE = 0.5;
const ASSUMED_FULL = 4.5;
/** Pedals are supplied with 5 V, one published kind with 4.3 V (seen): below 4 V nothing is certain. */
const LEAST_SUPPLY = 4;
/** The output gives about 1 mA behind 1 kohm; input side and pull-down 100 kohm (common practice, no source). */
const OUTPUT_RESISTANCE = 1e3;
const OUTPUT_LIMIT = 1e-3;
const INSIDE = 100e3;

const terminals: readonly TerminalSpec[] = [
  terminal("supply", "pin", true, "Supply, 5 V"),
  terminal("signal", "pin", true, "Signal"),
  terminal("ground", "pin", true, "Return"),
];

const output = (values: Values, position: string): number =>
  position === "full" ? (values.number("voltageFull") ?? ASSUMED_FULL) : (values.number("voltageIdle") ?? ASSUMED_IDLE);

export const throttleHall = definePart({
  kind: "throttle-hall",
  letter: "B",
  title: "Throttle, Hall",
  words: ["hall pedal", "electronic throttle", "hall throttle", "accelerator", "throttle pedal"],
  group: "sensors",
  explanation: "Tells the controller how far the pedal is pressed, by a voltage from electronics without contact.",
  parameters: {
    voltageIdle: quantity("voltage", {
      title: "Signal at idle",
      explanation: "Voltage of the signal with the pedal free; it must be what the controller takes for no throttle.",
      where: "Measure signal to return with 5 V on the supply and the pedal free, or see its data sheet.",
      least: 0,
    }),
    voltageFull: quantity("voltage", {
      title: "Signal at full",
      explanation: "Voltage of the signal with the pedal to the floor.",
      where: "Measure signal to return with 5 V on the supply and the pedal to the floor, or see its data sheet.",
      least: 0,
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [{ plus: "supply", minus: "ground", polarised: true, direction: "input", main: false }],
  views: () => [
    view(
      "main",
      "Throttle",
      labelledBox([], ["supply", "signal", "ground"], "Hall", {
        glyph: {
          // A pedal hinged at its foot.
          list: [
            lead(-2.5, 3, 2.5, 3),
            stroke([
              [-2, 3],
              [1.5, -3],
            ]),
            stroke([
              [0.2, -3.7],
              [2.8, -2.3],
            ]),
          ],
          width: 6,
          height: 8,
        },
      }),
    ),
  ],
  face: () => plainFace(terminals),
  // Without supply the output gives nothing; without its return wire the signal is pulled up to the supply through
  // the electronics, as on the real thing.
  circuit: ({ values, position, state }) => [
    resistance("supply", "supply", "ground", "sense", INSIDE),
    resistance("pull-down", "signal", "ground", "sense", INSIDE),
    {
      type: "limited-source",
      name: "output",
      a: "signal",
      b: "ground",
      role: "sense",
      emf: state["fed"] === true ? output(values, position) : 0,
      resistance: OUTPUT_RESISTANCE,
      limit: OUTPUT_LIMIT,
      oneWay: true,
    },
  ],
  control: { positions: () => ["idle", "full"], at: (condition) => condition.throttle, flip: false },
  initial: () => ({ fed: false }),
  settle: (_context, sensed) => ({ fed: sensed.between("supply", "ground") >= LEAST_SUPPLY }),
  limits: () => [],
  traits: { sensor: true, throttle: true, throttleSignal: "voltage" },
  notes: [
    "Signal voltages that nobody stated are taken as 0.5 V and 4.5 V when solving (10-90 % of 5 V; seen).",
    "It is taken to work from 4 V on its supply.",
  ],
});
