/** Shunt: a small known resistance in a main path, from whose drop a meter reads the current. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { resistance, tie } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { bodyBetweenLeads, drawn, pin, pinPair, stroke, text, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** A shunt of unstated current: 500 A at its rated drop (common practice, no source). */
const ASSUMED_CURRENT = 500;
const RATED_DROP = 0.05;

const terminals: readonly TerminalSpec[] = together(
  [
    terminal("line", "stud", true, "Main current"),
    terminal("load", "stud", true, "Main current"),
    terminal("sense-line", "tab", false, "Meter, line side"),
    terminal("sense-load", "tab", false, "Meter, load side"),
  ],
  ["sense-line", "sense-load"],
);

const ohms = (values: Values): number =>
  (values.number("ratedDrop") ?? RATED_DROP) / (values.number("ratedCurrent") ?? ASSUMED_CURRENT);

export const shunt = definePart({
  kind: "shunt",
  letter: "B",
  title: "Shunt",
  words: ["current shunt", "measuring resistor", "ammeter shunt"],
  group: "sensors",
  explanation: "A bar of known small resistance in the main cable; a meter reads the current from the volts across it.",
  parameters: {
    ratedCurrent: quantity("current", {
      title: "Rated current",
      explanation: "The current at which it drops its rated millivolts, and the most that it may carry.",
      where: "Stamped on it, for example 500 A 50 mV.",
      least: 0.001,
    }),
    ratedDrop: quantity("voltage", {
      title: "Rated drop",
      explanation: "Millivolts across it at its rated current; the meter must be made for the same.",
      where: "Stamped on it, for example 500 A 50 mV.",
      default: "50 mV",
      rating: true,
      least: 0.001,
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Shunt",
      drawn(
        [
          ...bodyBetweenLeads(0, 0, 10, 3, 25),
          stroke(
            [
              [10, 1.5],
              [10, 7.5],
            ],
            "control",
          ),
          stroke(
            [
              [15, 1.5],
              [15, 7.5],
            ],
            "control",
          ),
          text(9.4, 6.8, "sense-line", 1.8, "end"),
          text(15.6, 6.8, "sense-load", 1.8, "start"),
        ],
        [...pinPair("line", "load", 25), pin("sense-line", 10, 7.5, "down"), pin("sense-load", 15, 7.5, "down")],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values }) => [
    resistance("shunt", "line", "load", "shunt", ohms(values)),
    tie("tie-line", "sense-line", "line"),
    tie("tie-load", "sense-load", "load"),
  ],
  limits: (values) => [
    {
      parameter: "ratedCurrent",
      kind: "current-through",
      a: "line",
      b: "load",
      element: "shunt",
      value: values.number("ratedCurrent"),
    },
  ],
  traits: { sensor: true },
  notes: ["A shunt of unstated current is taken as 500 A at its rated drop when solving."],
});
