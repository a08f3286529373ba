/** Changeover contactor: a break and a make power contact on one coil; two of them make a reversing set. */
import {
  coilAtRest,
  coilInTime,
  COIL_NOTES,
  coilElements,
  coilSpec,
  coilSupplyPairs,
  settleCoil,
} from "./coil-drive.ts";
import { changeoverContact } from "./contact-symbol.ts";
import { contactorParameters } from "./contactor.ts";
import { definePart, type ParameterSpec, type TerminalSpec, type Values, type View } from "./define.ts";
import { contact, POWER_CONTACT } from "./make-element.ts";
import { yesNo } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { arc, coil, drawn, pin, view } from "./symbol.ts";
import { oneThrowAtLeast } from "./terminal-needs.ts";

/** A changeover contactor's coil of unstated power is taken at 10 W when solving (common practice, no source). */
const ASSUMED_COIL_POWER = 10;

/** All of a contactor's but the auxiliary contact, which this kind has not. */
const parameters: Readonly<Record<string, ParameterSpec>> = Object.fromEntries(
  Object.entries(contactorParameters).filter(([name]) => name !== "aux"),
);

const terminals: readonly TerminalSpec[] = oneThrowAtLeast(
  [
    terminal("common", "stud", true, "Common power contact"),
    terminal("nc", "stud", false, "Closed at rest"),
    terminal("no", "stud", false, "Closed when the coil is on"),
    terminal("coil+", "tab", true, "Coil, plus"),
    terminal("coil-", "tab", true, "Coil, minus"),
  ],
  "common",
  ["no", "nc"],
);

const views: readonly View[] = [
  view(
    "contact",
    "Power contacts",
    drawn(
      [...changeoverContact(0, 0), arc(10.9, 2.5, 0.9, 180, 360), arc(10.9, -2.5, 0.9, 0, 180)],
      [pin("common", 0, 0, "left"), pin("nc", 15, -2.5, "right"), pin("no", 15, 2.5, "right")],
    ),
  ),
  view("coil", "Coil", drawn(coil(0, 0), [pin("coil+", 0, 0, "left"), pin("coil-", 15, 0, "right")])),
];

const ratings = (values: Values, element: string, b: string) => ({
  element,
  a: "common",
  b,
  voltage: values.number("contactVoltage"),
  continuous: values.number("currentContinuous"),
  make: values.number("currentMake"),
  breaking: values.number("currentBreak"),
  voltageParameter: "contactVoltage",
  continuousParameter: "currentContinuous",
  makeParameter: "currentMake",
  breakingParameter: "currentBreak",
  polarised: yesNo(values.choice("polarised")),
});

export const changeoverContactor = definePart({
  kind: "changeover-contactor",
  letter: "Q",
  title: "Changeover contactor",
  words: ["reversing contactor", "reverser", "changeover solenoid", "two-way contactor"],
  group: "switching",
  explanation: "A power contact that moves from one stud to another when its coil is on; two of them reverse a motor.",
  parameters,
  terminals: () => terminals,
  supplyPairs: coilSupplyPairs,
  views: () => views,
  face: () => plainFace(terminals),
  circuit: ({ values, state }) => {
    const on = state["coil"] === true;
    const ohms = values.number("contactResistance") ?? POWER_CONTACT;
    return [
      ...coilElements(values, state, ASSUMED_COIL_POWER),
      contact("nc", "common", "nc", !on, "coil", ohms),
      contact("no", "common", "no", on, "coil", ohms),
    ];
  },
  initial: coilAtRest,
  settle: settleCoil,
  inTime: coilInTime,
  limits: () => [],
  coils: (values) => [coilSpec(values)],
  contacts: (values) => [ratings(values, "nc", "nc"), ratings(values, "no", "no")],
  traits: { contactor: true },
  notes: [
    ...COIL_NOTES,
    "A coil of unstated power and resistance is taken at 10 W when solving (common practice, no source).",
    "Its two contacts are taken to break before they make.",
  ],
});
