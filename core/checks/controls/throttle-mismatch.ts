/** A throttle of another kind, span or number of wires than the controller's input. */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Statedness } from "../../parts/define.ts";
import {
  FULL_LEAST,
  HALL_FAULT,
  HALL_SOURCE,
  IDLE_MOST,
  RESISTANCE_MOST,
  SIGNAL_BAND,
  SIGNAL_BAND_SOURCE,
  SPAN_SOURCE,
} from "../../standards/throttle-bands.ts";
import type { Fact, MissingField, Report } from "../define.ts";
import { defineCheck } from "../define.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const PINS = ["throttle-1", "throttle-2", "throttle-3"] as const;
/** Full scale of a potentiometer's reading, whatever its supply sags to. */
const SCALE = 5;

type Input = "resistance-rising" | "resistance-falling" | "divider" | "voltage" | "hall";
type Signal = "resistance" | "divider" | "voltage";

/** What may be put on an input. A potentiometer's wiper and one end also make a resistance between two wires. */
const FITS: Readonly<Record<Input, readonly Signal[]>> = {
  "resistance-rising": ["resistance", "divider"],
  "resistance-falling": ["resistance", "divider"],
  divider: ["divider"],
  voltage: ["voltage", "divider"],
  hall: ["voltage"],
};

interface Look {
  readonly analysis: Analysis;
  readonly part: NetworkPart;
  readonly input: Input;
  readonly sensors: readonly NetworkPart[];
  readonly report: Report;
}

const byResistance = (input: Input): boolean => input === "resistance-rising" || input === "resistance-falling";

const isWired = (analysis: Analysis, part: NetworkPart, terminal: string): boolean =>
  analysis.network.wiresAt([part.part.id, terminal]).length > 0;

/**
 * Throttles that are wired to the signal or its supply, and which of the three pins each reaches. The return alone makes
 * nobody this input's throttle: everything with a minus is joined to it.
 */
function sensorsOf(
  analysis: Analysis,
  part: NetworkPart,
  state: SolvedState,
): ReadonlyMap<NetworkPart, ReadonlySet<string>> {
  const candidates = analysis.network.parts.filter(({ kind }) => kind.traits.throttleSignal !== undefined);
  const found = new Map<NetworkPart, Set<string>>();
  for (const pin of PINS) {
    const node = part.nodes.get(pin);
    if (node === undefined || !isWired(analysis, part, pin)) continue;
    const reached = analysis.reach(state, node, {
      through: ["conductor", "contact", "protection"],
      contacts: "closed",
    });
    for (const sensor of candidates) {
      if (!sensor.terminals.some(({ id }) => reached.has(sensor.nodes.get(id) ?? -1))) continue;
      if (pin !== "throttle-3" && !found.has(sensor)) found.set(sensor, new Set());
      found.get(sensor)?.add(pin);
    }
  }
  return found;
}

/** Resistance between throttle-1 and throttle-2 as an ohmmeter finds it with the controller unplugged. */
function ohmsOutside({ analysis, part }: Look, state: SolvedState): number | undefined {
  const [one, two] = [part.nodes.get("throttle-1"), part.nodes.get("throttle-2")];
  if (one === undefined || two === undefined) return undefined;
  let inside = 0;
  for (let branch = part.firstBranch; branch < part.firstBranch + part.branchCount; branch += 1) {
    const element = state.elements[branch];
    if (element?.name !== "throttle-supply" && element?.name !== "throttle-input") continue;
    if (element.type === "source" || element.type === "resistance") inside += element.resistance;
  }
  const conductance = 1 / analysis.resistanceBetween(state, one, two) - (inside > 0 ? 1 / inside : 0);
  return conductance > 0 ? 1 / conductance : Infinity;
}

/** Volts of the signal as the controller takes them; undefined while it is dead. */
function voltsRead({ part, input }: Look, state: SolvedState): number | undefined {
  if (state.partStates[part.index]?.["logic"] !== "live") return undefined;
  const reference = part.nodes.get("throttle-3") ?? 0;
  const signal = state.between(part.nodes.get("throttle-2") ?? 0, reference);
  if (input !== "divider") return signal;
  const supply = state.between(part.nodes.get("throttle-1") ?? 0, reference);
  return supply > 0 ? (signal / supply) * SCALE : 0;
}

/** Kind and number of wires; false where something was wrong. */
function kindFits(look: Look, pins: ReadonlyMap<NetworkPart, ReadonlySet<string>>): boolean {
  const { part, input, sensors, report } = look;
  const where = (sensor: NetworkPart) => [terminalPlace(part, "throttle-2"), partPlace(sensor)];
  let sound = true;
  for (const sensor of sensors) {
    const signal = sensor.kind.traits.throttleSignal;
    if (signal === undefined) continue;
    const facts = { sensor: { place: partPlace(sensor) }, input, at: { place: terminalPlace(part, "throttle-2") } };
    const used = pins.get(sensor)?.size ?? 0;
    if (!FITS[input].includes(signal)) {
      report.fails({ message: "kind", facts, severity: "WARNING", where: where(sensor) });
      sound = false;
    } else if (byResistance(input) ? used > 2 : signal === "divider" && used < 2) {
      const wires = byResistance(input) ? "two" : "three";
      report.fails({ message: "wires", facts: { ...facts, wires }, severity: "WARNING", where: where(sensor) });
      sound = false;
    }
  }
  return sound;
}

interface End {
  readonly message: "idle" | "full";
  readonly state: SolvedState;
  /** The controller's parameter, and the sensor's that decides the reading. */
  readonly parameter: "throttleIdle" | "throttleFull";
  readonly sensorParameter: string;
}

/** Figures that nobody stated and on which the reading depends. */
function unstated({ part, sensors }: Look, end: End): readonly MissingField[] {
  const isUnknown = (stated: Statedness): boolean => stated === "unstated" || stated === "unknown";
  return [
    ...(part.values.number(end.parameter) === undefined ? [{ part: part.part.id, parameter: end.parameter }] : []),
    ...sensors
      .filter(({ kind }) => Object.hasOwn(kind.parameters, end.sensorParameter))
      .filter(({ values }) => isUnknown(values.stated(end.sensorParameter)))
      .map((sensor) => ({ part: sensor.part.id, parameter: end.sensorParameter })),
  ];
}

/** Part of the travel that a reading stands for, 0 at idle and 1 at full; the unstated end taken as that of the kind. */
function travel({ part, input }: Look, reading: number): number {
  const idle = part.values.number("throttleIdle") ?? 0;
  const full = part.values.number("throttleFull") ?? (input === "resistance-falling" ? 0 : SCALE);
  return full === idle ? NaN : (reading - idle) / (full - idle);
}

interface Reading {
  readonly end: End;
  readonly value: number;
  readonly travel: number;
  readonly band: number | undefined;
  readonly off: boolean;
}

/** What the input reads at one end of the travel; undefined (and told) where that cannot be known. */
/** What nobody stated; an empty list: the controller is dead. */
type Unread = readonly MissingField[];

function readingAt(look: Look, end: End): Reading | Unread {
  const { input } = look;
  const ohms = byResistance(input);
  const value = ohms ? ohmsOutside(look, end.state) : voltsRead(look, end.state);
  const missing = unstated(look, end);
  if (missing.length > 0 || value === undefined || Number.isNaN(value)) return missing;
  const at = travel(look, value);
  const off =
    end.message === "idle"
      ? at > IDLE_MOST || (ohms && at < -IDLE_MOST)
      : at < FULL_LEAST || (ohms && at > RESISTANCE_MOST);
  return { end, value, travel: at, band: outOfBand(look, value), off };
}

function tell(look: Look, reading: Reading, message: "idle" | "full" | "band" | "reversed"): void {
  const { part, input, sensors, report } = look;
  const { end, value, band } = reading;
  const ohms = byResistance(input);
  const place = terminalPlace(part, "throttle-2");
  const wanted = message === "band" && band !== undefined ? band : (part.values.number(end.parameter) ?? 0);
  const fact = (number: number): Fact => ({ value: number, dimension: ohms ? "resistance" : "voltage" });
  const known = Number.isFinite(value);
  report.fails({
    message,
    facts: {
      at: { place },
      reading: known ? fact(value) : "an open circuit",
      wanted: fact(wanted),
      end: end.message,
      sensors: { places: sensors.length > 0 ? sensors.map(partPlace) : [place] },
    },
    severity: "WARNING",
    where: [place, ...sensors.map(partPlace)],
    states: message === "reversed" ? ["ready", "driving"] : [end.state.name],
    ...(known ? { value } : {}),
    limit: wanted,
    unit: ohms ? "ohm" : "V",
    source: message !== "band" ? SPAN_SOURCE : input === "hall" ? HALL_SOURCE : SIGNAL_BAND_SOURCE,
  });
}

/** One finding for one throttle: turned round, or off at one end (idle first), or beyond the fault band. */
function judge(look: Look, readings: readonly (Reading | Unread)[]): void {
  const known = readings.filter(isRead);
  const [idle, full] = readings;
  const off = known.find((reading) => reading.off);
  const beyond = known.find((reading) => reading.band !== undefined);
  const isReversed =
    idle !== undefined &&
    full !== undefined &&
    isRead(idle) &&
    isRead(full) &&
    idle.travel >= FULL_LEAST &&
    full.travel <= IDLE_MOST;
  if (isReversed) tell(look, idle, "reversed");
  else if (off !== undefined) tell(look, off, off.end.message);
  else if (beyond !== undefined) tell(look, beyond, "band");
  const place = terminalPlace(look.part, "throttle-2");
  if (known.length < readings.length) {
    const missing = readings.flatMap((reading) => (isRead(reading) ? [] : reading));
    const reason = missing.length > 0 ? "unstated" : "dead";
    look.report.notChecked({ where: [place], reason, facts: { at: { place } }, missing });
  } else if (!isReversed && off === undefined && beyond === undefined) look.report.passes(place);
}

const isRead = (reading: Reading | Unread): reading is Reading => "end" in reading;

/** The edge of the fault band that a voltage lies beyond. Without stated fault detection there is no band to leave. */
function outOfBand({ part, input }: Look, volts: number): number | undefined {
  if (byResistance(input) || part.values.choice("throttleFaultBand") !== "yes") return undefined;
  const [least, most] = input === "hall" ? [SIGNAL_BAND[0], HALL_FAULT] : SIGNAL_BAND;
  if (input === "divider") return undefined;
  return volts < least ? least : volts > most ? most : undefined;
}

function lookAt(analysis: Analysis, part: NetworkPart, report: Report): void {
  const [idle, full] = [analysis.state("ready"), analysis.state("driving")];
  const place = terminalPlace(part, "throttle-2");
  if (idle === undefined || full === undefined || !PINS.some((pin) => isWired(analysis, part, pin))) {
    report.doesNotApply(place);
    return;
  }
  const input = part.values.choice("throttleInput") as Input | undefined;
  if (input === undefined) {
    const missing = [{ part: part.part.id, parameter: "throttleInput" }];
    report.notChecked({ where: [place], reason: "unstated", facts: { at: { place } }, missing });
    return;
  }
  const pins = sensorsOf(analysis, part, full);
  const look: Look = { analysis, part, input, sensors: [...pins.keys()], report };
  if (!kindFits(look, pins)) return;
  // Where idle lies in the middle of the travel, the two ends say nothing of it.
  if (part.values.choice("throttleMode") === "centre-zero") {
    report.passes(place);
    return;
  }
  const stem = byResistance(input) ? "resistance" : "voltage";
  const ends: readonly End[] = [
    { message: "idle", state: idle, parameter: "throttleIdle", sensorParameter: `${stem}Idle` },
    { message: "full", state: full, parameter: "throttleFull", sensorParameter: `${stem}Full` },
  ];
  judge(
    look,
    ends.map((end) => readingAt(look, end)),
  );
}

export const throttleMismatch = defineCheck({
  id: "throttle-mismatch",
  group: "controls",
  title: "Throttle and input do not match",
  about:
    "Compares the throttle with the controller's throttle input: its kind, its number of wires, and what the input reads with the pedal free (ready) and to the floor (driving), resistors and wires in between included. Up to a tenth of the travel counts as idle, from 88 % on as full; a resistance may be 10 % above the one asked for. Of an input with its idle in the middle only kind and wires are compared.",
  severities: ["WARNING"],
  source: SPAN_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    kind: {
      title: "{sensor} is no throttle for the input at {at}, which is set to {input}.",
      why: "The controller reads something else than the pedal's position: it refuses to drive, or it drives by itself.",
      mend: "Fit a throttle of the kind that the input is set for, or change the setting if the controller can read {sensor}.",
    },
    wires: {
      title: "{sensor} is not joined by {wires} wires to the input at {at}, which is set for {input}.",
      why: "A wire too many or too few shifts the reading, so that the pedal gives full power at the wrong place or none at all.",
      mend: "Wire {sensor} with {wires} wires as the controller's manual shows for {input}.",
    },
    reversed: {
      title:
        "The throttle at {at} works the wrong way round: with the pedal free it reads {reading}, where idle is {wanted}.",
      why: "At rest the pedal asks for full power and lets go of it when pressed: the vehicle drives off as soon as it is switched on.",
      mend: "Exchange the two outer wires of {sensors}, or set the input for a throttle that falls instead of rises.",
    },
    idle: {
      title: "With the pedal free the input at {at} reads {reading}, where idle is {wanted}.",
      why: "Released, the pedal does not read as idle: the vehicle creeps or starts off by itself, or the controller refuses to start.",
      mend: "Fit a throttle whose idle is {wanted}, or set the input to what {sensors} gives; look for resistors beside it.",
    },
    full: {
      title: "With the pedal to the floor the input at {at} reads {reading}, where full is {wanted}.",
      why: "Full power comes far before the end of the travel or never, or the controller takes the wire for broken and cuts out while driving.",
      mend: "Fit a throttle whose full is {wanted}, or set the input to what {sensors} gives; look for resistors beside it.",
    },
    band: {
      title: "The input at {at} reads {reading} at {end}, beyond {wanted}, where it takes the wire for broken.",
      why: "The controller's fault detection stops the drive at a pedal position that is quite normal.",
      mend: "Use a throttle that stays within the band, such as one with resistors at both ends, or set the input for {sensors}.",
    },
  },
  reasons: {
    unstated: "What the throttle input at {at} expects, or what the throttle gives, is not stated.",
    dead: "The controller never comes alive, so nothing is read at {at}.",
  },
  foldsUnder: ["terminal-unconnected", "wire-loose-end"],
  run(analysis, report) {
    for (const part of analysis.network.parts) {
      if (part.kind.traits.controller === true) lookAt(analysis, part, report);
    }
  },
});
