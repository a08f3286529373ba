/** Relay: a coil and one or more small changeover contacts. */
import {
  coilAtRest,
  COIL_NOTES,
  coilElements,
  coilInTime,
  coilSpec,
  coilSupplyPairs,
  relayCoilParameters,
  settleCoil,
  suppressionParameter,
} from "./coil-drive.ts";
import { changeoverContact } from "./contact-symbol.ts";
import { definePart, type ContactSpec, type TerminalSpec, type Values, type View } from "./define.ts";
import { contact } from "./make-element.ts";
import { contactCurrent, contactVoltage, countOf, poles, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { coil, drawn, pin, view } from "./symbol.ts";
import { oneThrowAtLeast } from "./terminal-needs.ts";

/** A measured automotive relay had a 120 ohm coil on 12 V (published measurement; seen): 1.2 W. */
const ASSUMED_COIL_POWER = 1.2;

const suffixes = (values: Values): readonly string[] =>
  Array.from({ length: countOf(values.number("poles"), 1) }, (_, pole) => (pole === 0 ? "" : `-${String(pole + 1)}`));

function terminals(values: Values): readonly TerminalSpec[] {
  return [
    terminal("coil+", "tab", true, "Coil, plus"),
    terminal("coil-", "tab", true, "Coil, minus"),
    ...suffixes(values).flatMap((end) =>
      oneThrowAtLeast(
        [
          terminal(`common${end}`, "tab", end === "", "Common contact"),
          terminal(`no${end}`, "tab", false, "Open at rest"),
          terminal(`nc${end}`, "tab", false, "Closed at rest"),
        ],
        `common${end}`,
        [`no${end}`, `nc${end}`],
      ),
    ),
  ];
}

/** Coil, and one view for each contact: they are usually far apart on the sheet. */
function views(values: Values): readonly View[] {
  return [
    view("coil", "Coil", drawn(coil(0, 0), [pin("coil+", 0, 0, "left"), pin("coil-", 15, 0, "right")])),
    ...suffixes(values).map((end) =>
      view(
        `contact${end}`,
        end === "" ? "Contact" : `Contact ${end.slice(1)}`,
        drawn(changeoverContact(0, 0), [
          pin(`common${end}`, 0, 0, "left"),
          pin(`nc${end}`, 15, -2.5, "right"),
          pin(`no${end}`, 15, 2.5, "right"),
        ]),
      ),
    ),
  ];
}

export const relay = definePart({
  kind: "relay",
  letter: "K",
  title: "Relay",
  words: ["cube relay", "automotive relay", "changeover relay", "key relay", "pre-charge relay"],
  group: "switching",
  explanation: "A small switch that a coil moves: a little current in the coil switches a larger one in the contact.",
  parameters: {
    poles,
    ...relayCoilParameters,
    contactVoltage,
    contactCurrent,
    contactBreakDc: quantity("current", {
      title: "Breaking current, DC",
      explanation:
        "The highest direct current that the contact can interrupt; on high voltage it is far below its rating.",
      where: "Data sheet, the curve or table of DC load limits, at your voltage.",
      least: 0,
    }),
    suppression: suppressionParameter,
    closeTime: quantity("time", {
      title: "Operate time",
      explanation: "From the coil's switching on until the contacts have moved.",
      where: "Data sheet, operate time.",
      default: "10 ms",
      least: 0,
    }),
    openTime: quantity("time", {
      title: "Release time",
      explanation: "From the coil's switching off until the contacts have moved back, without a diode across the coil.",
      where: "Data sheet, release time.",
      default: "5 ms",
      least: 0,
    }),
  },
  terminals,
  supplyPairs: coilSupplyPairs,
  views,
  face: (values) => plainFace(terminals(values)),
  circuit: ({ values, state }) => {
    const on = state["coil"] === true;
    return [
      ...coilElements(values, state, ASSUMED_COIL_POWER),
      ...suffixes(values).flatMap((end) => [
        contact(`no${end}`, `common${end}`, `no${end}`, on, "coil"),
        contact(`nc${end}`, `common${end}`, `nc${end}`, !on, "coil"),
      ]),
    ];
  },
  initial: coilAtRest,
  settle: settleCoil,
  inTime: coilInTime,
  limits: () => [],
  coils: (values) => [coilSpec(values)],
  contacts: (values) =>
    suffixes(values).flatMap((end) =>
      ["no", "nc"].map(
        (side): ContactSpec => ({
          element: `${side}${end}`,
          a: `common${end}`,
          b: `${side}${end}`,
          voltage: values.number("contactVoltage"),
          continuous: values.number("contactCurrent"),
          make: values.number("contactCurrent"),
          breaking: values.number("contactBreakDc"),
          voltageParameter: "contactVoltage",
          continuousParameter: "contactCurrent",
          breakingParameter: "contactBreakDc",
          polarised: false,
        }),
      ),
    ),
  traits: {},
  notes: [
    ...COIL_NOTES,
    "A coil of unstated resistance is taken at 1.2 W when solving (a measured 12 V relay had 120 ohm; seen).",
    "Operate 10 ms and release 5 ms unless stated (common practice, no source).",
  ],
});
