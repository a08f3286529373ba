/** Switch: on or off, stays where it is put. */
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { ganged, handOperator, makeContact } from "./contact-symbol.ts";
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { contact } from "./make-element.ts";
import { contactCurrent, contactVoltage, countOf, poles } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, pinPair, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const suffixes = (values: Values): readonly string[] =>
  Array.from({ length: countOf(values.number("poles"), 1) }, (_, pole) => (pole === 0 ? "" : `-${String(pole + 1)}`));

const terminals = (values: Values): readonly TerminalSpec[] =>
  suffixes(values).flatMap((end) =>
    together(
      [terminal(`common${end}`, "tab", end === "", "Feed"), terminal(`out${end}`, "tab", end === "", "Fed when on")],
      [`common${end}`, `out${end}`],
    ),
  );

export const toggleSwitch = definePart({
  kind: "switch",
  letter: "S",
  title: "Switch",
  words: ["toggle switch", "rocker switch", "dash switch", "light switch"],
  group: "switching",
  explanation: "A switch that a hand puts on or off and that stays there.",
  parameters: { poles, contactVoltage, contactCurrent },
  terminals,
  supplyPairs: () => [],
  views: (values) => [
    view(
      "main",
      "Switch",
      drawn(
        [...ganged(makeContact, suffixes(values).length, 10), ...handOperator()],
        suffixes(values).flatMap((end, row) => pinPair(`common${end}`, `out${end}`, 15, row * 10)),
      ),
    ),
  ],
  face: (values) => plainFace(terminals(values)),
  circuit: ({ values, position }) =>
    suffixes(values).map((end) => contact(`contact${end}`, `common${end}`, `out${end}`, position === "on", "control")),
  control: { positions: () => ["off", "on"], at: (condition) => condition.toggle, flip: true },
  limits: () => [],
  contacts: (values) =>
    suffixes(values).map((end) => controlContact(values, `contact${end}`, `common${end}`, `out${end}`)),
  traits: {},
  notes: [SWITCHING_RATING_NOTE],
});
