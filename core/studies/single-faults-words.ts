/** The words of single faults and of what they lead to, in one table: short, in the trade's terms, for people without schooling. */
import type { FaultKind, SingleFault } from "../circuit/faults.ts";
import type { Network } from "../network/network.ts";
import { printQuantity } from "../quantity/print.ts";
import type { Place } from "./place.ts";
import type { Effect, EffectKind } from "./single-faults-effects.ts";

/** What happens; {what} is the wire or part, {one} and {other} are the terminals, {wires} ends of a wire. */
const FAULTS: Readonly<Record<FaultKind, string>> = {
  "wire-open": "{what} breaks or comes off",
  "contact-welded": "{what} never opens again between {one} and {other}",
  "contact-stuck-open": "{what} never closes again between {one} and {other}",
  "fuse-blown": "{what} has opened",
  "terminals-bridged": "{one} and {other} touch",
  "conductor-to-chassis": "{what} rubs through to the vehicle's metal",
  "connector-unplugged": "{what} comes apart",
  "barrier-broken": "the insulation inside {what} breaks through between {one} and {other}",
  "output-shorted": "the output stage of {what} conducts for good between {one} and {other}",
};

interface Words {
  /** What is so: {places}, {states}, {value}, {limit}. */
  readonly what: string;
  /** Why it matters. */
  readonly why: string;
}

const EFFECTS: Readonly<Record<EffectKind, Words>> = {
  "moves-at-idle": {
    what: "Driven although nobody asks for it: {places} ({states}).",
    why: "The vehicle sets off by itself.",
  },
  "cannot-be-stopped": {
    what: "Still driven in spite of key and emergency stop: {places} ({states}).",
    why: "Nothing within the driver's reach stops the vehicle.",
  },
  "stop-lost": {
    what: "Still driven: {places}, in spite of {states}.",
    why: "One of the ways to stop is lost, and nobody notices until it is needed.",
  },
  "wrong-way": {
    what: "Turning against the direction asked for: {places} ({states}).",
    why: "The vehicle goes backwards when the driver expects forwards.",
  },
  "field-lost": {
    what: "Current in the armature without a field: {places} ({states}).",
    why: "A motor without its field speeds up until it bursts, or takes all the current that there is.",
  },
  "drives-plugged": {
    what: "Driven with the charging cable plugged in: {places}.",
    why: "The vehicle tears the cable off.",
  },
  "source-shorted": {
    what: "Nothing but metal lies across {places} ({states}), and no device opens it.",
    why: "Batteries give thousands of amperes into a short: metal melts and sprays.",
  },
  "unprotected-current": {
    what: "Up to {value} where {limit} is the most, and no device ends it: {places} ({states}).",
    why: "The insulation melts and burns before anything opens.",
  },
  "device-clears": {
    what: "Opens and so ends it: {places} ({states}).",
    why: "There is a flash at the place of the fault, and what hangs on it goes dead.",
  },
  overvoltage: {
    what: "Up to {value} where {limit} is the most: {places} ({states}).",
    why: "Electronics above their rating fail at once, often as a short.",
  },
  "supply-reversed": {
    what: "Plus and minus swapped: {places} ({states}).",
    why: "Electronics fed the wrong way round conduct where they should block, and are usually destroyed.",
  },
  "traction-on-chassis": {
    what: "The traction circuit of up to {value} is joined to the vehicle's metal at {places}.",
    why: "Nothing shows it while driving; whoever then touches the other pole, or the next such fault, closes the circuit.",
  },
  "traction-on-auxiliary": {
    what: "The traction circuit of up to {value} is joined to the 12 V side at {places}.",
    why: "Nothing shows it while driving; a second fault then puts the pack onto lamps, radio and fingers.",
  },
  "stays-live": {
    what: "Still under up to {value}: {places}, in spite of {states}.",
    why: "Whoever works there believes it dead.",
  },
  "live-unasked": {
    what: "Under up to {value} where nothing should be: {places} ({states}).",
    why: "Whoever works there believes it dead, and the next switch closes without its pre-charge.",
  },
  "closes-unasked": {
    what: "Pulled in where it should be open: {places} ({states}).",
    why: "What hangs on it comes alive by itself.",
  },
  "does-not-close": {
    what: "Not pulled in: {places} ({states}).",
    why: "What hangs on it stays dead and harms nobody.",
  },
  "runs-unasked": {
    what: "Fed where it should be off: {places} ({states}).",
    why: "It runs by itself and may empty the battery.",
  },
  "load-unfed": {
    what: "Without supply: {places} ({states}).",
    why: "It does not work.",
  },
  "drive-lost": {
    what: "No longer driven: {places} ({states}).",
    why: "The vehicle stays where it is, or rolls out.",
  },
  "does-not-charge": {
    what: "Not charging: {places}.",
    why: "The pack stays empty.",
  },
  chatters: {
    what: "Without rest, so that contacts chatter: {places} ({states}).",
    why: "Contacts that open and close many times a second burn or weld.",
  },
};

/** What moved out of driving, as a person says it. The states of the drawing keep their names. */
const MOMENTS: Readonly<Record<string, string>> = {
  idle: "driving with the pedal released",
  braking: "driving with the brake pressed",
  "plugged-in": "driving with the charging cable in",
  "key-off": "the key turned off while driving",
  "emergency-stop": "the emergency stop pressed while driving",
};

export const NOTHING_CHANGES = "Nothing changes in any state that was looked at.";
export const HIDDEN =
  "Nothing shows it: no reading with a meter and nothing that moves, lights or sounds. Look at it when you service the vehicle.";

const MOST_PLACES = 5;

const list = (names: readonly string[], most = MOST_PLACES): string => {
  const told = names.length > most ? [...names.slice(0, most - 1), `${names.length - most + 1} more`] : names;
  return told.length <= 1 ? (told[0] ?? "") : `${told.slice(0, -1).join(", ")} and ${told.at(-1) ?? ""}`;
};

const fill = (text: string, facts: Readonly<Record<string, string>>): string => {
  const filled = text.replace(/\{([a-z]+)\}/g, (_, key: string) => facts[key] ?? "");
  return filled.charAt(0).toUpperCase() + filled.slice(1);
};

/** "F1:1", "T1", "wire W12", as on the drawing; a wire without a number by its ends. */
export function placeName(network: Network, place: Place): string {
  if ("sheet" in place) return `sheet ${place.sheet}`;
  if ("part" in place) {
    return place.terminal === undefined
      ? (network.partById.get(place.part)?.part.designation ?? place.part)
      : network.label([place.part, place.terminal]);
  }
  const wire = network.conductorByWire.get(place.wire)?.wire;
  const ends = wire?.ends.map((end) => (end === null ? "a loose end" : network.label(end))).join(" to ");
  if (wire === undefined || ends === undefined) return `wire ${place.wire}`;
  return wire.number.trim() === "" ? `wire from ${ends}` : `wire ${wire.number}`;
}

/** Where a fault is: its wire, or its part and terminals. */
export function faultPlaces({ wire, part, terminals }: SingleFault): readonly Place[] {
  if (wire !== undefined) return [{ wire }];
  return terminals.length > 0 ? terminals : part === undefined ? [] : [{ part: part.part.id }];
}

/** One sentence, without its full stop: what fails. */
export function faultWords(network: Network, fault: SingleFault): string {
  const { kind, wire, part, terminals } = fault;
  const [one = "", other = ""] = terminals.map((at) => network.label([at.part, at.terminal]));
  const what =
    wire === undefined
      ? kind === "connector-unplugged" && part?.kind.traits.connector !== true
        ? `the plug of ${part?.part.designation ?? ""}`
        : (part?.part.designation ?? "")
      : `${placeName(network, { wire })}${one === "" ? "" : ` (${one} to ${other})`}`;
  return fill(FAULTS[kind], { what, one, other });
}

export interface EffectWords {
  readonly what: string;
  readonly why: string;
}

const figure = (value: number | undefined, unit: Effect["unit"]): string =>
  value === undefined || unit === undefined
    ? ""
    : printQuantity(Number(value.toPrecision(3)), unit === "V" ? "voltage" : "current");

/** Two sentences: what happens, and why it matters. */
export function effectWords(network: Network, { kind, states, places, value, limit, unit }: Effect): EffectWords {
  const names = [...new Set(places.map((place) => placeName(network, place)))];
  const moments = states.map((state) => MOMENTS[state] ?? state);
  const { what, why } = EFFECTS[kind];
  return {
    what: fill(what, {
      places: list(names),
      states: list(moments),
      value: figure(value, unit),
      limit: figure(limit, unit),
    }),
    why,
  };
}
