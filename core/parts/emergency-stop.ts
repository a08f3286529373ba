/** Emergency stop: mushroom button that latches when pressed. Terminals 11-12, 21-22 ... as EN 50005 numbers contacts. */
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { breakContact, ganged, makeContact, mushroomOperator } from "./contact-symbol.ts";
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { contact } from "./make-element.ts";
import { choice, contactCurrent, contactVoltage, countOf, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, pinPair, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const numbers = (values: Values): readonly number[] =>
  Array.from({ length: countOf(values.number("contacts"), 1) }, (_, index) => index + 1);

const makes = (values: Values): boolean => values.choice("contact") === "make";
const elementName = (number: number): string => (number === 1 ? "contact" : `contact-${String(number)}`);

const terminals = (values: Values): readonly TerminalSpec[] =>
  numbers(values).flatMap((number) =>
    together(
      [1, 2].map((end) =>
        terminal(`${String(number)}${String(end)}`, "tab", number === 1, `Contact ${String(number)}`),
      ),
      [`${String(number)}1`, `${String(number)}2`],
    ),
  );

export const emergencyStop = definePart({
  kind: "emergency-stop",
  letter: "S",
  title: "Emergency stop",
  words: ["kill switch", "panic button", "mushroom button", "E-stop", "emergency off"],
  group: "switching",
  explanation: "A button that anyone can hit to stop the drive; it stays pressed until someone releases it.",
  parameters: {
    contacts: quantity("count", {
      title: "Contacts",
      explanation: "How many separate contacts the button moves.",
      where: "Count the pairs of screws on its back.",
      default: "1",
      least: 1,
      most: 4,
      whole: true,
    }),
    contact: choice(["break", "make"], {
      title: "Contact",
      explanation: "Whether pressing opens the contact (break: a cut wire stops too) or closes it.",
      where: "Numbers on the screws: 1-2 breaks, 3-4 makes; or try with a multimeter.",
      default: "break",
    }),
    contactVoltage,
    contactCurrent,
  },
  terminals,
  supplyPairs: () => [],
  views: (values) => [
    view(
      "main",
      "Emergency stop",
      drawn(
        [...ganged(makes(values) ? makeContact : breakContact, numbers(values).length, 10), ...mushroomOperator()],
        numbers(values).flatMap((number, row) => pinPair(`${String(number)}1`, `${String(number)}2`, 15, row * 10)),
      ),
    ),
  ],
  face: (values) => plainFace(terminals(values)),
  circuit: ({ values, position }) =>
    numbers(values).map((number) =>
      contact(
        elementName(number),
        `${String(number)}1`,
        `${String(number)}2`,
        (position === "pressed") === makes(values),
        "control",
      ),
    ),
  control: { positions: () => ["released", "pressed"], at: (condition) => condition.emergencyStop, flip: true },
  limits: () => [],
  contacts: (values) =>
    numbers(values).map((number) =>
      controlContact(values, elementName(number), `${String(number)}1`, `${String(number)}2`),
    ),
  traits: { emergencyStop: true },
  notes: [SWITCHING_RATING_NOTE],
});
