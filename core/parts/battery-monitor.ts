/**
 * Battery monitor (battery management unit): watches cells through taps, switches charge and discharge between the
 * pack's minus and its own ports, and tells charger and controller when to stop.
 */
import { definePart, type Limit, type SupplyPair, type TerminalSpec, type Values, type View } from "./define.ts";
import type { Contact, Element } from "./element.ts";
import { contact, diode, resistance, tie } from "./make-element.ts";
import { choice, countOf, isolated, quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { type BoxPin, labelledBox, view } from "./symbol.ts";
import { neededBy, together } from "./terminal-needs.ts";

/** About 20 mA at 12 V; taps 1 Mohm each; outputs 0.1 ohm; serial pins 10 kohm (common practice, no source). */
const SUPPLY_INPUT = 600;
const PACK_INPUT = 100e3;
const TAP_INPUT = 1e6;
const SERIAL_INPUT = 10e3;
const OUTPUT_RESISTANCE = 0.1;
const SWITCH_RESISTANCE = 1e-3;
/** Less than one cell of any chemistry: then nothing supplies it. */
const LEAST_SUPPLY = 1;
/** Its own outputs, in the order of its terminals. */
const OUTPUTS = ["charge-enable", "discharge-enable", "alarm"] as const;

const tapsOf = (values: Values): number => countOf(values.number("taps"), 0);
const tapIds = (values: Values): readonly string[] =>
  tapsOf(values) === 0 ? [] : Array.from({ length: tapsOf(values) + 1 }, (_, index) => `tap-${String(index)}`);
/** Neighbouring taps, upper first. */
const tapPairs = (values: Values): readonly { readonly upper: string; readonly lower: string }[] =>
  Array.from({ length: tapsOf(values) }, (_, index) => ({
    upper: `tap-${String(index + 1)}`,
    lower: `tap-${String(index)}`,
  }));

const terminals = (values: Values): readonly TerminalSpec[] => {
  const inUse = neededBy(together(every(values), tapIds(values)), "B-", "P-", "C-");
  return values.choice("isolated") === "yes" ? together(inUse, ["supply+", "supply-"]) : inUse;
};

const every = (values: Values): readonly TerminalSpec[] => [
  terminal("B-", "stud", false, "Minus of the pack"),
  terminal("P-", "stud", false, "Minus towards the drive"),
  terminal("C-", "stud", false, "Minus towards the charger"),
  terminal("pack+", "tab", false, "Plus of the pack"),
  terminal("supply+", "tab", false, "Supply, plus"),
  terminal("supply-", "tab", false, "Supply, minus"),
  terminal("charge-enable", "pin", false, "Allows charging"),
  terminal("discharge-enable", "pin", false, "Allows driving"),
  terminal("alarm", "pin", false, "Alarm"),
  terminal("serial-tx", "pin", false, "Serial, sends"),
  terminal("serial-rx", "pin", false, "Serial, receives"),
  terminal("serial-ground", "pin", false, "Serial, ground"),
  ...tapIds(values).map((id) => terminal(id, "pin", false, "Cell tap, counted from the pack's minus", "taps")),
];

/** High-side outputs give supply plus, all others pull to supply minus. */
function output(values: Values, id: string, closed: boolean): Contact {
  const [a, b] = values.choice("outputType") === "high-side" ? ["supply+", id] : [id, "supply-"];
  return { ...contact(id, a, b, closed, "logic", OUTPUT_RESISTANCE), role: "driver" };
}

/**
 * Discharge current enters at P-, charge current leaves at C-; off, each transistor blocks its own direction only,
 * its body diode lets the other pass.
 */
function circuit(values: Values, on: boolean): readonly Element[] {
  return [
    contact("discharge", "P-", "B-", on, "logic", SWITCH_RESISTANCE),
    diode("discharge-diode", "B-", "P-"),
    contact("charge", "B-", "C-", on, "logic", SWITCH_RESISTANCE),
    diode("charge-diode", "C-", "B-"),
    resistance("pack", "pack+", "B-", "sense", PACK_INPUT),
    resistance("supply", "supply+", "supply-", "sense", SUPPLY_INPUT),
    // In the built-in states the cells are well: both enables are given, the alarm is not.
    ...OUTPUTS.map((id) => output(values, id, on && id !== "alarm")),
    resistance("serial-tx", "serial-tx", "serial-ground", "sense", SERIAL_INPUT),
    resistance("serial-rx", "serial-rx", "serial-ground", "sense", SERIAL_INPUT),
    ...(values.choice("isolated") === "no"
      ? [tie("tie", "supply-", "B-"), tie("serial-tie", "serial-ground", "B-")]
      : []),
    ...tapPairs(values).map(({ upper, lower }) => resistance(`sense-${upper}`, upper, lower, "sense", TAP_INPUT)),
  ];
}

function views(values: Values): readonly View[] {
  const left: readonly BoxPin[] = ["B-", "P-", "C-", "pack+", "supply+", "supply-"];
  const right: readonly BoxPin[] = [...OUTPUTS, "serial-tx", "serial-rx", "serial-ground"];
  const taps = tapIds(values);
  const main = view("main", "Battery monitor", labelledBox(left, right, "Battery monitor"));
  return taps.length === 0 ? [main] : [main, view("taps", "Cell taps", labelledBox([...taps].reverse(), [], "Taps"))];
}

function limits(values: Values): readonly Limit[] {
  return [
    {
      parameter: "currentDischarge",
      kind: "current-through",
      a: "P-",
      b: "B-",
      element: "discharge",
      value: values.number("currentDischarge"),
    },
    {
      parameter: "currentCharge",
      kind: "current-through",
      a: "B-",
      b: "C-",
      element: "charge",
      value: values.number("currentCharge"),
    },
    ...OUTPUTS.flatMap((id): readonly Limit[] => [
      {
        parameter: "outputCurrent",
        kind: "current-through",
        a: id,
        b: "supply-",
        element: id,
        value: values.number("outputCurrent"),
      },
      {
        parameter: "outputVoltage",
        kind: "voltage-across",
        a: id,
        b: "supply-",
        value: values.number("outputVoltage"),
      },
    ]),
  ];
}

const input = (plus: string, minus: string): SupplyPair => ({
  plus,
  minus,
  polarised: true,
  direction: "input",
  main: false,
});

export const batteryMonitor = definePart({
  kind: "battery-monitor",
  letter: "B",
  title: "Battery monitor",
  words: ["BMS", "battery management system", "cell monitor", "protection board", "balancer"],
  group: "sensors",
  explanation: "Watches every cell and stops charging or driving before one is overfilled or emptied.",
  parameters: {
    taps: quantity("count", {
      title: "Cells tapped",
      explanation: "How many cells in series it watches: it has one tap wire more than that.",
      where: "Data sheet, for example 16S.",
      least: 1,
      most: 200,
      whole: true,
    }),
    currentDischarge: quantity("current", {
      title: "Discharge current",
      explanation: "The current that it passes for good from P- to B- while driving.",
      where: "Printed on it or in its data sheet.",
      least: 0,
    }),
    currentCharge: quantity("current", {
      title: "Charge current",
      explanation: "The current that it passes for good from B- to C- while charging.",
      where: "Printed on it or in its data sheet.",
      least: 0,
    }),
    outputType: choice(["high-side", "low-side", "relay"], {
      title: "Outputs",
      explanation:
        "Whether an active output gives its supply plus (high-side), pulls to minus (low-side) or is a relay.",
      where: "Data sheet, output circuit.",
    }),
    outputCurrent: quantity("current", {
      title: "Output current",
      explanation: "The current that one output can switch.",
      where: "Data sheet, outputs.",
      least: 0,
    }),
    outputVoltage: quantity("voltage", {
      title: "Output voltage",
      explanation: "The highest voltage that an output stands.",
      where: "Data sheet, outputs.",
      least: 0,
    }),
    isolated: isolated({
      explanation:
        "Whether its supply and serial line are separate from the pack; if not, their minus is joined to the pack's minus.",
    }),
  },
  terminals,
  supplyPairs: (values) => [
    input("supply+", "supply-"),
    input("pack+", "B-"),
    ...tapPairs(values).map(({ upper, lower }) => input(upper, lower)),
  ],
  views,
  face: (values) => plainFace(terminals(values)),
  circuit: ({ values, state }) => circuit(values, state["on"] === true),
  initial: () => ({ on: false }),
  settle: ({ values }, sensed) => {
    const feeds = [
      ["supply+", "supply-"],
      ["pack+", "B-"],
      [`tap-${String(tapsOf(values))}`, "tap-0"],
    ] as const;
    const wired = feeds.filter(([plus]) => sensed.wired(plus));
    // Drawn in outline, without any supply: taken as working, for nothing on the drawing says otherwise.
    return { on: wired.length === 0 || wired.some(([plus, minus]) => sensed.between(plus, minus) > LEAST_SUPPLY) };
  },
  limits,
  traits: { monitor: true },
  notes: [
    "In the built-in states the cells are taken to be well: it gives both enables and no alarm, once supplied.",
    "Outputs of unstated kind, and relay outputs, are taken to pull to supply minus.",
    "Where nobody stated whether it is isolated, no tie is drawn in the circuit: what depends on it is not checked.",
  ],
});
