/** Selector switch: one feed to a or b, with or without a centre, some with both (forward and reverse, two batteries). */
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { turnOperator } from "./contact-symbol.ts";
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { contact } from "./make-element.ts";
import { choice, contactCurrent, contactVoltage, NO_YES, YES_NO } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { blade, drawn, lead, pin, text, view } from "./symbol.ts";
import { oneThrowAtLeast } from "./terminal-needs.ts";

const terminals: readonly TerminalSpec[] = oneThrowAtLeast(
  [
    terminal("common", "tab", true, "Feed"),
    terminal("a", "tab", false, "Fed in position a"),
    terminal("b", "tab", false, "Fed in position b"),
  ],
  "common",
  ["a", "b"],
);

const hasCentre = (values: Values): boolean => values.choice("centre") !== "no";
const hasBoth = (values: Values): boolean => values.choice("both") === "yes";

export const selectorSwitch = definePart({
  kind: "selector-switch",
  letter: "S",
  title: "Selector switch",
  words: ["direction switch", "forward-reverse switch", "changeover switch", "gear selector", "battery selector"],
  group: "switching",
  explanation: "A switch that feeds one of two wires: forward or reverse, one battery or the other.",
  parameters: {
    centre: choice(YES_NO, {
      title: "Centre position",
      explanation: "Whether it has a middle position in which neither wire is fed.",
      where: "Try it: three places to stop, or two.",
      default: "yes",
    }),
    both: choice(NO_YES, {
      title: "Both position",
      explanation: "Whether it has a position that joins both wires to the feed, as battery selectors do.",
      where: "Marked BOTH or ALL on the dial.",
    }),
    contactVoltage,
    contactCurrent,
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: (values) => [
    view(
      "main",
      "Selector switch",
      drawn(
        [
          lead(0, 0, 5, 0),
          blade(
            [5, 0],
            hasCentre(values) ? [11, 0] : [10.6, -2.8],
            [11, 0],
            [
              {
                between: [
                  [0, 0],
                  [15, -2.5],
                ],
                to: [10.6, -2.8],
              },
              {
                between: [
                  [0, 0],
                  [15, 2.5],
                ],
                to: [10.6, 2.8],
              },
            ],
          ),
          lead(10, -2.5, 15, -2.5),
          lead(10, 2.5, 15, 2.5),
          ...(hasBoth(values) ? [lead(13, -1.5, 13, 1.5)] : []),
          text(12.5, -3.2, "a", 1.8),
          text(12.5, 5, "b", 1.8),
          ...turnOperator(7.5, hasCentre(values) ? 0 : -1.25),
        ],
        [pin("common", 0, 0, "left"), pin("a", 15, -2.5, "right"), pin("b", 15, 2.5, "right")],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ position }) =>
    ["a", "b"].map((side) => contact(side, "common", side, position === side || position === "both", "control")),
  control: {
    positions: (values) => ["a", ...(hasCentre(values) ? ["centre"] : []), "b", ...(hasBoth(values) ? ["both"] : [])],
    // Without a centre it rests on a.
    at: (condition, values) => (condition.selector === "centre" && !hasCentre(values) ? "a" : condition.selector),
    flip: true,
  },
  limits: () => [],
  contacts: (values) => ["a", "b"].map((side) => controlContact(values, side, "common", side)),
  traits: {},
  notes: [
    SWITCHING_RATING_NOTE,
    "Without a centre position it is taken to stand on a where the vehicle wants neutral.",
  ],
});
