/** Splice: wires joined for good, crimped or soldered under a sleeve. */
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { TIE, resistance } from "./make-element.ts";
import { countOf, positions } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { dot, drawn, lead, pin, type Pin, view } from "./symbol.ts";

/** A splice of which nobody said how many wires it joins is drawn for three. */
const DRAWN_POSITIONS = 3;

const ids = (values: Values): readonly string[] =>
  Array.from({ length: countOf(values.number("positions"), DRAWN_POSITIONS) }, (_, index) => String(index + 1));

const terminals = (values: Values): readonly TerminalSpec[] =>
  ids(values).map((id) => terminal(id, "lead", false, `Wire ${id}`));

/** Wire 1 comes from the left, the others leave to the right, 5 mm apart. */
const pins = (values: Values): readonly Pin[] =>
  ids(values).map((id, index) => (index === 0 ? pin(id, 0, 0, "left") : pin(id, 5, (index - 1) * 5, "right")));

export const splice = definePart({
  kind: "splice",
  letter: "X",
  title: "Splice",
  words: ["joint", "crimp joint", "butt splice", "solder joint", "junction"],
  group: "connecting",
  explanation: "Wires joined for good in one place, under a sleeve.",
  parameters: { positions },
  terminals,
  supplyPairs: () => [],
  views: (values) => {
    const all = pins(values);
    const last = Math.max(0, ...all.map(({ y }) => y));
    return [
      view(
        "main",
        "Splice",
        drawn(
          [
            lead(0, 0, 2.5, 0),
            ...all.slice(1).map(({ x, y }) => lead(2.5, y, x, y)),
            ...(last > 0 ? [lead(2.5, 0, 2.5, last)] : []),
            ...(all.length > 2 ? all.slice(1, Math.max(2, all.length - 1)).map(({ y }) => dot(2.5, y)) : [dot(2.5, 0)]),
          ],
          all,
        ),
      ),
    ];
  },
  face: (values) => plainFace(terminals(values)),
  // A star from an inner node: any two wires are one joint apart.
  circuit: ({ values }) =>
    ids(values).map((id) => ({ ...resistance(`wire-${id}`, id, ":joint", "conductor", TIE / 2), joins: true })),
  limits: () => [],
  traits: {},
  notes: ["A splice of unstated positions is drawn for three wires."],
});
