/** Earth bond: a strap that bonds a metal case to the chassis. */
import { definePart, type TerminalSpec } from "./define.ts";
import { tie } from "./make-element.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { circle, drawn, earthMark, lead, pinPair, terminalRing, view } from "./symbol.ts";

const terminals: readonly TerminalSpec[] = [
  terminal("case", "stud", true, "At the case"),
  terminal("stud", "stud", true, "At the chassis stud"),
];

export const earthBond = definePart({
  kind: "earth-bond",
  letter: "X",
  title: "Earth bond",
  words: ["bonding strap", "equipotential bond", "earth strap", "ground strap", "braid"],
  group: "connecting",
  explanation: "A strap from a metal case to the chassis, so that a fault inside cannot make the case live.",
  parameters: {},
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Earth bond",
      // Protective earth: the earth mark in a circle, hung on the strap.
      drawn(
        [lead(0, 0, 15, 0), terminalRing(2.5, 0), terminalRing(12.5, 0), ...earthMark(7.5, 0), circle(7.5, 3.25, 3.25)],
        pinPair("case", "stud"),
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: () => [tie("strap", "case", "stud")],
  limits: () => [],
  traits: {},
  notes: [],
});
