/** Connector: two halves that mate; plugged, each pin joins its own contact of the other half. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { TIE } from "./make-element.ts";
import { choice, countOf, NO_YES, positions, quantity, YES_NO } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, lead, pin, rectangle, stroke, text, view } from "./symbol.ts";

/** A connector of which nobody said how many pins it has is drawn with two. */
const DRAWN_POSITIONS = 2;

const numbers = (values: Values): readonly string[] =>
  Array.from({ length: countOf(values.number("positions"), DRAWN_POSITIONS) }, (_, index) => String(index + 1));

const terminals = (values: Values): readonly TerminalSpec[] =>
  ["a", "b"].flatMap((half) =>
    numbers(values).map((number) => terminal(`${number}${half}`, "pin", false, `Pin ${number}, half ${half}`, half)),
  );

export const connector = definePart({
  kind: "connector",
  letter: "X",
  title: "Connector",
  words: ["plug", "socket", "coupler", "pull-apart connector", "quick disconnect"],
  group: "connecting",
  explanation: "Two halves that can be pulled apart; drawn as one part, with what is wired to each half.",
  parameters: {
    positions,
    pinCurrent: quantity("current", {
      title: "Current of a pin",
      explanation: "The current that one pin carries for good.",
      where: "Data sheet, with all pins loaded.",
      least: 0,
    }),
    pinVoltage: quantity("voltage", {
      title: "Voltage between pins",
      explanation: "The highest voltage between neighbouring pins for which it is made.",
      where: "Data sheet or housing.",
      least: 0,
    }),
    keyed: choice(YES_NO, {
      title: "Keyed",
      explanation: "Whether it mates one way round only.",
      where: "Try it, unplugged from everything.",
    }),
    touchSafe: choice(YES_NO, {
      title: "Touch-safe",
      explanation: "Whether a finger cannot reach its contacts when it is apart.",
      where: "Data sheet: IPXXB or better when unmated; or look whether a 12 mm finger could touch metal.",
    }),
    leadLength: quantity("length", {
      title: "Length of loose lead",
      explanation: "How far the half on its lead reaches when it comes off; what it can touch lies within that.",
      where: "Measure from where the lead is last fixed to the plug.",
      least: 0,
    }),
    locking: choice(NO_YES, {
      title: "Locking",
      explanation: "Whether it stays together until a latch is worked or a tool is used.",
      where: "Look for a latch, lever or screw.",
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: (values) => [
    view(
      "main",
      "Connector",
      drawn(
        numbers(values).flatMap((number, row) => {
          const y = row * 5;
          return [
            // Male pin from the left inside the female fork on the right.
            lead(0, y, 5, y),
            rectangle(5, y - 0.4, 3.5, 0.8, "ink"),
            stroke([
              [6, y - 1.5],
              [9.5, y - 1.5],
              [9.5, y + 1.5],
              [6, y + 1.5],
            ]),
            lead(9.5, y, 15, y),
            text(2.4, y - 0.8, `${number}a`, 1.8),
            text(12.4, y - 0.8, `${number}b`, 1.8),
          ];
        }),
        numbers(values).flatMap((number, row) => [
          pin(`${number}a`, 0, row * 5, "left"),
          pin(`${number}b`, 15, row * 5, "right"),
        ]),
      ),
    ),
  ],
  face: (values) => plainFace(terminals(values)),
  // A mated pin is metal, not a switch: role conductor, so that the network may join its two wires into one net.
  circuit: ({ values, position }) =>
    numbers(values).map((number) => ({
      type: "contact",
      name: `pin-${number}`,
      a: `${number}a`,
      b: `${number}b`,
      role: "conductor",
      closed: position !== "unplugged",
      resistance: TIE,
      movedBy: "control",
    })),
  control: { positions: () => ["plugged", "unplugged"], at: (condition) => condition.connector, flip: false },
  limits: (values) =>
    numbers(values).map((number) => ({
      parameter: "pinCurrent",
      kind: "current-through",
      a: `${number}a`,
      b: `${number}b`,
      element: `pin-${number}`,
      value: values.number("pinCurrent"),
    })),
  traits: { connector: true },
  notes: ["A connector of unstated positions is drawn with two pins."],
});
