import type { Analysis } from "../../circuit/analysis.ts";
import type { Transition, TransitionName } from "../../circuit/transition/transition.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Ampere, Farad, Joule, Ohm, Second, Volt } from "../../quantity/kinds.ts";
import {
  DISCHARGE_AIM,
  DISCHARGE_AIM_SOURCE,
  DISCHARGED_SOURCE,
  DISCHARGED_WITHIN,
  dischargeTime,
  ENERGY_LIMIT,
  energyAboveTouchLimit,
} from "../../standards/contact-protection.ts";
import { ISOLATION_DC } from "../../standards/isolation.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { isOnPack, tractionPacks } from "../../studies/words/live.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { assumedOf, brokenPlaces, endStates, followed, voltsAcross, whenFact } from "../words/in-time.ts";
import { branchesOf, joinedIn } from "../words/joined.ts";
import { partPlace } from "../words/places.ts";

/** What switches the vehicle off on purpose. */
const OFF: readonly TransitionName[] = ["key-off", "emergency-stop", "unplug", "disconnect"];
const BLEED = "bleedResistance";

export const staysCharged = defineCheck({
  id: "stays-charged",
  group: "precharge",
  title: "Stays charged after switching off",
  about:
    "Follows the vehicle through switching off by key, emergency stop, charging plug and disconnect, and looks how long capacitors that nothing feeds any more stay above 60 V while nobody draws anything: the pedal may have been up, the heater off. What insulation lets through counts as no feed. Energy counts only above 60 V, so that very small capacitors pass. Up to 60 V nothing is looked at; what stays on the battery while parked belongs to other checks.",
  severities: ["WARNING", "NOTICE"],
  source: DISCHARGED_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    long: {
      title:
        "The capacitors at {at} stay above 60 V for {time} {when}, against {limit}: they start from {volts} and hold {energy} beyond what they may keep.",
      why: "Whoever opens the box after switching off takes it for dead and gets the whole charge of the capacitors.",
      mend: "Put a resistor across the supply of {at} that empties them within {limit} and stands the battery's voltage continuously, or one behind a contact that closes when the main contact opens.",
    },
    ever: {
      title:
        "The capacitors at {at} never come below 60 V {when}: they start from {volts}, hold {energy} beyond what they may keep, and nothing but insulation drains them.",
      why: "Whoever opens the box takes it for dead and gets the whole charge of the capacitors, however long he has waited: as much as the insulation drains, it lets through from the battery.",
      mend: "Put a resistor across the supply of {at} that empties them within {limit} and stands the battery's voltage continuously, or one behind a contact that closes when the main contact opens.",
    },
  },
  reasons: {
    bleed: "How long the capacitors at {at} stay above 60 V depends on what drains them inside, which is not stated.",
    capacitance: "How long the capacitors at {at} stay above 60 V cannot be told, as their capacitance is not stated.",
    broken: "How long capacitors stay above 60 V {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: ["held-by-backfeed", "main-switch-missing", "precharge-bypasses-switch"],
  run(analysis, report) {
    const high = tractionPacks(analysis).some(({ highest }) => highest > CLASS_B_DC);
    const { whole, broken } = followed(analysis, high ? OFF : []);
    const unknown = [...assumedOf([...whole, ...broken], "capacitance")].filter(([part]) =>
      isOnHighPack(analysis, part),
    );
    for (const [part, field] of unknown) {
      const place = partPlace(part);
      report.notChecked({ where: [place], reason: "capacitance", facts: { at: { place } }, missing: [field] });
    }
    const buses = busesOf(analysis, whole);
    for (const bus of buses) judge(bus, broken.length === 0, report);
    if (broken.length > 0) {
      const parts = brokenPlaces(broken, capacitorParts(analysis));
      const facts = { when: whenFact(broken), parts: { places: parts } };
      report.notChecked({ where: parts, reason: "broken", facts, missing: [] });
    } else if (buses.length === 0 && unknown.length === 0) report.doesNotApply();
  },
});

function capacitorParts({ network }: Analysis): readonly NetworkPart[] {
  return network.branches.flatMap(({ role, part }) => (role === "capacitor" && part !== undefined ? [part] : []));
}

/** Capacitors that hang together after one of the transitions, with what becomes of them. */
interface Bus {
  readonly parts: Set<NetworkPart>;
  readonly courses: Course[];
}

interface Course {
  readonly transition: Transition;
  /** Until they are down to 60 V; Infinity where they never are. */
  readonly time: Second;
  readonly start: Volt;
  readonly energy: Joule;
}

/** Whatever stands on a traction pack of class B in some state. */
function isOnHighPack(analysis: Analysis, part: NetworkPart): boolean {
  return tractionPacks(analysis).some(
    (pack) => pack.highest > CLASS_B_DC && [...part.nodes.values()].some((node) => isOnPack(analysis, pack, node)),
  );
}

function busesOf(analysis: Analysis, transitions: readonly Transition[]): readonly Bus[] {
  let buses: Bus[] = [];
  for (const transition of transitions) {
    const metal = joinedIn(analysis, transition.end);
    const groups = new Map<string, Branch[]>();
    for (const capacitor of branchesOf(analysis, "capacitor")) {
      const key = `${String(metal.find(capacitor.a))} ${String(metal.find(capacitor.b))}`;
      groups.set(key, [...(groups.get(key) ?? []), capacitor]);
    }
    for (const group of groups.values()) {
      const course = courseOf(analysis, transition, group);
      if (course === undefined) continue;
      const parts = new Set(group.flatMap(({ part }) => part ?? []));
      const touching = buses.filter((bus) => [...bus.parts].some((part) => parts.has(part)));
      buses = [
        ...buses.filter((bus) => !touching.includes(bus)),
        {
          parts: new Set([...touching.flatMap((bus) => [...bus.parts]), ...parts]),
          courses: [...touching.flatMap(({ courses }) => courses), course],
        },
      ];
    }
  }
  return buses;
}

/**
 * What becomes of capacitors that a transition cuts off: emptied from the highest voltage that stood across them by what
 * drains them while nobody draws anything. That a drive at full load or a heater takes their charge within milliseconds
 * is luck: whoever opens the box may have had the pedal up. Undefined where they stay below 60 V or are still fed.
 */
function courseOf(analysis: Analysis, transition: Transition, group: readonly Branch[]): Course | undefined {
  const capacitanceOf = ({ index }: Branch): Farad => {
    const element = transition.end.elements[index];
    return element?.type === "capacitor" ? (element.capacitance ?? 0) : 0;
  };
  const whole = group.reduce((sum, each) => sum + capacitanceOf(each), 0);
  const start = group
    .flatMap((each) => [...voltsAcross(transition, each)])
    .reduce((highest, volts) => (Math.abs(volts) > Math.abs(highest) ? volts : highest), 0);
  const from = Math.abs(start);
  if (from < CLASS_B_DC) return undefined;
  const capacitors = group.map(({ index }) => index);
  const sign = Math.sign(start);
  const drain = (volts: Volt): Ampere => sign * transition.drainOf(capacitors, sign * volts);
  const below = drain(CLASS_B_DC);
  // Down to half of it: where both ends of the course lie close together their difference says nothing.
  const perVolt = (drain(from) - drain(CLASS_B_DC / 2)) / (from - CLASS_B_DC / 2);
  if (below <= 0 && perVolt > 1 / leastInsulation(analysis)) return undefined;
  const rest = perVolt > 0 ? CLASS_B_DC - below / perVolt : -Infinity;
  const time =
    below <= 0
      ? Infinity
      : perVolt > 0
        ? dischargeTime(1 / perVolt, whole, from - rest, CLASS_B_DC - rest)
        : (whole * (from - CLASS_B_DC)) / below;
  return { transition, time, start: from, energy: energyAboveTouchLimit(whole, from) };
}

/** What leaks less than this is insulation; what leaks more feeds. */
const leastInsulation = (analysis: Analysis): Ohm =>
  ISOLATION_DC * Math.max(...tractionPacks(analysis).map(({ highest }) => highest));

function judge({ parts, courses }: Bus, whole: boolean, report: Report): void {
  const places = [...parts].sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1))).map(partPlace);
  const at = { places };
  const long = courses.filter(({ time, energy }) => time > DISCHARGE_AIM && energy > ENERGY_LIMIT);
  const [worst] = [...long].sort((a, b) => b.time - a.time);
  if (worst === undefined) {
    if (whole) report.passes(...places);
    return;
  }
  const bleeds = [...parts].flatMap(({ part, kind, values }): MissingField[] =>
    Object.hasOwn(kind.parameters, BLEED) && values.number(BLEED) === undefined
      ? [{ part: part.id, parameter: BLEED }]
      : [],
  );
  if (bleeds.length > 0) {
    report.notChecked({ where: places, reason: "bleed", facts: { at }, missing: bleeds });
    return;
  }
  const serious = worst.time > DISCHARGED_WITHIN;
  const limit = serious ? DISCHARGED_WITHIN : DISCHARGE_AIM;
  const transitions = long.filter(({ time }) => time > limit).map(({ transition }) => transition);
  const ever = worst.time === Infinity;
  report.fails({
    message: ever ? "ever" : "long",
    facts: {
      at,
      when: whenFact(transitions),
      ...(ever ? {} : { time: { value: worst.time, dimension: "time" } as const }),
      limit: { value: limit, dimension: "time" },
      volts: { value: worst.start, dimension: "voltage" },
      energy: { value: worst.energy, dimension: "energy" },
    },
    severity: serious ? "WARNING" : "NOTICE",
    where: places,
    states: endStates(transitions),
    ...(ever ? {} : { value: worst.time, limit, unit: "s" }),
    source: serious ? DISCHARGED_SOURCE : DISCHARGE_AIM_SOURCE,
  });
}
