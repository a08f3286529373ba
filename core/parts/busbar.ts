/** Busbar: a metal bar with a row of studs. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { TIE, resistance } from "./make-element.ts";
import { countOf, positions } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, lead, pin, rectangle, view } from "./symbol.ts";

/** A bar of which nobody said how many studs it has is drawn with four. */
const DRAWN_POSITIONS = 4;

const ids = (values: Values): readonly string[] =>
  Array.from({ length: countOf(values.number("positions"), DRAWN_POSITIONS) }, (_, index) => String(index + 1));

const terminals = (values: Values): readonly TerminalSpec[] =>
  ids(values).map((id) => terminal(id, "stud", false, `Stud ${id}`, "bar"));

export const busbar = definePart({
  kind: "busbar",
  letter: "X",
  title: "Busbar",
  words: ["bus bar", "power distribution bar", "negative bar", "distribution block"],
  group: "connecting",
  explanation: "A metal bar to which several cables are bolted: all its studs are one point of the circuit.",
  parameters: { positions },
  terminals,
  supplyPairs: () => [],
  views: (values) => {
    const studs = ids(values);
    return [
      view(
        "main",
        "Busbar",
        drawn(
          [
            rectangle(-2.5, -0.75, (studs.length - 1) * 5 + 5, 1.5, "ink"),
            ...studs.map((_, index) => lead(index * 5, 0, index * 5, 5)),
          ],
          studs.map((id, index) => pin(id, index * 5, 5, "down")),
        ),
      ),
    ];
  },
  face: (values) => plainFace(terminals(values)),
  // A star from an inner node: any two studs are one joint apart.
  circuit: ({ values }) =>
    ids(values).map((id) => ({ ...resistance(`stud-${id}`, id, ":bar", "conductor", TIE / 2), joins: true })),
  limits: () => [],
  traits: {},
  notes: ["A bar of unstated positions is drawn with four studs."],
});
