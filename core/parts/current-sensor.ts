/** Current sensor: reads the current of the conductor that passes through it, without touching it. */
import { definePart, type TerminalSpec } from "./define.ts";
import { resistance, tie } from "./make-element.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { circle, drawn, lead, pin, pinPair, rectangle, text, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** About 10 mA at 5 V; output behind 10 kohm (common practice, no source). */
const SUPPLY_INPUT = 500;
const OUTPUT = 10e3;

const terminals: readonly TerminalSpec[] = together(
  [
    terminal("line", "stud", false, "Conductor through it"),
    terminal("load", "stud", false, "Conductor through it"),
    terminal("supply", "pin", false, "Supply of the sensor"),
    terminal("ground", "pin", false, "Return of the sensor"),
    terminal("signal", "pin", false, "Signal"),
  ],
  ["line", "load"],
  ["supply", "ground", "signal"],
);

/** Terminals of its electronics, from left to right. */
const SIGNALS = ["supply", "ground", "signal"] as const;

export const currentSensor = definePart({
  kind: "current-sensor",
  letter: "B",
  title: "Current sensor",
  words: ["hall current sensor", "current transducer", "clamp sensor"],
  group: "sensors",
  explanation:
    "Reads the current of a cable that passes through its hole; nothing of the cable touches its electronics.",
  parameters: {},
  terminals: () => terminals,
  supplyPairs: () => [{ plus: "supply", minus: "ground", polarised: true, direction: "input", main: false }],
  views: () => [
    view(
      "main",
      "Current sensor",
      drawn(
        [
          lead(0, 0, 25, 0),
          circle(12.5, 0, 2.5),
          lead(12.5, 2.5, 12.5, 5),
          rectangle(1.25, 5, 22.5, 5),
          ...SIGNALS.flatMap((id, column) => [
            lead(5 + column * 7.5, 10, 5 + column * 7.5, 12.5),
            text(5 + column * 7.5, 8.2, id, 1.8),
          ]),
        ],
        [...pinPair("line", "load", 25), ...SIGNALS.map((id, column) => pin(id, 5 + column * 7.5, 12.5, "down"))],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: () => [
    tie("conductor", "line", "load"),
    resistance("supply", "supply", "ground", "sense", SUPPLY_INPUT),
    resistance("output", "signal", "ground", "sense", OUTPUT),
  ],
  limits: () => [],
  traits: { sensor: true },
  notes: ["Its supply is taken to draw 10 mA at 5 V when solving (common practice, no source)."],
});
