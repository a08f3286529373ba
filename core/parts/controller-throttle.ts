/**
 * How a controller reads its throttle: from volts and currents at its pins to idle, pressed or fault. The pins are a
 * 5 V supply behind 1 kohm (throttle-1), the signal (throttle-2) and the return (throttle-3); a two-wire throttle lies
 * between 1 and 2 and is read by the current through it.
 */
import type { Ohm, Ratio, Volt } from "../quantity/kinds.ts";
import { HALL_FAULT, LOOP_CURRENT_LEAST, SIGNAL_BAND } from "../standards/throttle-bands.ts";
import type { PartContext, Sensed, Values } from "./define.ts";
import type { Element } from "./element.ts";
import { resistance, tie } from "./make-element.ts";

export type Pedal = "idle" | "forward" | "reverse" | "fault";

const SUPPLY: Volt = 5;
const SUPPLY_RESISTANCE: Ohm = 1000;
/** A voltage input loads its sensor by this (common practice, no source). */
const SIGNAL_RESISTANCE: Ohm = 100e3;
/** A resistance input measures the current through this (common practice, no source). */
const CURRENT_SENSE: Ohm = 100;

const [SIGNAL_LEAST, SIGNAL_MOST] = SIGNAL_BAND;
/** A Hall throttle's own range: the manual of a small controller (seen). */
const HALL = { idle: 0.9, full: 3.6 } as const;
/** A two-wire throttle above 5.5 kohm to 7.5 kohm, or open, is a fault (from memory): the lower figure as a ratio. */
const RESISTANCE_FAULT: Ratio = 1.5;
/** The first tenth of the travel does nothing (a home-built controller's record, seen). */
const DEAD_BAND: Ratio = 0.1;

type Kind = "resistance-rising" | "resistance-falling" | "divider" | "voltage" | "hall";

const kindOf = (values: Values): Kind => (values.choice("throttleInput") as Kind | undefined) ?? "resistance-rising";
const byResistance = (kind: Kind): boolean => kind === "resistance-rising" || kind === "resistance-falling";

/** Readings at idle and at full: stated, else what is usual for the input. */
function span(values: Values, kind: Kind): { readonly idle: number; readonly full: number } {
  const usual: Readonly<Record<Kind, { readonly idle: number; readonly full: number }>> = {
    "resistance-rising": { idle: 0, full: 5000 },
    "resistance-falling": { idle: 5000, full: 0 },
    divider: { idle: 0, full: SUPPLY },
    voltage: { idle: 0, full: SUPPLY },
    hall: HALL,
  };
  return {
    idle: values.number("throttleIdle") ?? usual[kind].idle,
    full: values.number("throttleFull") ?? usual[kind].full,
  };
}

export const throttleWired = (wired: (terminal: string) => boolean): boolean =>
  wired("throttle-1") || wired("throttle-2") || wired("throttle-3");

/** Elements of the throttle pins: "throttle-supply", "throttle-input", "throttle-return". */
export function throttleElements(values: Values, reference: string, live: boolean): readonly Element[] {
  return [
    {
      type: "source",
      name: "throttle-supply",
      a: "throttle-1",
      b: reference,
      role: "sense",
      emf: live ? SUPPLY : 0,
      resistance: SUPPLY_RESISTANCE,
      storage: false,
    },
    resistance(
      "throttle-input",
      "throttle-2",
      reference,
      "sense",
      byResistance(kindOf(values)) ? CURRENT_SENSE : SIGNAL_RESISTANCE,
    ),
    tie("throttle-return", "throttle-3", reference),
  ];
}

/**
 * What the controller makes of its throttle pins while its logic is live. `throttleFaultBand` unstated is solved as
 * yes; where it is no, a broken wire reads as whatever it looks like.
 */
export function readPedal(context: PartContext, sensed: Sensed, reference: string): Pedal {
  const { values } = context;
  const kind = kindOf(values);
  const { idle, full } = span(values, kind);
  const band = values.choice("throttleFaultBand") !== "no";
  if (idle === full) return "idle";

  if (byResistance(kind)) {
    const loop = sensed.through("throttle-input");
    const across = sensed.between("throttle-1", "throttle-2");
    const open = loop < LOOP_CURRENT_LEAST;
    const ohms = open ? Number.POSITIVE_INFINITY : across / loop;
    if (band && (open || ohms > RESISTANCE_FAULT * Math.max(idle, full))) return "fault";
    return pedalAt(values, fraction(Math.min(ohms, 1e9), idle, full));
  }
  const signal = sensed.between("throttle-2", reference);
  const read = kind === "divider" ? ratiometric(signal, sensed.between("throttle-1", reference)) : signal;
  const low = Math.min(idle, full);
  const high = Math.max(idle, full);
  const lowFault = low >= SIGNAL_LEAST ? SIGNAL_LEAST : Number.NEGATIVE_INFINITY;
  const highFault = kind === "hall" && high <= HALL.full ? HALL_FAULT : high <= SIGNAL_MOST ? SIGNAL_MOST : Infinity;
  if (band && (read < lowFault || read > highFault)) return "fault";
  return pedalAt(values, fraction(read, idle, full));
}

/** A potentiometer's wiper as a part of its own supply, on the scale of 5 V. */
const ratiometric = (signal: Volt, supply: Volt): Volt => (supply > SIGNAL_LEAST ? (signal / supply) * SUPPLY : 0);

const fraction = (reading: number, idle: number, full: number): Ratio =>
  Math.min(1, Math.max(0, (reading - idle) / (full - idle)));

function pedalAt(values: Values, travel: Ratio): Pedal {
  if (values.choice("throttleMode") === "centre-zero") {
    const turn = 2 * travel - 1;
    return turn > DEAD_BAND ? "forward" : turn < -DEAD_BAND ? "reverse" : "idle";
  }
  return travel > DEAD_BAND ? "forward" : "idle";
}
