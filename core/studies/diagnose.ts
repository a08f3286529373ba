/**
 * Diagnosis: given what somebody measured, which single faults explain it. Every fault is laid into the circuit, what
 * the meter would then show is worked out with the meter's own 10 Mohm across (curves held where they stand without it),
 * and held against the readings.
 */
import type { Analysis, SolvedState } from "../circuit/analysis.ts";
import { singleFaults } from "../circuit/faults.ts";
import type { SingleFault } from "../circuit/faults.ts";
import type { BranchIndex, NodeIndex } from "../network/network.ts";
import type { StateName } from "../parts/condition.ts";
import type { Ratio, Volt } from "../quantity/kinds.ts";
import { cleared, clearingDevices } from "./single-faults-clearing.ts";
import { METER, shown } from "./single-faults-readings.ts";
import { belongingAt } from "./words/belongs.ts";
import type { Device } from "./words/devices.ts";

/** Where the meter's leads are: red, black. */
export type Points = readonly [plus: NodeIndex, minus: NodeIndex];

/** What is measured in one operating state. */
export interface PointSet {
  readonly state: StateName;
  readonly points: readonly Points[];
}

/** What was read in one operating state: a voltage for each pair of points. */
export interface ReadingSet extends PointSet {
  readonly volts: readonly Volt[];
}

export interface Explanation {
  /** Undefined: as drawn, no fault. */
  readonly fault: SingleFault | undefined;
  /**
   * How well it explains the readings, 0 to 1: the mean over all readings of exp(-d2/2), d being how many tolerances a
   * reading lies from what the meter would show. 1 = every reading as predicted; one tolerance off counts 0.61.
   */
  readonly fit: Ratio;
  /** Those that no reading tells apart share a rank; 1 is the best. */
  readonly rank: number;
  /** What the meter would show, reading by reading, set by set. */
  readonly shows: readonly Volt[];
  /** Readings, by place in that list, that lie more than three tolerances off. */
  readonly against: readonly number[];
}

/** A hand-held meter on its direct-voltage range: 0.5 % of the reading and a digit or two of 0.1 V (common practice, no source). */
const METER_PART: Ratio = 0.005;
const METER_DIGITS: Volt = 0.1;
/** Lead-acid at rest stands between 12.0 V half full and 12.7 V full, 3 % about its middle (common practice, no source). */
const BATTERY_SPREAD: Ratio = 0.03;
/** Insulation that nobody measured is taken at 10 Mohm; it may as well be twice or half of it (common practice, no source). */
const LEAK_SPREAD = Math.log(2);
const FAR = 3;

interface Shown {
  readonly volts: Volt;
  readonly tolerance: Volt;
}

/** The states that a fault is taken through before anybody measures: what opens in one of them stays open. */
const USED = ["parked", "key-on", "ready", "driving", "charging"] as const;

/** What the meter would show of one fault, point by point, set by set. */
export interface Candidate {
  readonly fault: SingleFault | undefined;
  /** First with everything open that the fault blows in use, then with what it blows in the state measured in. */
  readonly ways: readonly (readonly Shown[])[];
}

/** What the meter would show of every fault: made once for a set of points, whatever is then read there. */
export interface Predictions {
  readonly candidates: readonly Candidate[];
}

/** Lays every single fault, and none, into the circuit. Sets of states that the drawing lacks are left out. */
export function predict(analysis: Analysis, sets: readonly PointSet[]): Predictions {
  return { candidates: [...candidates(analysis, sets)] };
}

/** The same fault by fault, for whoever has something else to do in between. */
export function* candidates(analysis: Analysis, sets: readonly PointSet[]): Generator<Candidate> {
  const meter = new Meter(analysis);
  const looked = sets.flatMap(({ state: name, points }) => {
    const state = analysis.state(name);
    return state === undefined ? [] : [{ state, points }];
  });
  for (const fault of [undefined, ...singleFaults(analysis)]) {
    yield {
      fault,
      // A fuse that the fault blows may still be whole when somebody measures in a state in which it does not blow.
      ways: waysOf(analysis, meter.devices, fault).map((open) =>
        looked.flatMap(({ state, points }) => meter.show(state, fault, open, points)),
      ),
    };
  }
}

/** All single faults and "no fault", by rank, the best explanation first. `read`: a voltage for each point, set by set. */
export function explain({ candidates: all }: Predictions, read: readonly Volt[]): readonly Explanation[] {
  const judged = all.map(({ fault, ways }) => {
    const best = ways.map((shows) => ({ fault, shows, fit: fitOf(shows, read) })).sort((a, b) => b.fit - a.fit)[0];
    return best ?? { fault, shows: [], fit: 0 };
  });
  const ordered = judged.sort((a, b) => b.fit - a.fit);
  const leaders: (readonly Shown[])[] = [];
  const ranked = ordered.map(({ fault, shows, fit }): Explanation => {
    let place = leaders.findIndex((leader) => areAlike(leader, shows));
    if (place < 0) place = leaders.push(shows) - 1;
    const against = shows.flatMap((each, at) => (distance(each, read[at] ?? 0) > FAR ? [at] : []));
    return { fault, fit, rank: place + 1, shows: shows.map(({ volts }) => volts), against };
  });
  // Within a rank "no fault" comes first: that nothing may be wrong is worth more than which of many it may be.
  const first = ({ fault }: Explanation): number => (fault === undefined ? 0 : 1);
  return ranked.sort((a, b) => a.rank - b.rank || first(a) - first(b) || b.fit - a.fit);
}

/** Which single faults explain these readings. Sets of states that the drawing lacks are left out. */
export function diagnose(analysis: Analysis, sets: readonly ReadingSet[]): readonly Explanation[] {
  const known = sets.filter(({ state }) => analysis.state(state) !== undefined);
  return explain(
    predict(analysis, known),
    known.flatMap(({ volts }) => volts),
  );
}

/** Which devices may have opened: all that the fault opens in use, or only those that it opens where somebody measures. */
function waysOf(
  analysis: Analysis,
  devices: readonly Device[],
  fault: SingleFault | undefined,
): readonly (readonly BranchIndex[])[] {
  if (fault === undefined || (fault.change.shorts ?? []).length === 0) return [[]];
  const open = new Set<BranchIndex>();
  for (const name of USED) {
    const state = analysis.state(name);
    if (state === undefined) continue;
    const { opened } = cleared(analysis, devices, state, analysis.solveChanged(state, fault.change));
    for (const { branch } of opened) open.add(branch.index);
  }
  return open.size === 0 ? [[]] : [[...open], []];
}

class Meter {
  readonly devices: readonly Device[];
  readonly #analysis: Analysis;
  readonly #spans = new Map<NodeIndex, Volt>();

  constructor(analysis: Analysis) {
    this.#analysis = analysis;
    this.devices = clearingDevices(analysis);
  }

  show(
    drawn: SolvedState,
    fault: SingleFault | undefined,
    opened: readonly BranchIndex[],
    points: readonly Points[],
  ): readonly Shown[] {
    const state = this.#state(drawn, fault, opened);
    const ohms = this.#ohms(state, points);
    return points.map(([plus, minus], place) => {
      const behind = ohms[place] ?? Infinity;
      const open = state.between(plus, minus);
      const volts = shown(open, behind);
      const exact = METER_DIGITS + METER_PART * Math.abs(volts);
      const battery = BATTERY_SPREAD * Math.abs(volts);
      const span = Math.max(Math.abs(Number.isNaN(open) ? 0 : open), this.#span(plus), this.#span(minus));
      const share = behind === Infinity ? 0 : (METER * behind) / (behind + METER) ** 2;
      return { volts, tolerance: Math.hypot(exact, battery, LEAK_SPREAD * share * span) };
    });
  }

  #state(drawn: SolvedState, fault: SingleFault | undefined, opened: readonly BranchIndex[]): SolvedState {
    if (fault === undefined) return drawn;
    const { change } = fault;
    const open = [...(change.open ?? []), ...opened];
    const faulted = this.#analysis.solveChanged(drawn, open.length === 0 ? change : { ...change, open });
    return (change.shorts ?? []).length === 0 ? faulted : cleared(this.#analysis, this.devices, drawn, faulted).state;
  }

  /** Resistance behind each reading; all readings to one point in one go. */
  #ohms(state: SolvedState, points: readonly Points[]): readonly number[] {
    const from = new Map<NodeIndex, Float64Array>();
    return points.map(([plus, minus]) => {
      let ohms = from.get(minus);
      if (ohms === undefined) from.set(minus, (ohms = this.#analysis.resistancesFrom(state, minus)));
      return ohms[plus] ?? Infinity;
    });
  }

  /** Volts that leaks may put a node up to: those of the pack that it belongs to. */
  #span(node: NodeIndex): Volt {
    let span = this.#spans.get(node);
    if (span === undefined) {
      const { traction, auxiliary } = belongingAt(this.#analysis, node);
      span = Math.max(0, ...(traction.length > 0 ? traction : auxiliary).map(({ rest }) => Math.abs(rest)));
      this.#spans.set(node, span);
    }
    return span;
  }
}

const distance = ({ volts, tolerance }: Shown, read: Volt): number => Math.abs(read - volts) / tolerance;

function fitOf(shows: readonly Shown[], read: readonly Volt[]): Ratio {
  if (shows.length === 0) return 0;
  const sum = shows.reduce((total, each, place) => total + Math.exp(-(distance(each, read[place] ?? 0) ** 2) / 2), 0);
  return sum / shows.length;
}

/** No reading lies further apart than its tolerance. */
function areAlike(one: readonly Shown[], other: readonly Shown[]): boolean {
  return one.every(({ volts, tolerance }, place) => {
    const there = other[place];
    return there !== undefined && Math.abs(volts - there.volts) <= Math.max(tolerance, there.tolerance);
  });
}
