/** Micro-switch: a small changeover contact that follows a pedal, lever, seat, cover, door, gear or charge flap. */
import type { Condition } from "./condition.ts";
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { changeoverContact, rollerOperator } from "./contact-symbol.ts";
import { definePart, type TerminalSpec } from "./define.ts";
import { contact } from "./make-element.ts";
import { choice, contactCurrent, contactVoltage } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, pin, view } from "./symbol.ts";
import { oneThrowAtLeast } from "./terminal-needs.ts";

/**
 * What "actuated" means for each actuator: the switch's lever is pushed, `common` is on `no`. It is the position that a
 * builder names the switch after: pedal pressed, parking brake set, someone seated, cover or door shut, a gear in, the
 * charge flap open.
 */
const ACTUATED: Readonly<Record<string, (condition: Condition) => boolean>> = {
  "throttle-pedal": (condition) => condition.throttle === "full",
  "brake-pedal": (condition) => condition.brake === "pressed",
  "parking-brake": (condition) => condition.parkingBrake === "set",
  clutch: (condition) => condition.clutch === "pressed",
  seat: (condition) => condition.seat === "seated",
  cover: (condition) => condition.cover === "closed",
  door: (condition) => condition.door === "closed",
  gear: (condition) => condition.gear === "in",
  "charge-flap": (condition) => condition.mains === "plugged",
};

const terminals: readonly TerminalSpec[] = oneThrowAtLeast(
  [
    terminal("common", "tab", true, "Common contact"),
    terminal("no", "tab", false, "Closed when actuated"),
    terminal("nc", "tab", false, "Closed when not actuated"),
  ],
  "common",
  ["no", "nc"],
);

export const microSwitch = definePart({
  kind: "micro-switch",
  letter: "S",
  title: "Micro-switch",
  words: ["pedal switch", "seat switch", "door switch", "limit switch", "interlock switch", "brake light switch"],
  group: "switching",
  explanation:
    "A small switch that a pedal, lever, seat, cover or flap pushes, so that the circuit knows where it stands.",
  parameters: {
    actuator: choice(Object.keys(ACTUATED), {
      title: "Actuator",
      explanation:
        "What pushes it. Pushed means: pedal or clutch pressed, parking brake set, seat taken, cover or door closed, gear in, charge flap open.",
      where: "Where you mount it.",
    }),
    contactVoltage,
    contactCurrent,
  },
  terminals: () => terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "main",
      "Micro-switch",
      drawn(
        [...changeoverContact(0, 0), ...rollerOperator(8, -1.5)],
        [pin("common", 0, 0, "left"), pin("nc", 15, -2.5, "right"), pin("no", 15, 2.5, "right")],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ position }) => [
    contact("no", "common", "no", position === "actuated", "control"),
    contact("nc", "common", "nc", position !== "actuated", "control"),
  ],
  control: {
    positions: () => ["free", "actuated"],
    at: (condition, values) => (ACTUATED[values.choice("actuator") ?? ""]?.(condition) === true ? "actuated" : "free"),
    flip: true,
  },
  limits: () => [],
  contacts: (values) => ["no", "nc"].map((side) => controlContact(values, side, "common", side)),
  traits: {},
  notes: [
    SWITCHING_RATING_NOTE,
    "Where nobody stated what pushes it, it is taken as never pushed.",
    "Mounted the other way round (pushed by an open door, say), use the other contact.",
  ],
});
