/**
 * What happens between two operating states, in time: capacitors and coils carry voltage and current from one moment to
 * the next, contacts follow their coils after their delays, timers run. Types only; `analysis.transition(name)` makes one.
 */
import type { BranchIndex, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { StateName } from "../../parts/condition.ts";
import type { Ampere, Joule, Ohm, Second, Volt, Watt } from "../../quantity/kinds.ts";
import type { SolvedState } from "../solved-state.ts";

export const TRANSITIONS = [
  "key-on",
  "drive",
  "key-off",
  "key-off-on",
  "emergency-stop",
  "plug-in",
  "unplug",
  "disconnect",
  "supply-lost",
  "output-bounce",
] as const;
export type TransitionName = (typeof TRANSITIONS)[number];

/** One thing that happens at one moment. What made it happen is a message id and facts; words are filled in last. */
export interface TransitionEvent {
  readonly time: Second;
  /** The part that does it; undefined for what the driver's hand does. */
  readonly part: NetworkPart | undefined;
  /**
   * control   a hand or the vehicle moves a control       closes, opens   a contact's metal moves
   * pulls-in, drops-out   a coil crosses its threshold    starts, stops   a driver, converter, charger or drive
   * elapses   a timer's time is over                      blows           a fuse's time is over
   * below-60  the voltage across a capacitor falls below 60 V
   */
  readonly what:
    | "control"
    | "closes"
    | "opens"
    | "pulls-in"
    | "drops-out"
    | "starts"
    | "stops"
    | "elapses"
    | "blows"
    | "below-60";
  /** The contact, coil or capacitor concerned, where it is one. */
  readonly branch: BranchIndex | undefined;
  /** "coil 11.4 V above 8.4 V": the voltage (or current) that decided and the threshold it crossed, where one did. */
  readonly value: number | undefined;
  readonly limit: number | undefined;
  readonly unit: "V" | "A" | "s" | undefined;
  /** One clause in plain words, for people: "coil 11.4 V above 8.4 V", "the key goes to on". */
  readonly reason: string;
}

/** A contact that closed: what stood across it before, and what flowed at once. */
export interface Closing {
  readonly time: Second;
  readonly branch: BranchIndex;
  readonly part: NetworkPart;
  /** Across the open contact just before it touched, line to load; and the highest EMF-driven voltage it could have: the pack across it when open. */
  readonly voltsBefore: Volt;
  /** Highest current through it within 20 ms of touching. */
  readonly peak: Ampere;
  /** Current 20 ms after touching, or at the end: what it carries once the inrush is over. */
  readonly after: Ampere;
  /** Capacitors whose charge rushed through it, with their voltage just before. */
  readonly capacitors: readonly { readonly branch: BranchIndex; readonly volts: Volt }[];
}

/** A contact that opened: what it had to interrupt. */
export interface Opening {
  readonly time: Second;
  readonly branch: BranchIndex;
  readonly part: NetworkPart;
  /** Just before the metal parted, from the element's a to b. */
  readonly current: Ampere;
  /** Across the contact once it is open and the current gone. */
  readonly voltsAfter: Volt;
}

/** What a resistor had to take. */
export interface ResistorPulse {
  readonly branch: BranchIndex;
  readonly part: NetworkPart;
  readonly energy: Joule;
  readonly peakPower: Watt;
  /** Power that it still takes at the end. */
  readonly endPower: Watt;
}

/** A coil switched off: the highest voltage across it, and who it was that had to stand it. */
export interface CoilTurnOff {
  readonly time: Second;
  readonly branch: BranchIndex;
  readonly part: NetworkPart;
  readonly peak: Volt;
  /** From switching off until its current is below the drop-out current. */
  readonly decay: Second;
}

/** How long the voltage across a capacitor stayed above 60 V after its last feed was gone. */
export interface Discharge {
  readonly branch: BranchIndex;
  readonly part: NetworkPart;
  readonly from: Second;
  readonly start: Volt;
  /** Undefined: still above 60 V at the end (then `end` and the resistance that drains it tell how long it will take). */
  readonly below60: Second | undefined;
  readonly end: Volt;
  readonly drain: Ohm;
}

export interface Transition {
  readonly name: TransitionName;
  readonly from: StateName;
  /** The operating state whose controls stand at the end. */
  readonly to: StateName;
  /** Ascending, first 0; two samples at one time = just before and just after a jump. */
  readonly times: Float64Array;
  /** By sample: to chassis; NaN = afloat. */
  volts(node: NodeIndex): Float64Array;
  /** By sample: from a to b; of a source, positive when it delivers. */
  currents(branch: BranchIndex): Float64Array;
  readonly events: readonly TransitionEvent[];
  readonly closings: readonly Closing[];
  readonly openings: readonly Opening[];
  readonly resistors: readonly ResistorPulse[];
  readonly turnOffs: readonly CoilTurnOff[];
  readonly discharges: readonly Discharge[];
  /**
   * Current that leaves these capacitors together, all held at one voltage, with contacts and electronics as they stand at
   * the end and nobody drawing anything: the pedal up, no drive running. Negative where something still feeds them.
   */
  drainOf(capacitors: readonly BranchIndex[], voltage: Volt): Ampere;
  /** Parts that went on opening and closing. */
  readonly chatter: readonly NetworkPart[];
  /**
   * The circuit at one moment (clamped to 0..end): volts and currents between the samples by straight lines, elements,
   * conducting and part states as they then stood. The window colours the drawing with it while someone drags along.
   */
  at(time: Second): SolvedState;
  /** The circuit as it stands at the end. */
  readonly end: SolvedState;
  /** Figures that had to be assumed because nobody stated them, by part and parameter: what depends on them is not checked. */
  readonly assumed: readonly { readonly part: NetworkPart; readonly parameter: string }[];
  /** Undefined when the whole time was simulated; else why it stopped early. */
  readonly trouble: string | undefined;
}
