/** Terminal strip: a row of screws, each joining what comes from one side to what leaves on the other. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { tie } from "./make-element.ts";
import { countOf, positions } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, lead, pin, rectangle, terminalRing, text, view } from "./symbol.ts";

/** A strip of which nobody said how many places it has is drawn with four. */
const DRAWN_POSITIONS = 4;

const numbers = (values: Values): readonly string[] =>
  Array.from({ length: countOf(values.number("positions"), DRAWN_POSITIONS) }, (_, index) => String(index + 1));

const terminals = (values: Values): readonly TerminalSpec[] =>
  numbers(values).flatMap((number) =>
    ["a", "b"].map((side) => terminal(`${number}${side}`, "tab", false, `Place ${number}, side ${side}`, side)),
  );

export const terminalStrip = definePart({
  kind: "terminal-strip",
  letter: "X",
  title: "Terminal strip",
  words: ["terminal block", "barrier strip", "screw terminals", "junction strip"],
  group: "connecting",
  explanation: "A row of screws on which wires from two sides meet, each place separate from its neighbours.",
  parameters: { positions },
  terminals,
  supplyPairs: () => [],
  views: (values) => [
    view(
      "main",
      "Terminal strip",
      drawn(
        [
          rectangle(5, -2.5, 10, numbers(values).length * 5),
          ...numbers(values).flatMap((number, row) => [
            ...(row > 0 ? [lead(5, row * 5 - 2.5, 15, row * 5 - 2.5)] : []),
            lead(0, row * 5, 9.25, row * 5),
            terminalRing(10, row * 5),
            lead(10.75, row * 5, 20, row * 5),
            text(7, row * 5 - 0.6, `${number}a`, 1.8),
            text(13, row * 5 - 0.6, `${number}b`, 1.8),
          ]),
        ],
        numbers(values).flatMap((number, row) => [
          pin(`${number}a`, 0, row * 5, "left"),
          pin(`${number}b`, 20, row * 5, "right"),
        ]),
      ),
    ),
  ],
  face: (values) => plainFace(terminals(values)),
  circuit: ({ values }) => numbers(values).map((number) => tie(`place-${number}`, `${number}a`, `${number}b`, true)),
  limits: () => [],
  traits: {},
  notes: ["A strip of unstated positions is drawn with four places."],
});
