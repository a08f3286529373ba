/** Charger: mains to pack. What it does to the drive while plugged in matters as much as what it delivers. */
import type { Ampere, Ohm, Ratio, Second, Volt } from "../quantity/kinds.ts";
import { CHEMISTRIES } from "../standards/cells.ts";
import {
  definePart,
  type InTime,
  type PartContext,
  type PartState,
  type Sensed,
  type TerminalSpec,
  type Values,
} from "./define.ts";
import type { Element } from "./element.ts";
import { caseLeak, isolation, sideLeaks, windingLeak } from "./leak.ts";
import { contact, resistance, TIE, tie } from "./make-element.ts";
import { choice, isolated, NO_YES, quantity, YES_NO } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { labelledBox, lead, letter, rectangle, text, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** What a regulated output gives way by (common practice, no source). */
const OUTPUT_RESISTANCE: Ohm = 5e-3;
/** Output of unstated current, when solving: as if nothing limited it. */
const UNLIMITED: Ampere = 1e4;
/** Into its own output while off (common practice, no source). */
const OFF_LEAK: Ohm = 1e6;
/** 12 V while on mains (common practice, no source). */
const AUX: { readonly volts: Volt; readonly current: Ampere } = { volts: 12, current: 1 };
/** Mains count as there above this part of the input voltage (common practice, no source). */
const MAINS_LEAST: Ratio = 0.5;
/** A battery is detected above this part of the output voltage (common practice, no source). */
const BATTERY_LEAST: Ratio = 0.1;
const EFFICIENCY: Ratio = 0.9;

const NO_VOLTAGE = "states no output voltage, so that it delivers nothing";

const ownCord = (values: Values, wired: (terminal: string) => boolean): boolean => {
  const stated = values.choice("mainsPlug");
  return stated === undefined ? !wired("L") && !wired("N") : stated === "yes";
};

const terminals = (values: Values): readonly TerminalSpec[] => {
  const mains = values.choice("mainsPlug") !== "yes";
  const lines = together(
    [
      terminal("L", "tab", mains, "Mains, line"),
      terminal("N", "tab", mains, "Mains, neutral"),
      terminal("PE", "tab", mains, "Mains, protective earth"),
    ],
    // With a cord of its own the earth wire still goes to the vehicle's metal.
    mains ? ["L", "N", "PE"] : ["L", "N"],
  );
  return [
    ...(values.choice("mainsPlug") === undefined ? lines.map((line) => ({ ...line, undecided: "mainsPlug" })) : lines),
    terminal("out+", "stud", true, "Output, plus"),
    terminal("out-", "stud", true, "Output, minus"),
    ...together(
      [
        terminal("inhibit-1", "pin", false, "Contact that opens to hold the drive off"),
        terminal("inhibit-2", "pin", false, "Contact that opens to hold the drive off"),
        terminal("aux+", "pin", false, "12 V while on mains, plus"),
        terminal("aux-", "pin", false, "12 V while on mains, minus"),
      ],
      ["inhibit-1", "inhibit-2"],
      ["aux+", "aux-"],
    ),
    terminal("case", "stud", false, "Metal case, for the bond to chassis"),
  ];
};

function settle({ values, position, state, wired }: PartContext, sensed: Sensed): PartState {
  const volts = values.number("inputVoltage") ?? 230;
  const mains = ownCord(values, wired)
    ? position === "plugged"
    : Math.abs(sensed.between("L", "N")) >= MAINS_LEAST * volts;
  const output = values.number("outputVoltageMax");
  if (!mains) return { mains, charging: false };
  if (output === undefined) return { mains, charging: false, remark: NO_VOLTAGE };
  const detects = values.choice("batteryDetect") === "yes";
  const battery = state["charging"] === true || sensed.between("out+", "out-") >= BATTERY_LEAST * output;
  return { mains, charging: !detects || battery };
}

/** It looks at its mains and its battery before it delivers, and stops at once (common practice, no source). */
const SOFT_START: Second = 0.5;
const inTime: InTime = { delays: (_, to) => ({ charging: to["charging"] === true ? SOFT_START : 0 }) };

function circuit({ values, state }: PartContext): readonly Element[] {
  const mains = state["mains"] === true;
  const charging = state["charging"] === true;
  const inhibits = values.choice("inhibitFollows") === "plugged" ? mains : charging;
  return [
    {
      type: "limited-source",
      name: "output",
      a: ":out",
      b: "out-",
      role: "source",
      emf: values.number("outputVoltageMax") ?? 0,
      resistance: OUTPUT_RESISTANCE,
      limit: values.number("outputCurrentMax") ?? UNLIMITED,
      oneWay: true,
    },
    contact("output-switch", ":out", "out+", charging, "logic", 1e-3),
    resistance("off-leak", "out+", "out-", "leak", OFF_LEAK),
    {
      type: "capacitor",
      name: "output-capacitor",
      a: "out+",
      b: "out-",
      role: "capacitor",
      capacitance: values.number("outputCapacitance"),
    },
    {
      type: "power-port",
      name: "input",
      a: "L",
      b: "N",
      role: "load",
      power: charging ? undefined : 0,
      follows: "output",
      efficiency: EFFICIENCY,
      minimum: MAINS_LEAST * (values.number("inputVoltage") ?? 230),
    },
    contact("inhibit", "inhibit-1", "inhibit-2", !inhibits, "logic"),
    {
      type: "limited-source",
      name: "aux",
      a: "aux+",
      b: "aux-",
      role: "driver",
      emf: AUX.volts,
      resistance: 0.1,
      limit: mains ? AUX.current : 0,
      oneWay: true,
    },
    tie("protective-earth", "PE", "case"),
    ...(values.choice("isolated") === "no"
      ? [{ ...contact("common-neutral", "N", "out-", mains, "logic", TIE), role: "conductor" as const }]
      : []),
    ...sideLeaks("output", "out+", "out-", values.number("isolation")),
    windingLeak("leak-mains", "N"),
    windingLeak("leak-aux", "aux-"),
    caseLeak(),
  ];
}

export const charger = definePart({
  kind: "charger",
  letter: "T",
  title: "Charger",
  words: ["battery charger", "on-board charger", "mains charger"],
  group: "sources",
  explanation: "Charges the pack from the mains; while it is plugged in the vehicle must not be able to drive away.",
  parameters: {
    mainsPlug: choice(NO_YES, {
      title: "Own mains cord",
      explanation: "Whether it has its own cord and plug; else L, N and PE must be wired, to an inlet for example.",
      where: "Look at it.",
    }),
    chemistry: choice(CHEMISTRIES, {
      title: "Chemistry",
      explanation: "The kind of battery for which its charging steps are made.",
      where: "Rating plate, or the setting of its curve.",
    }),
    outputVoltageMax: quantity("voltage", {
      title: "Output voltage, most",
      explanation: "The voltage at which it ends charging; it must fit the pack's chemistry and number of cells.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
    outputCurrentMax: quantity("current", {
      title: "Output current, most",
      explanation: "The most that it delivers.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
    isolated: isolated({
      explanation: "Whether mains and pack have no metal connection; if not, the whole pack hangs on the mains.",
    }),
    inputVoltage: quantity("voltage", {
      title: "Input voltage",
      explanation: "The mains voltage for which it is made.",
      where: "Rating plate.",
      default: "230 V",
      rating: true,
      least: 0,
    }),
    inputCurrentMax: quantity("current", {
      title: "Input current, most",
      explanation: "What it draws from the mains at full power.",
      where: "Rating plate.",
      least: 0,
    }),
    outputCapacitance: quantity("capacitance", {
      title: "Output capacitance",
      explanation: "Capacitors at its output, onto which a contact towards the pack closes.",
      where: "Data sheet; seldom given.",
      least: 0,
    }),
    batteryDetect: choice(YES_NO, {
      title: "Detects the battery",
      explanation: "Whether it delivers only after it has seen a battery on its output.",
      where: "Data sheet; or measure the open output while on mains: nothing there means yes.",
    }),
    inhibitFollows: choice(["plugged", "charging"], {
      title: "Inhibit contact follows",
      explanation:
        "Whether the contact that holds the drive off opens as soon as it is plugged in, or only while charging.",
      where: "Data sheet.",
    }),
    residualCurrentDevice: choice(YES_NO, {
      title: "Residual-current device",
      explanation: "Whether its mains circuit has a device that cuts off when current leaks to earth.",
      where: "The house's distribution board, or a box in the cord, with a test button.",
    }),
    isolation,
  },
  terminals,
  supplyPairs: () => [
    { plus: "out+", minus: "out-", polarised: true, direction: "output", main: false },
    { plus: "L", minus: "N", polarised: false, direction: "input", main: false },
  ],
  views: () => [
    view(
      "charger",
      "Charger",
      labelledBox(
        ["L", "N", "PE", null, "inhibit-1", "inhibit-2"],
        ["out+", "out-", null, null, "aux+", "aux-"],
        "Charger",
        {
          below: ["case"],
          glyph: {
            list: [
              rectangle(-5, -5, 10, 10),
              lead(-5, 5, 5, -5),
              text(-2.3, -1.2, "~", 3.5),
              letter(2.2, 2.6, "=", 2.5),
            ],
            width: 12.5,
            height: 12.5,
          },
        },
      ),
    ),
  ],
  face: (values) => plainFace(terminals(values)),
  circuit,
  control: { positions: () => ["unplugged", "plugged"], at: (condition) => condition.mains, flip: false },
  initial: () => ({ mains: false, charging: false }),
  settle,
  inTime,
  limits: (values) => [
    {
      parameter: "outputCurrentMax",
      kind: "current-through",
      a: "out+",
      b: "out-",
      element: "output",
      value: values.number("outputCurrentMax"),
    },
    {
      parameter: "inputCurrentMax",
      kind: "current-through",
      a: "L",
      b: "N",
      element: "input",
      value: values.number("inputCurrentMax"),
    },
  ],
  traits: { load: true, charger: true },
  notes: [
    "Mains are solved as a direct voltage of the same size between L and N.",
    "Unstated when solving: own cord if neither L nor N is wired, isolated, no battery detection, inhibit follows charging, no limit of the output current. Without an output voltage it delivers nothing, and the state says so.",
    "Not isolated: N and out- are one metal while it is on mains. A stated isolation counts at the output.",
    "Efficiency 90 %, aux 12 V and 1 A, leak of the output while off 1 Mohm (common practice, no source).",
  ],
});
