/**
 * Contacts that fill capacitors in a transition: while one closes, conductors and closed contacts alone lead from a
 * battery through it to a capacitor. Told is how full the capacitor was, and whether a resistor had been filling it.
 */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import type { Closing, Transition, TransitionName } from "../../circuit/transition/transition.ts";
import type { Branch, BranchIndex, NetworkPart } from "../../network/network.ts";
import type { Joule, Ratio, Second, Volt } from "../../quantity/kinds.ts";
import { capacitorEnergy, CLOSING_SHARE } from "../../standards/precharge.ts";
import { tractionPacks } from "../../studies/words/live.ts";
import type { MissingField } from "../define.ts";
import { ClosedFeed, closedFeed, waysBetween } from "./closed-feed.ts";
import { assumedOf, followed, momentOf, sampleBefore, voltsAcross } from "./in-time.ts";
import type { Followed } from "./in-time.ts";
import { packLoops } from "./pack-loops.ts";

/** In these something is put into operation; disconnects and plugs are closed with the key off, which no transition does. */
const STARTS: readonly TransitionName[] = ["key-on", "drive", "key-off-on", "plug-in", "output-bounce"];
/** A capacitor behind conductors alone is full within this time (common practice, no source). */
const FULL_AFTER: Second = 0.02;
/** What a resistor feeds for a shorter time, while contacts answer one switch, is no pre-charge (common practice, no source). */
const LEAST_PRECHARGE: Second = 0.1;
const FLOWS = 1e-3;
/** Capacitors this near to one voltage, or below it, are none to speak of. */
const LEAST_VOLTS: Volt = 1;

export interface Filling {
  readonly transition: Transition;
  readonly closing: Closing;
  readonly capacitor: Branch;
  /** Across the capacitor before it closed, and once it had closed. */
  readonly volts: Volt;
  readonly full: Volt;
  readonly share: Ratio;
  /** What rushes in: capacitance and missing volts. */
  readonly energy: Joule;
  /** Resistors that are there to fill it. */
  readonly resistors: readonly NetworkPart[];
  /** One of them had been filling it. */
  readonly charged: boolean;
  /** Delays that nobody stated, of timers that had moved by then. */
  readonly delays: readonly MissingField[];
}

/** A contact ahead of capacitors of unstated capacitance: what it closes onto is not known. */
export interface Unknown {
  readonly part: NetworkPart;
  readonly missing: readonly MissingField[];
}

export interface Fillings extends Followed {
  readonly fillings: readonly Filling[];
  readonly unknown: readonly Unknown[];
}

const remembered = new WeakMap<Analysis, Fillings>();

export function fillingsOf(analysis: Analysis): Fillings {
  let found = remembered.get(analysis);
  if (found === undefined) remembered.set(analysis, (found = find(analysis)));
  return found;
}

function find(analysis: Analysis): Fillings {
  const packs = tractionPacks(analysis);
  const capacitors = analysis.network.branches.filter((branch) => isCapacitor(analysis, branch));
  if (packs.length === 0 || capacitors.length === 0) return { whole: [], broken: [], fillings: [], unknown: [] };
  const resistors = bridgedResistors(analysis, packs);
  const onLoops = new Set<BranchIndex>(packs.flatMap((pack) => [...packLoops(analysis, pack, false)]));
  const { whole, broken } = followed(analysis, STARTS);
  const unstated = assumedOf(whole, "capacitance");
  const fillings: Filling[] = [];
  const unknown = new Map<NetworkPart, Set<NetworkPart>>();
  for (const transition of whole) {
    for (const closing of transition.closings) {
      if (!onLoops.has(closing.branch) || analysis.network.branches[closing.branch]?.role !== "contact") continue;
      if (closing.capacitors.length === 0 && unstated.size === 0) continue;
      const state = momentOf(transition, closing.time);
      const feed = closedFeed(analysis, state);
      for (const capacitor of capacitors) {
        const { part, a, b } = capacitor;
        if (part === undefined || !feed.isFed(a, b)) continue;
        if (!waysBetween(analysis, state, a, b).some(({ index }) => index === closing.branch)) continue;
        if (unstated.has(part)) {
          unknown.set(closing.part, (unknown.get(closing.part) ?? new Set<NetworkPart>()).add(part));
          continue;
        }
        const filling = fillingAt(transition, closing, capacitor, resistors(capacitor));
        if (filling !== undefined) fillings.push(filling);
      }
    }
  }
  return {
    whole,
    broken,
    fillings,
    unknown: [...unknown].map(([part, parts]) => ({
      part,
      missing: [...parts].flatMap((each) => unstated.get(each) ?? []),
    })),
  };
}

function isCapacitor({ states }: Analysis, { role, index, part }: Branch): boolean {
  const element = states[0]?.elements[index];
  return role === "capacitor" && part !== undefined && element?.type === "capacitor" && element.capacitance !== 0;
}

/**
 * By capacitor: the resistors that lie in series between it and the battery and that contacts bridge once all are
 * closed. A bleeder lies across the battery and is none.
 */
function bridgedResistors(analysis: Analysis, packs: readonly Pack[]): (capacitor: Branch) => readonly Branch[] {
  const [any] = analysis.states;
  if (any === undefined) return () => [];
  const closed = new ClosedFeed(analysis, any, { contacts: "closed" });
  const onLoops = new Set<BranchIndex>(packs.flatMap((pack) => [...packLoops(analysis, pack, true)]));
  const bridged = analysis.network.branches.filter(
    ({ role, index, part, a, b }) =>
      role === "resistor" && part !== undefined && onLoops.has(index) && closed.island(a) === closed.island(b),
  );
  return ({ a, b }) => {
    const ends = [closed.island(a), closed.island(b)];
    return bridged.filter((resistor) => ends.includes(closed.island(resistor.a)));
  };
}

function fillingAt(
  transition: Transition,
  closing: Closing,
  capacitor: Branch,
  resistors: readonly Branch[],
): Filling | undefined {
  const { times } = transition;
  const across = voltsAcross(transition, capacitor).map(Math.abs);
  const before = sampleBefore(transition, closing.time);
  // The pedal moves its contact and the throttle at one moment; a driver's foot does not, and drives start gently: what
  // the drive has drawn from the capacitors until a contactor behind the pedal closes does not count.
  const volts = Math.max(across[before] ?? 0, transition.name === "drive" ? (across[0] ?? 0) : 0);
  let full = volts;
  for (let k = before; k < times.length && (times[k] ?? 0) <= closing.time + FULL_AFTER; k += 1)
    full = Math.max(full, across[k] ?? 0);
  if (!(full > LEAST_VOLTS)) return undefined;
  const element = transition.end.elements[capacitor.index];
  const capacitance = element?.type === "capacitor" ? (element.capacitance ?? 0) : 0;
  return {
    transition,
    closing,
    capacitor,
    volts,
    full,
    share: volts / full,
    energy: capacitorEnergy(capacitance, full - volts),
    resistors: [...new Set(resistors.flatMap(({ part }) => part ?? []))],
    charged: resistors.some((resistor) => hasCharged(transition, resistor, before)),
    delays: delaysBefore(transition, closing.time),
  };
}

/** Had the resistor been feeding for long enough, or from the beginning? */
function hasCharged(transition: Transition, resistor: Branch, before: number): boolean {
  const { times } = transition;
  const currents = transition.currents(resistor.index);
  if (Math.abs(currents[0] ?? 0) > FLOWS) return true;
  let fed: Second = 0;
  for (let k = 0; k < before; k += 1) {
    if (Math.abs(currents[k] ?? 0) > FLOWS) fed += (times[k + 1] ?? 0) - (times[k] ?? 0);
  }
  return fed >= LEAST_PRECHARGE;
}

function delaysBefore(transition: Transition, time: Second): readonly MissingField[] {
  const { closings, openings } = transition;
  const moved = new Set([...closings, ...openings].filter((each) => each.time <= time).map(({ part }) => part));
  return [...assumedOf([transition], "time")].filter(([part]) => moved.has(part)).map(([, field]) => field);
}

/**
 * Is this capacitor full each time that one of these contacts closes onto it on the way into an operating state? What
 * was followed in time has seen the pre-charge between two states, of which the states themselves know nothing.
 */
export function isFilledInTime(
  analysis: Analysis,
  {
    after,
    contacts,
    capacitor,
  }: { readonly after: string; readonly contacts: readonly Branch[]; readonly capacitor: Branch },
): boolean {
  const { fillings, broken } = fillingsOf(analysis);
  const own = fillings.filter(
    (filling) =>
      filling.capacitor === capacitor &&
      contacts.some(({ index }) => index === filling.closing.branch) &&
      (filling.transition.to === "charging") === (after === "charging"),
  );
  return broken.length === 0 && own.length > 0 && own.every(({ share }) => share >= 1 - CLOSING_SHARE);
}
