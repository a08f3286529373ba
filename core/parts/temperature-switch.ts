/** Temperature switch: a contact that opens when it gets too hot. */
import { breakContact, heatOperator } from "./contact-symbol.ts";
import { definePart, type TerminalSpec } from "./define.ts";
import { contact } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, pinPair, text, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const terminals: readonly TerminalSpec[] = together(
  [terminal("1", "tab", false, "Contact"), terminal("2", "tab", false, "Contact")],
  ["1", "2"],
);

export const temperatureSwitch = definePart({
  kind: "temperature-switch",
  letter: "B",
  title: "Temperature switch",
  words: ["thermostat", "thermal switch", "over-temperature switch", "motor temperature switch"],
  group: "sensors",
  explanation: "A contact that opens when what it is bolted to gets too hot.",
  parameters: {
    opensAbove: quantity("temperature", {
      title: "Opens above",
      explanation: "The temperature at which its contact opens.",
      where: "Stamped on it.",
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Temperature switch",
      drawn([...breakContact(0, 0), ...heatOperator(), text(11.5, -7.5, "θ", 2.5)], pinPair("1", "2")),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ position }) => [contact("contact", "1", "2", position !== "open", "control")],
  control: { positions: () => ["closed", "open"], at: (condition) => condition.temperature, flip: false },
  limits: () => [],
  traits: { sensor: true },
  notes: ["Its contact's rating is not among its data: it is not compared with anything."],
});
