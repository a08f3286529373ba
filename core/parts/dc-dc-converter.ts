/** DC-DC converter: makes the vehicle's 12 V from the pack, in place of the alternator. */
import type { Ampere, Ohm, Second, Watt } from "../quantity/kinds.ts";
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
import { inputPin, isFed, LOGIC_LEAST } from "./input-pin.ts";
import { caseLeak, isolation, sideLeaks, SLIGHT_LEAK } from "./leak.ts";
import { contact, resistance, tie } from "./make-element.ts";
import { choice, isolated, NO_YES, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { drawn, lead, letter, minusMark, pin, plusMark, rectangle, view } from "./symbol.ts";

/** What a regulated output gives way by (common practice, no source). */
const OUTPUT_RESISTANCE: Ohm = 5e-3;
/** Output of unstated current, when solving: as if nothing limited it. */
const UNLIMITED: Ampere = 1e4;
/** How often it tries to start on one feed before it is taken as unable to. */
const TRIES = 4;

/** Below this an output counts as idle, in watts. */
const LEAST_POWER: Watt = 0.01;

const REMARK = "cannot start on this feed";

const needsEnable = (values: Values): boolean => values.choice("enableInput") === "active-high";

const terminals = (values: Values): readonly TerminalSpec[] => [
  terminal("in+", "tab", true, "Input, plus"),
  terminal("in-", "tab", true, "Input, minus"),
  terminal("out+", "stud", true, "Output, plus"),
  terminal("out-", "stud", true, "Output, minus"),
  {
    ...terminal("enable", "tab", needsEnable(values), "Fed (against out-): on"),
    ...(values.choice("enableInput") === undefined ? { undecided: "enableInput" } : {}),
  },
  terminal("case", "stud", false, "Metal case, for the bond to chassis"),
];

/** Delivers, but its feed cannot carry the power that this takes: the input then draws nothing. */
function isStarved(sensed: Sensed): boolean {
  const delivered = sensed.through("output") * sensed.between("out+", "out-");
  return delivered > LEAST_POWER && sensed.through("input") * sensed.between("in+", "in-") < delivered / 2;
}

/**
 * On while it is enabled and the input holds. Where the input holds only as long as it draws nothing (a feed through a
 * resistor), it tries a few times in a state and is then off for good, with a remark: never chatter.
 */
function settle({ values, condition, state }: PartContext, sensed: Sensed): PartState {
  const tries = state["state"] === condition.state ? Number(state["tries"] ?? 0) : 0;
  const least = values.number("inputMin") ?? LOGIC_LEAST;
  const fed = sensed.between("in+", "in-") >= least && !isStarved(sensed);
  const enabled = !needsEnable(values) || (sensed.wired("enable") && isFed(sensed.between("enable", "out-")));
  if (!enabled) return { on: false };
  const at = (on: boolean, times: number): PartState =>
    times === 0 ? { on } : { on, state: condition.state, tries: times };
  if (state["on"] === true) return fed ? at(true, tries) : at(false, tries + 1);
  if (!fed) return at(false, tries);
  return tries >= TRIES ? { ...at(false, tries), remark: REMARK } : at(true, tries);
}

/** It starts up softly and stops at once (common practice, no source). */
const SOFT_START: Second = 0.1;
const inTime: InTime = { delays: (_, to) => ({ on: to["on"] === true ? SOFT_START : 0 }) };

function circuit({ values, state, wired }: PartContext): readonly Element[] {
  const on = state["on"] === true;
  const volts = values.number("outputVoltage") ?? 13.8;
  const leakage = values.number("reverseLeakage");
  const split = values.choice("isolated") !== "no";
  return [
    {
      type: "limited-source",
      name: "output",
      a: ":out",
      b: "out-",
      role: "source",
      emf: volts,
      resistance: OUTPUT_RESISTANCE,
      limit: values.number("outputCurrentMax") ?? UNLIMITED,
      oneWay: values.choice("backfeed") !== "yes",
    },
    contact("output-switch", ":out", "out+", on, "logic", 1e-3),
    resistance(
      "output-leak",
      "out+",
      "out-",
      "leak",
      leakage !== undefined && leakage > 0 ? volts / leakage : SLIGHT_LEAK,
    ),
    {
      type: "power-port",
      name: "input",
      a: "in+",
      b: "in-",
      role: "load",
      power: on ? undefined : 0,
      follows: "output",
      efficiency: values.number("efficiency") ?? 0.9,
      minimum: values.number("inputMin") ?? LOGIC_LEAST,
    },
    {
      type: "capacitor",
      name: "input-capacitor",
      a: "in+",
      b: "in-",
      role: "capacitor",
      capacitance: values.number("inputCapacitance"),
    },
    ...(wired("enable") ? [inputPin("enable", "out-", values)] : []),
    ...(split ? [] : [tie("common-minus", "in-", "out-")]),
    ...sideLeaks("input", "in+", "in-", values.number("isolation")),
    ...(split ? sideLeaks("output", "out+", "out-") : []),
    caseLeak(),
  ];
}

export const dcDcConverter = definePart({
  kind: "dc-dc-converter",
  letter: "T",
  title: "DC-DC converter",
  words: ["converter", "12 V supply", "step-down", "alternator replacement"],
  group: "sources",
  explanation: "Makes 12 V from the pack for lamps, pumps and coils, and keeps the 12 V battery charged.",
  parameters: {
    inputMin: quantity("voltage", {
      title: "Input, least",
      explanation: "The lowest input voltage on which it works.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
    inputMax: quantity("voltage", {
      title: "Input, most",
      explanation: "The highest input voltage that it stands; the pack on charge must stay below.",
      where: "Rating plate or data sheet.",
      least: 0,
    }),
    outputVoltage: quantity("voltage", {
      title: "Output voltage",
      explanation: "What it holds on its output.",
      where: "Rating plate; or measure with a small load.",
      default: "13.8 V",
      rating: true,
      least: 0,
    }),
    outputCurrentMax: quantity("current", {
      title: "Output current, most",
      explanation: "The most that it delivers; beyond it the 12 V battery has to help.",
      where: "Rating plate, or power divided by voltage.",
      least: 0,
    }),
    isolated: isolated({
      explanation: "Whether input and output have no metal connection; if not, the pack's minus is the 12 V minus.",
    }),
    enableInput: choice(["none", "active-high"], {
      title: "Enable input",
      explanation: "Active-high: it works only while its enable pin is fed.",
      where: "Data sheet or a third small wire.",
    }),
    inputCapacitance: quantity("capacitance", {
      title: "Input capacitance",
      explanation: "Capacitors at its input, which draw an inrush when it is connected.",
      where: "Data sheet; seldom given.",
      least: 0,
    }),
    backfeed: choice(NO_YES, {
      title: "Takes current back",
      explanation: "Whether a battery on its output can push current back into it.",
      where: "Data sheet; a diode in the output prevents it.",
    }),
    reverseLeakage: quantity("current", {
      title: "Reverse leakage",
      explanation: "What its output draws from the 12 V battery while it is off.",
      where: "Measure with an ammeter in the output lead while it is off.",
      least: 0,
    }),
    efficiency: quantity("ratio", {
      title: "Efficiency",
      explanation: "Power out divided by power in.",
      where: "Data sheet.",
      default: "90 %",
      least: 0.1,
      most: 1,
    }),
    isolation,
  },
  terminals,
  supplyPairs: () => [
    { plus: "in+", minus: "in-", polarised: true, direction: "input", main: true },
    { plus: "out+", minus: "out-", polarised: true, direction: "output", main: false },
  ],
  views: () => [
    view(
      "converter",
      "DC-DC converter",
      drawn(
        [
          rectangle(5, -2.5, 15, 15),
          lead(5, 12.5, 20, -2.5),
          letter(9, 1, "=", 2.5),
          letter(16, 9, "=", 2.5),
          lead(0, 0, 5, 0),
          lead(0, 10, 5, 10),
          lead(20, 0, 25, 0),
          lead(20, 10, 25, 10),
          ...plusMark(3, -1.5),
          ...minusMark(3, 8.5),
          ...plusMark(22, -1.5),
          ...minusMark(22, 8.5),
          lead(10, -2.5, 10, -7.5),
          lead(15, 12.5, 15, 17.5),
        ],
        [
          pin("in+", 0, 0, "left"),
          pin("in-", 0, 10, "left"),
          pin("out+", 25, 0, "right"),
          pin("out-", 25, 10, "right"),
          pin("enable", 10, -7.5, "up"),
          pin("case", 15, 17.5, "down"),
        ],
        // Beside the wire that leaves upwards from `enable`, above its name.
        { x: 11.5, y: -8.5, anchor: "start" },
      ),
    ),
  ],
  face: (values) => plainFace(terminals(values)),
  circuit,
  initial: () => ({ on: false }),
  settle,
  inTime,
  limits: (values) => [
    { parameter: "inputMax", kind: "voltage-across", a: "in+", b: "in-", value: values.number("inputMax") },
    { parameter: "inputMin", kind: "voltage-least", a: "in+", b: "in-", value: values.number("inputMin") },
    {
      parameter: "outputCurrentMax",
      kind: "current-through",
      a: "out+",
      b: "out-",
      element: "output",
      value: values.number("outputCurrentMax"),
    },
  ],
  traits: { load: true, converter: true },
  notes: [
    "Isolation between input and output unstated: solved as isolated; the checks that depend on it say not checked.",
    "Unstated when solving: least input 9 V, no limit of the output current, no enable input, takes no current back.",
    "A stated isolation counts at the input.",
  ],
});
