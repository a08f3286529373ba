/** Main contactor: normally open power contacts that a coil closes. */
import type { DisplayList } from "../geometry/display.ts";
import {
  coilAtRest,
  COIL_NOTES,
  coilElements,
  coilInTime,
  coilSpec,
  coilSupplyPairs,
  contactorCoilParameters,
  economiserParameter,
  settleCoil,
  suppressionParameter,
} from "./coil-drive.ts";
import { breakContact, ganged, mainContactMark, makeContact } from "./contact-symbol.ts";
import { definePart, type Face, type ParameterSpec, type TerminalSpec, type Values, type View } from "./define.ts";
import { contact, POWER_CONTACT } from "./make-element.ts";
import { choice, countOf, NO_YES, poles, quantity, yesNo } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { coil, drawn, pin, pinPair, view, type Pin } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** A contactor coil of unstated power is taken at 10 W when solving (common practice, no source). */
const ASSUMED_COIL_POWER = 10;

/** Ratings and times of a contactor's power contacts, shared with the changeover contactor. */
export const contactorParameters: Readonly<Record<string, ParameterSpec>> = {
  ...contactorCoilParameters,
  contactVoltage: quantity("voltage", {
    title: "Contact voltage",
    explanation: "The highest direct voltage that the open contacts may hold off and break; above it the arc stays.",
    where: "Rating plate or data sheet, under direct current (DC).",
    least: 0,
  }),
  currentContinuous: quantity("current", {
    title: "Continuous current",
    explanation: "The current that the closed contacts may carry for good.",
    where: "Rating plate or data sheet, for the cable size that you use.",
    least: 0,
  }),
  currentMake: quantity("current", {
    title: "Making current",
    explanation: "The highest current onto which the contacts may close without welding.",
    where: "Data sheet, making or inrush current.",
    least: 0,
  }),
  currentBreak: quantity("current", {
    title: "Breaking current",
    explanation: "The highest direct current that the contacts can interrupt at their voltage.",
    where: "Data sheet, breaking current at the pack's voltage.",
    least: 0,
  }),
  polarised: choice(NO_YES, {
    title: "Polarised",
    explanation: "Whether the contacts break safely in one direction only, with line towards the source.",
    where: "A plus sign or an arrow at the power terminals, or the data sheet.",
  }),
  suppression: suppressionParameter,
  economiser: economiserParameter,
  aux: choice(["make", "break"], {
    title: "Auxiliary contact",
    explanation: "What the small contact that follows the main ones does when they close: make or break.",
    where: "Data sheet, or try with a multimeter: open at rest is make.",
  }),
  contactResistance: quantity("resistance", {
    title: "Contact resistance",
    explanation: "Resistance of a closed contact; it heats the terminals.",
    where: "Data sheet, or volts across the closed contact divided by the current.",
    default: "0.3 mohm",
    least: 0,
  }),
  closeTime: quantity("time", {
    title: "Closing time",
    explanation: "From the coil's switching on until the contacts touch.",
    where: "Data sheet.",
    default: "25 ms",
    least: 0,
  }),
  openTime: quantity("time", {
    title: "Opening time",
    explanation: "From the coil's switching off until the contacts part, without a diode across the coil.",
    where: "Data sheet.",
    default: "12 ms",
    least: 0,
  }),
};

const suffix = (pole: number): string => (pole === 0 ? "" : `-${String(pole + 1)}`);
const polesOf = (values: Values): number => countOf(values.number("poles"), 1);
const eachPole = <T>(values: Values, make: (end: string) => T): T[] =>
  Array.from({ length: polesOf(values) }, (_, pole) => make(suffix(pole)));

function terminals(values: Values): readonly TerminalSpec[] {
  return [
    ...eachPole(values, (end) =>
      together(
        [
          terminal(`line${end}`, "stud", end === "", "Power contact, towards the source"),
          terminal(`load${end}`, "stud", end === "", "Power contact, towards the load"),
        ],
        [`line${end}`, `load${end}`],
      ),
    ).flat(),
    terminal("coil+", "tab", true, "Coil, plus"),
    terminal("coil-", "tab", true, "Coil, minus"),
    ...together(
      [terminal("aux-1", "tab", false, "Auxiliary contact"), terminal("aux-2", "tab", false, "Auxiliary contact")],
      ["aux-1", "aux-2"],
    ),
  ];
}

const pole = (x: number, y: number): DisplayList => [...makeContact(x, y), ...mainContactMark(x, y)];

function views(values: Values): readonly View[] {
  const pins: Pin[] = eachPole(values, (end) => end).flatMap((end, row) =>
    pinPair(`line${end}`, `load${end}`, 15, row * 10),
  );
  return [
    view("contact", "Power contacts", drawn(ganged(pole, polesOf(values), 10), pins)),
    view("coil", "Coil", drawn(coil(0, 0), [pin("coil+", 0, 0, "left"), pin("coil-", 15, 0, "right")])),
    view(
      "aux",
      "Auxiliary contact",
      drawn(values.choice("aux") === "break" ? breakContact(0, 0) : makeContact(0, 0), pinPair("aux-1", "aux-2")),
    ),
  ];
}

/** 60 x 60 mm, two M8 studs, coil tabs below; further poles to the right. */
function face(values: Values): Face {
  if (polesOf(values) > 1) return plainFace(terminals(values));
  return {
    width: 60,
    height: 60,
    terminals: {
      line: { x: 15, y: 50, stud: "M8" },
      load: { x: 45, y: 50, stud: "M8" },
      "coil+": { x: 20, y: 5 },
      "coil-": { x: 40, y: 5 },
      "aux-1": { x: 8, y: 20 },
      "aux-2": { x: 52, y: 20 },
    },
    plugs: [],
    byDefault: true,
  };
}

export const contactor = definePart({
  kind: "contactor",
  letter: "Q",
  title: "Contactor",
  words: ["main contactor", "solenoid", "power relay", "main switch", "pre-charge contactor", "isolator"],
  group: "switching",
  explanation: "A heavy switch that a coil closes: it connects the pack to the drive and lets go when the coil is off.",
  parameters: { poles, ...contactorParameters },
  terminals,
  supplyPairs: coilSupplyPairs,
  views,
  face,
  circuit: ({ values, state }) => {
    const closed = state["coil"] === true;
    const auxClosed = values.choice("aux") === "break" ? !closed : closed;
    return [
      ...coilElements(values, state, ASSUMED_COIL_POWER),
      ...eachPole(values, (end) =>
        contact(
          `contact${end}`,
          `line${end}`,
          `load${end}`,
          closed,
          "coil",
          values.number("contactResistance") ?? POWER_CONTACT,
        ),
      ),
      contact("aux", "aux-1", "aux-2", auxClosed, "coil"),
    ];
  },
  initial: coilAtRest,
  settle: settleCoil,
  inTime: coilInTime,
  limits: () => [],
  coils: (values) => [coilSpec(values)],
  contacts: (values) =>
    eachPole(values, (end) => ({
      element: `contact${end}`,
      a: `line${end}`,
      b: `load${end}`,
      voltage: values.number("contactVoltage"),
      continuous: values.number("currentContinuous"),
      make: values.number("currentMake"),
      breaking: values.number("currentBreak"),
      voltageParameter: "contactVoltage",
      continuousParameter: "currentContinuous",
      makeParameter: "currentMake",
      breakingParameter: "currentBreak",
      polarised: yesNo(values.choice("polarised")),
    })),
  traits: { contactor: true },
  notes: [
    ...COIL_NOTES,
    "A coil of unstated power and resistance is taken at 10 W when solving (common practice, no source).",
    "An auxiliary contact of unstated kind is taken as a make contact.",
  ],
});
