/** Push-button: acts while a finger holds it. */
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { breakContact, makeContact, pushOperator } from "./contact-symbol.ts";
import { definePart, type TerminalSpec, type Values } from "./define.ts";
import { contact } from "./make-element.ts";
import { choice, contactCurrent, contactVoltage } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, pinPair, view } from "./symbol.ts";

const terminals: readonly TerminalSpec[] = [
  terminal("1", "tab", true, "Contact"),
  terminal("2", "tab", true, "Contact"),
];

const breaks = (values: Values): boolean => values.choice("contact") === "break";

export const pushButton = definePart({
  kind: "push-button",
  letter: "S",
  title: "Push-button",
  words: ["momentary switch", "start button", "horn button", "reset button"],
  group: "switching",
  explanation: "A button that acts only while a finger holds it.",
  parameters: {
    contact: choice(["make", "break"], {
      title: "Contact",
      explanation: "Whether pressing closes the contact or opens it.",
      where: "Numbers on the screws: 3-4 makes, 1-2 breaks; or try with a multimeter.",
    }),
    contactVoltage,
    contactCurrent,
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: (values) => [
    view(
      "main",
      "Push-button",
      drawn([...(breaks(values) ? breakContact : makeContact)(0, 0), ...pushOperator()], pinPair("1", "2")),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values, position }) => [
    contact("contact", "1", "2", (position === "pressed") !== breaks(values), "control"),
  ],
  control: { positions: () => ["released", "pressed"], at: (condition) => condition.button, flip: true },
  limits: () => [],
  contacts: (values) => [controlContact(values, "contact", "1", "2")],
  traits: {},
  notes: [SWITCHING_RATING_NOTE, "A button of unstated contact is taken as one that makes."],
});
