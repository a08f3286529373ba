/** Elements that every controller has: bus, logic supply, control pins, drivers, serial port, leaks. */
import type { Ampere, Ohm, Volt } from "../quantity/kinds.ts";
import { drivingCurrent, isLive } from "./controller-logic.ts";
import { referenceOf } from "./controller-terminals.ts";
import { throttleElements, throttleWired } from "./controller-throttle.ts";
import type { Limit, PartContext, Values } from "./define.ts";
import type { CurrentPort, Element, Role } from "./element.ts";
import { driver, inputPin, logicSupply } from "./input-pin.ts";
import { caseLeak, sideLeaks, windingLeak } from "./leak.ts";
import { diode, resistance, tie } from "./make-element.ts";

/** Power transistors fully on (common practice, no source). */
const OUTPUT_ON: Ohm = 1e-3;
/** Power transistors off: next to nothing (common practice, no source). */
const OUTPUT_OFF: Ohm = 10e6;
/** Sense inputs and ports (common practice, no source). */
const SENSE_INPUT: Ohm = 1e6;
const PORT_INPUT: Ohm = 10e3;
/** Pre-charge inside: usual resistor, and the current of a small converter (common practice, no source). */
const INTERNAL_PRECHARGE: Ohm = 1000;
const INTERNAL_CHARGE_CURRENT: Ampere = 0.1;
/** A clamp that conducts (common practice, no source). */
const CLAMP_RESISTANCE: Ohm = 0.1;
/** Bias of charge-inhibit: half of 5 V behind 100 kohm, so that closed to either side reads closed (common practice, no source). */
const INHIBIT_BIAS = { volts: 2.5, ohms: 100e3 } as const satisfies { volts: Volt; ohms: Ohm };

const DRIVER_OUTPUTS = [
  ["contactor-out", "contactor"],
  ["precharge-out", "precharge"],
  ["brake-lamp-out", "brake-lamp"],
] as const;
const SWITCH_INPUTS = ["interlock", "forward", "reverse", "brake"] as const;

/**
 * The output stage as a current from `a` to `b`: the motor current while driving, its negative up to the cut voltage
 * while regenerating, nothing while off.
 */
export function outputStage(context: PartContext, a: string, b: string, role: Role): CurrentPort {
  const { values, state } = context;
  const current = drivingCurrent(context) ?? 0;
  const common = { type: "current-port", name: "output-stage", a, b, role } as const;
  switch (state["drive"]) {
    case "forward":
    case "reverse":
      return { ...common, current, resistance: OUTPUT_ON };
    case "regeneration": {
      const ceiling =
        values.number("regenerationCutVoltage") ?? values.number("voltageMax") ?? values.number("nominalMax");
      return { ...common, current: -current, resistance: OUTPUT_ON, ...(ceiling === undefined ? {} : { ceiling }) };
    }
    default:
      return { ...common, current: 0, resistance: OUTPUT_OFF };
  }
}

/**
 * Bus: capacitors, bleeder, and the body diodes of the output stage from B- to B+. Where no bleeder is stated, only the
 * controller's own measurement of the bus lies across it.
 */
export const busElements = (values: Values): readonly Element[] => [
  {
    type: "capacitor",
    name: "bus-capacitor",
    a: "B+",
    b: "B-",
    role: "capacitor",
    capacitance: values.number("inputCapacitance"),
  },
  resistance("bleeder", "B+", "B-", "resistor", values.number("bleedResistance") ?? SENSE_INPUT),
  diode("body-diode", "B-", "B+"),
];

function driverOn(context: PartContext, output: string): boolean {
  const { state } = context;
  if (!isLive(state)) return false;
  return output === "brake-lamp" ? state["drive"] === "regeneration" : state[output] === true;
}

function driverElements(context: PartContext, reference: string): readonly Element[] {
  const { values } = context;
  const side = values.choice("contactorDriver");
  if (side !== "high-side" && side !== "low-side") return [];
  const clamp = values.number("driverClamp");
  return DRIVER_OUTPUTS.flatMap(([pin, output]): Element[] => {
    const [a, b] = side === "high-side" ? ["logic+", pin] : [pin, reference];
    const transistor = driver(`${output}-driver`, a, b, driverOn(context, output));
    if (clamp === undefined) return [transistor];
    return [
      transistor,
      {
        type: "clamp",
        name: `${output}-clamp`,
        a,
        b,
        role: "driver",
        clamp,
        resistance: CLAMP_RESISTANCE,
        oneWay: true,
      },
    ];
  });
}

/** Charges the bus from pack-sense or a pack-fed logic supply, else with a small converter, until the contactor is in. */
function internalPrecharge(context: PartContext, reference: string): readonly Element[] {
  const { values, state, wired } = context;
  if (values.choice("prechargeInternal") !== "yes") return [];
  const on = state["precharge"] === true;
  const from = wired("pack-sense")
    ? "pack-sense"
    : reference === "B-" && values.choice("logicFeed") === "pack-fed"
      ? "logic+"
      : undefined;
  if (from !== undefined) return [driver("internal-precharge", from, "B+", on, INTERNAL_PRECHARGE)];
  return [
    {
      type: "limited-source",
      name: "internal-precharge",
      a: "B+",
      b: "B-",
      role: "driver",
      emf: values.number("nominalMin") ?? values.number("voltageMin") ?? 0,
      resistance: INTERNAL_PRECHARGE,
      limit: on ? INTERNAL_CHARGE_CURRENT : 0,
      oneWay: true,
    },
  ];
}

function pinElements(context: PartContext, reference: string): readonly Element[] {
  const { values, state, wired } = context;
  const live = isLive(state);
  // A pack-fed input is fed with the pack's voltage, any other with 12 V.
  const nominal = values.choice("logicFeed") === "pack-fed" ? (values.number("nominalMin") ?? 12) : 12;
  const elements: Element[] = [];
  if (wired("pack-sense")) elements.push(resistance("pack-sense", "pack-sense", "B-", "sense", SENSE_INPUT));
  if (throttleWired(wired)) elements.push(...throttleElements(values, reference, live));
  for (const pin of SWITCH_INPUTS) if (wired(pin)) elements.push(inputPin(pin, reference, values, nominal));
  if (wired("charge-inhibit")) {
    elements.push({
      type: "source",
      name: "charge-inhibit-bias",
      a: "charge-inhibit",
      b: reference,
      role: "sense",
      emf: live ? INHIBIT_BIAS.volts : 0,
      resistance: INHIBIT_BIAS.ohms,
      storage: false,
    });
  }
  return elements;
}

/** Serial port: its inputs to its own ground; that is B- unless the port is isolated (unstated: not tied). */
function serialElements(values: Values, wired: (terminal: string) => boolean): readonly Element[] {
  if (!wired("serial-tx") && !wired("serial-rx") && !wired("serial-ground")) return [];
  return [
    resistance("serial-tx", "serial-tx", "serial-ground", "sense", PORT_INPUT),
    resistance("serial-rx", "serial-rx", "serial-ground", "sense", PORT_INPUT),
    values.choice("serialIsolated") === "no"
      ? tie("serial-ground", "serial-ground", "B-")
      : windingLeak("leak-serial", "serial-ground"),
  ];
}

/** Everything but bus and output stage. */
export function controlElements(context: PartContext): readonly Element[] {
  const { values, wired } = context;
  const reference = referenceOf(values, wired);
  const feed = values.choice("logicFeed");
  return [
    logicSupply("logic+", reference, values.number("logicCurrent")),
    ...(feed === "shared-12v" ? [tie("logic-return", "logic-", "B-")] : []),
    ...pinElements(context, reference),
    ...driverElements(context, reference),
    ...internalPrecharge(context, reference),
    ...serialElements(values, wired),
    ...sideLeaks("pack", "B+", "B-", values.number("isolation")),
    ...(reference === "logic-" ? [windingLeak("leak-logic", "logic-")] : []),
    caseLeak(),
  ];
}

/** Ratings that the solved voltages and currents are held against. */
export function controllerLimits(values: Values): readonly Limit[] {
  const feed = values.choice("logicFeed");
  const side = values.choice("contactorDriver");
  const reference = feed === "isolated-12v" || feed === "shared-12v" ? "logic-" : "B-";
  const bus = { a: "B+", b: "B-" } as const;
  const limits: Limit[] = [
    { parameter: "voltageMax", kind: "voltage-across", ...bus, value: values.number("voltageMax") },
    { parameter: "voltageMin", kind: "voltage-least", ...bus, value: values.number("voltageMin") },
  ];
  if (feed !== undefined) {
    const logic = { a: "logic+", b: reference } as const;
    limits.push(
      { parameter: "logicMax", kind: "voltage-across", ...logic, value: values.number("logicMax") },
      { parameter: "logicMin", kind: "voltage-least", ...logic, value: values.number("logicMin") },
    );
  }
  if (side === "high-side" || side === "low-side") {
    for (const [pin, output] of DRIVER_OUTPUTS) {
      const [a, b] = side === "high-side" ? ["logic+", pin] : [pin, reference];
      limits.push({
        parameter: "driverCurrent",
        kind: "current-through",
        a,
        b,
        element: `${output}-driver`,
        value: values.number("driverCurrent"),
      });
    }
  }
  return limits;
}

export const CONTROLLER_NOTES: readonly string[] = [
  "Driving: the lesser of the controller's and the motor's continuous current; pack current equals motor current (duty 1). With neither stated no current is counted, and the state says so.",
  "Regenerating without a stated cut voltage: up to voltageMax, else nominalMax, when solving.",
  "Unstated when solving: logic least 9 V, logic current 50 mA, switch inputs 100 kohm, no bleeder but 1 Mohm of measurement across the bus, throttle fault detection yes, throttle two-wire 0-5 kohm.",
  "The contactor's driver closes at 90 % (or the stated threshold) of the pack: as pack-sense sees it, else as a pack-fed logic supply sees it, else of nominalMin or voltageMin, else above 5 V. Where something else cuts the contactor and the bus falls below half of that, it lets go and waits for the key.",
  "interlock, forward, reverse, brake: fed means above 5 V. charge-inhibit: closed to a supply or to the return = may drive, left open = must not.",
  "An unwired throttle is taken as one that the drawing does not show: it does what the state asks.",
  "Without a stated logic feed a wired logic- is taken as the reference, else B-.",
];
