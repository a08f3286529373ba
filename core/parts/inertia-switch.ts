/** Inertia switch: a crash trips it, a hand resets it. */
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { changeoverContact, massOperator } from "./contact-symbol.ts";
import { definePart, type TerminalSpec } from "./define.ts";
import { contact } from "./make-element.ts";
import { contactCurrent, contactVoltage } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, pin, view } from "./symbol.ts";
import { oneThrowAtLeast } from "./terminal-needs.ts";

const terminals: readonly TerminalSpec[] = oneThrowAtLeast(
  [
    terminal("common", "tab", true, "Common contact"),
    terminal("nc", "tab", false, "Closed until a crash"),
    terminal("no", "tab", false, "Closed after a crash"),
  ],
  "common",
  ["nc", "no"],
);

export const inertiaSwitch = definePart({
  kind: "inertia-switch",
  letter: "S",
  title: "Inertia switch",
  words: ["crash switch", "impact switch", "fuel cut-off switch", "tilt switch"],
  group: "switching",
  explanation: "A switch that the shock of a crash trips; in the contactor's feed it takes the pack off the cables.",
  parameters: { contactVoltage, contactCurrent },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Inertia switch",
      drawn(
        [...changeoverContact(0, 0), ...massOperator(8, -1.5)],
        [pin("common", 0, 0, "left"), pin("nc", 15, -2.5, "right"), pin("no", 15, 2.5, "right")],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ position }) => [
    contact("nc", "common", "nc", position !== "tripped", "control"),
    contact("no", "common", "no", position === "tripped", "control"),
  ],
  control: { positions: () => ["normal", "tripped"], at: (condition) => condition.inertia, flip: true },
  limits: () => [],
  contacts: (values) => ["nc", "no"].map((side) => controlContact(values, side, "common", side)),
  traits: {},
  notes: [SWITCHING_RATING_NOTE],
});
