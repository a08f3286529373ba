/** Timer relay: a changeover contact that moves a set time after its trigger comes or goes. */
import { pulledIn } from "./coil-drive.ts";
import { controlContact, SWITCHING_RATING_NOTE } from "./control-contact.ts";
import { changeoverContact, delayMark } from "./contact-symbol.ts";
import type { Second } from "../quantity/kinds.ts";
import { plainNumber } from "../quantity/print.ts";
import {
  definePart,
  type InTime,
  type PartContext,
  type PartState,
  type Sensed,
  type TerminalSpec,
  type Values,
  type View,
} from "./define.ts";
import { contact, resistance } from "./make-element.ts";
import { choice, contactCurrent, contactVoltage, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { bodyBetweenLeads, drawn, lead, pin, rectangle, view } from "./symbol.ts";
import { oneThrowAtLeast } from "./terminal-needs.ts";

/** Where the supply voltage is unstated, the lowest one in use: it then works wherever it could. */
const ASSUMED_SUPPLY = 12;
/** Electronics and coil together, 1.2 W as an ordinary relay's coil (published measurement; seen). */
const SUPPLY_POWER = 1.2;
/** A trigger input draws little: 100 kohm (common practice, no source). */
const TRIGGER_INPUT = 100e3;
/** It works from 70 % of its supply and stops below 10 %, as a relay does. */
const PICK_UP = 0.7;
const DROP_OUT = 0.1;

/** A delay that nobody stated (common practice, no source); what depends on it is reported as not checked. */
const ASSUMED_DELAY: Second = 1;

const terminals: readonly TerminalSpec[] = oneThrowAtLeast(
  [
    terminal("supply+", "tab", true, "Supply, plus"),
    terminal("supply-", "tab", true, "Supply, minus"),
    terminal("trigger", "tab", false, "Starts the time; without a wire the supply starts it"),
    terminal("common", "tab", true, "Common contact"),
    terminal("no", "tab", false, "Open at rest"),
    terminal("nc", "tab", false, "Closed at rest"),
  ],
  "common",
  ["no", "nc"],
);

/** Delayed pull-in: a crossed strip on the coil; delayed drop-out: a filled one. */
function views(values: Values): readonly View[] {
  const releaseDelayed = values.choice("mode") === "off-delay";
  const strip = releaseDelayed
    ? [rectangle(2.5, -5, 2.5, 10, "ink")]
    : [rectangle(2.5, -5, 2.5, 10), lead(2.5, -5, 5, 5), lead(2.5, 5, 5, -5)];
  return [
    view(
      "coil",
      "Coil",
      drawn(
        [
          lead(0, 0, 2.5, 0),
          ...bodyBetweenLeads(2.5, 0, 5, 10, 10).slice(1),
          lead(12.5, 0, 15, 0),
          ...strip,
          lead(7.5, 5, 7.5, 10),
        ],
        [pin("supply+", 0, 0, "left"), pin("supply-", 15, 0, "right"), pin("trigger", 7.5, 10, "down")],
      ),
    ),
    view(
      "contact",
      "Contact",
      drawn(
        [...changeoverContact(0, 0), ...delayMark(8, -1.5, releaseDelayed)],
        [pin("common", 0, 0, "left"), pin("nc", 15, -2.5, "right"), pin("no", 15, 2.5, "right")],
      ),
    ),
  ];
}

/**
 * State { live, coil }. On-delay: the contact moves when trigger and time are both there. Off-delay: it moves with the
 * trigger and stays, while supplied, until the time after the trigger's end has passed.
 */
function settle({ values, condition, state }: PartContext, sensed: Sensed): PartState {
  const nominal = values.number("supplyVoltage") ?? ASSUMED_SUPPLY;
  const live = pulledIn(
    state["live"] === true,
    sensed.between("supply+", "supply-"),
    PICK_UP * nominal,
    DROP_OUT * nominal,
  );
  const triggered =
    live &&
    (!sensed.wired("trigger") ||
      pulledIn(
        state["triggered"] === true,
        sensed.between("trigger", "supply-"),
        PICK_UP * nominal,
        DROP_OUT * nominal,
      ));
  const elapsed = condition.timers !== "not-elapsed";
  const on =
    values.choice("mode") === "off-delay"
      ? triggered || (live && !elapsed && state["coil"] === true)
      : triggered && elapsed;
  return { live, triggered, coil: on };
}

/** In time the contact waits; one that loses its supply lets go at once. */
const inTime: InTime = {
  delays: ({ values }, to) => {
    const delay = values.number("delay") ?? ASSUMED_DELAY;
    const on = to["coil"] === true;
    return { coil: values.choice("mode") === "off-delay" ? (!on && to["live"] === true ? delay : 0) : on ? delay : 0 };
  },
  done: ({ values, state }, to) => {
    const waits =
      values.choice("mode") === "off-delay" ? to["coil"] === false && to["live"] === true : to["coil"] === true;
    if (!waits || to["coil"] === state["coil"]) return undefined;
    const value = values.number("delay") ?? ASSUMED_DELAY;
    return { what: "elapses", value, unit: "s", reason: `its ${plainNumber(value, 3)} s are over` };
  },
  assumed: (values) => (values.number("delay") === undefined ? ["delay"] : []),
};

export const timerRelay = definePart({
  kind: "timer-relay",
  letter: "K",
  title: "Timer relay",
  words: ["time delay relay", "delay timer", "pre-charge timer"],
  group: "switching",
  explanation: "A relay that waits: its contact moves a set time after the trigger comes, or after it goes.",
  parameters: {
    supplyVoltage: quantity("voltage", {
      title: "Supply voltage",
      explanation: "The voltage on which the timer works.",
      where: "Printed on the housing beside the supply terminals.",
      least: 0,
    }),
    delay: quantity("time", {
      title: "Delay",
      explanation: "How long it waits; a pre-charge needs several time constants of resistor and capacitors.",
      where: "The setting that you make on it.",
      least: 0,
    }),
    mode: choice(["on-delay", "off-delay"], {
      title: "Mode",
      explanation: "Waits before it switches on, or before it switches off.",
      where: "Selector on its front, or the diagram on the housing.",
    }),
    contactVoltage,
    contactCurrent,
  },
  terminals: () => terminals,
  supplyPairs: () => [{ plus: "supply+", minus: "supply-", polarised: true, direction: "input", main: false }],
  views,
  face: () => plainFace(terminals),
  circuit: ({ values, state }) => {
    const nominal = values.number("supplyVoltage") ?? ASSUMED_SUPPLY;
    const on = state["coil"] === true;
    return [
      resistance("supply", "supply+", "supply-", "load", (nominal * nominal) / SUPPLY_POWER),
      resistance("trigger", "trigger", "supply-", "sense", TRIGGER_INPUT),
      contact("no", "common", "no", on, "coil"),
      contact("nc", "common", "nc", !on, "coil"),
    ];
  },
  initial: () => ({ live: false, triggered: false, coil: false }),
  settle,
  inTime,
  limits: () => [],
  contacts: (values) => ["no", "nc"].map((side) => controlContact(values, side, "common", side)),
  traits: {},
  notes: [
    "A timer of unstated mode is taken as on-delay; of unstated supply voltage as a 12 V one.",
    "In a transition an unstated delay is taken as 1 s (common practice, no source).",
    "Its supply is taken to draw 1.2 W when solving.",
    SWITCHING_RATING_NOTE,
  ],
});
