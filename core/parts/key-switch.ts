/** Key switch: off, accessory, on, start. */
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { keyOperator } from "./contact-symbol.ts";
import { definePart, type TerminalSpec } from "./define.ts";
import { contact } from "./make-element.ts";
import { contactCurrent, contactVoltage } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { blade, drawn, lead, pin, view } from "./symbol.ts";
import { oneThrowAtLeast } from "./terminal-needs.ts";

const OUTPUTS = ["accessory", "ignition", "start"] as const;

/** What the key joins to `battery` in each position. */
const JOINED: Readonly<Record<string, readonly string[]>> = {
  off: [],
  accessory: ["accessory"],
  on: ["accessory", "ignition"],
  start: ["ignition", "start"],
};

const terminals: readonly TerminalSpec[] = oneThrowAtLeast(
  [
    terminal("battery", "tab", true, "Feed"),
    terminal("accessory", "tab", false, "Fed in accessory and on"),
    terminal("ignition", "tab", false, "Fed in on and start"),
    terminal("start", "tab", false, "Fed in start only"),
  ],
  "battery",
  ["ignition", "accessory", "start"],
);

const rows = [-5, 0, 5] as const;

export const keySwitch = definePart({
  kind: "key-switch",
  letter: "S",
  title: "Key switch",
  words: ["ignition switch", "ignition lock", "key lock", "starter switch"],
  group: "switching",
  explanation: "The driver's key: with it off, the drive must not be able to run.",
  parameters: { contactVoltage, contactCurrent },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Key switch",
      drawn(
        [
          // Drawn at off: the blade rests between the feed and the first contact.
          lead(0, 0, 5, 0),
          blade(
            [5, 0],
            [9, -6.5],
            [9, -6.5],
            rows.map((y) => ({
              between: [
                [0, 0],
                [17.5, y],
              ],
              to: [12.5, y],
            })),
          ),
          ...keyOperator(7, -3.25, -10),
          ...rows.map((y) => lead(12.5, y, 17.5, y)),
        ],
        [pin("battery", 0, 0, "left"), ...OUTPUTS.map((id, row) => pin(id, 17.5, rows[row] ?? 0, "right"))],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ position }) =>
    OUTPUTS.map((id) => contact(id, "battery", id, JOINED[position]?.includes(id) ?? false, "control")),
  control: { positions: () => Object.keys(JOINED), at: (condition) => condition.key, flip: true },
  limits: () => [],
  contacts: (values) => OUTPUTS.map((id) => controlContact(values, id, "battery", id)),
  traits: { key: true },
  notes: [SWITCHING_RATING_NOTE],
});
