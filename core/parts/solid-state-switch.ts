/** Solid-state switch: a power transistor that a small voltage turns on; its body diode always conducts backwards. */
import { definePart, type TerminalSpec, type Values, type View } from "./define.ts";
import type { Element } from "./element.ts";
import { makeContact } from "./contact-symbol.ts";
import { contact, diode, POWER_CONTACT, resistance } from "./make-element.ts";
import { choice, quantity, YES_NO } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { arrow, diodeMark, drawn, lead, moved, pin, rectangle, stroke, view } from "./symbol.ts";

/** Solid-state relays for DC control turn on from 3 V (common practice, no source). */
const ASSUMED_CONTROL_MIN = 3;
/** Control input about 10 mA at 12 V (common practice, no source). */
const CONTROL_INPUT = 1.2e3;

const terminals: readonly TerminalSpec[] = [
  terminal("line", "stud", true, "Towards the source"),
  terminal("load", "stud", true, "Towards the load"),
  terminal("control+", "tab", true, "Control, plus"),
  terminal("control-", "tab", true, "Control, minus"),
];

function views(values: Values): readonly View[] {
  const body = values.choice("bodyDiode") !== "no";
  return [
    view(
      "main",
      "Solid-state switch",
      drawn(
        [
          rectangle(5, -6, 15, 18.5),
          ...moved(makeContact(0, 0), 5, 0),
          lead(0, 0, 5, 0),
          lead(20, 0, 25, 0),
          ...(body
            ? [
                stroke([
                  [7, 0],
                  [7, 3.5],
                  [18, 3.5],
                  [18, 0],
                ]),
                // Anode at the load side: the triangle points back towards the line.
                ...diodeMark(-1.25, 0).map((item) =>
                  item.draw === "line"
                    ? { ...item, points: item.points.map(([x, y]) => [12.5 - x, 3.5 + y] as const) }
                    : item,
                ),
              ]
            : []),
          // The control side: a light-emitting diode, no metal joins it to the contact.
          lead(0, 10, 8, 10),
          ...moved(diodeMark(0, 0), 8, 10),
          lead(10.5, 10, 25, 10),
          ...arrow(10, 8, 12, 6),
          ...arrow(12, 8.4, 14, 6.4),
        ],
        [
          pin("line", 0, 0, "left"),
          pin("load", 25, 0, "right"),
          pin("control+", 0, 10, "left"),
          pin("control-", 25, 10, "right"),
        ],
      ),
    ),
  ];
}

function circuit(values: Values, on: boolean): readonly Element[] {
  const volts = values.number("voltageMax");
  const leakage = values.number("offLeakage");
  return [
    contact("contact", "line", "load", on, "logic", POWER_CONTACT),
    ...(values.choice("bodyDiode") === "no" ? [] : [diode("body-diode", "load", "line")]),
    ...(volts !== undefined && leakage !== undefined && leakage > 0
      ? [resistance("off-leakage", "line", "load", "leak", volts / leakage)]
      : []),
    resistance("control", "control+", "control-", "sense", CONTROL_INPUT),
  ];
}

export const solidStateSwitch = definePart({
  kind: "solid-state-switch",
  letter: "Q",
  title: "Solid-state switch",
  words: ["solid state relay", "SSR", "MOSFET switch", "electronic relay", "high-side switch"],
  group: "switching",
  explanation:
    "A power transistor used as a switch: nothing moves, but it never quite isolates and conducts backwards.",
  parameters: {
    voltageMax: quantity("voltage", {
      title: "Highest voltage",
      explanation: "The highest voltage that it holds off while off.",
      where: "Rating plate or data sheet, load side, direct current.",
      least: 0,
    }),
    currentContinuous: quantity("current", {
      title: "Continuous current",
      explanation: "The current that it carries for good on the heat sink that you give it.",
      where: "Data sheet, the curve for your heat sink.",
      least: 0,
    }),
    bodyDiode: choice(YES_NO, {
      title: "Body diode",
      explanation: "Whether a diode inside lets current pass from load to line even while it is off.",
      where: "Data sheet; a plain power transistor has one.",
      default: "yes",
    }),
    controlMin: quantity("voltage", {
      title: "Control voltage, least",
      explanation: "The control voltage from which it is certain to be on.",
      where: "Rating plate, control side, for example 3-32 V.",
      least: 0,
    }),
    controlMax: quantity("voltage", {
      title: "Control voltage, most",
      explanation: "The highest control voltage that its input stands.",
      where: "Rating plate, control side, for example 3-32 V.",
      least: 0,
    }),
    offLeakage: quantity("current", {
      title: "Leakage while off",
      explanation: "The small current that passes while it is off; it keeps capacitors charged.",
      where: "Data sheet, off-state leakage at the highest voltage.",
      least: 0,
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [{ plus: "control+", minus: "control-", polarised: true, direction: "input", main: false }],
  views,
  face: () => plainFace(terminals),
  circuit: ({ values, state }) => circuit(values, state["on"] === true),
  initial: () => ({ on: false }),
  settle: ({ values }, sensed) => ({
    on: sensed.between("control+", "control-") >= (values.number("controlMin") ?? ASSUMED_CONTROL_MIN),
  }),
  limits: (values) => [
    {
      parameter: "controlMax",
      kind: "voltage-across",
      a: "control+",
      b: "control-",
      value: values.number("controlMax"),
    },
  ],
  contacts: (values) => [
    {
      element: "contact",
      a: "line",
      b: "load",
      voltage: values.number("voltageMax"),
      continuous: values.number("currentContinuous"),
      make: values.number("currentContinuous"),
      breaking: values.number("currentContinuous"),
      voltageParameter: "voltageMax",
      continuousParameter: "currentContinuous",
      polarised: false,
    },
  ],
  traits: {},
  notes: [
    "Unstated least control voltage: 3 V when solving; the control input is taken as 1.2 kohm.",
    "What it carries it may also make and break.",
  ],
});
