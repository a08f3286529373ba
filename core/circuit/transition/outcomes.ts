/** What a transition comes to, read off its traces: closings, openings, resistors, coils switched off, discharges. */
import type { BranchIndex, NetworkPart } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Ohm, Second, Volt } from "../../quantity/kinds.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import type { Course } from "./course.ts";
import type { Flip } from "./log.ts";
import type { Closing, CoilTurnOff, Discharge, Opening, ResistorPulse } from "./transition.ts";

/** Time after touching in which the inrush is looked for. */
const INRUSH: Second = 0.02;
/**
 * A capacitor whose current jumps by this part of the contact's takes part in its inrush; one that jumps by more than
 * three times as much is charged through something else that closed at the same moment.
 */
const TAKES_PART = 0.1;
const THROUGH_ANOTHER = 3;
/** Below these a current or its jump is none. */
const NO_CURRENT = 1e-3;
const GONE = 1e-6;

export class Outcomes {
  readonly #course: Course;
  readonly #columns = new Map<string, Float64Array>();

  constructor(course: Course) {
    this.#course = course;
  }

  closings(): readonly Closing[] {
    const { course } = this;
    return course.log.flips
      .filter(({ closed }) => closed)
      .map((flip): Closing => {
        const { time, branch, part, before, after } = flip;
        const currents = this.#currents(branch);
        const until = Math.min(time + INRUSH, this.#nextFlip(flip)?.time ?? Infinity);
        let peak = 0;
        let last = after;
        for (let k = after; k < currents.length && course.log.traces.times[k]! <= until; k += 1) {
          peak = Math.max(peak, Math.abs(currents[k]!));
          last = k;
        }
        const through = Math.abs(currents[after]!);
        const stores = through < NO_CURRENT ? [] : course.stepper.stores.filter(({ coil }) => !coil);
        const capacitors = stores.flatMap(({ branch: store }) => {
          const own = this.#currents(store);
          const jump = Math.abs(own[after]! - own[before]!);
          return jump >= TAKES_PART * through && jump <= THROUGH_ANOTHER * through
            ? [{ branch: store, volts: this.#across(store, before) }]
            : [];
        });
        const end = this.#interpolated(currents, until, last);
        return {
          time,
          branch,
          part,
          voltsBefore: this.#across(branch, before),
          peak,
          after: Math.abs(end),
          capacitors,
        };
      });
  }

  openings(): readonly Opening[] {
    return this.course.log.flips
      .filter(({ closed }) => !closed)
      .map((flip): Opening => {
        const { time, branch, part, before, after } = flip;
        const currents = this.#currents(branch);
        let gone = after;
        while (gone < currents.length - 1 && Math.abs(currents[gone]!) > GONE) gone += 1;
        return { time, branch, part, current: currents[before] ?? 0, voltsAfter: this.#across(branch, gone) };
      });
  }

  resistors(): readonly ResistorPulse[] {
    return [...this.course.log.pulses].flatMap(([branch, { energy, peakPower, power }]) => {
      const part = this.#partOf(branch);
      return part === undefined ? [] : [{ branch, part, energy, peakPower, endPower: power }];
    });
  }

  turnOffs(): readonly CoilTurnOff[] {
    const { times } = this.course.log.traces;
    const jumps: number[] = [];
    for (let k = 0; k + 1 < times.length; k += 1) if (times[k] === times[k + 1]) jumps.push(k);
    return this.course.coils.flatMap((branch) => {
      const part = this.#partOf(branch);
      const element = this.course.drawn[branch];
      if (part === undefined || element?.type !== "coil") return [];
      const currents = this.#currents(branch);
      const found: CoilTurnOff[] = [];
      let until = -1;
      for (const k of jumps) {
        if (k <= until || Math.abs(currents[k]!) < NO_CURRENT) continue;
        const sign = Math.sign(currents[k]!);
        const before = sign * this.#across(branch, k);
        // Fed before, and no longer just after.
        if (!(before > 0) || !(sign * this.#across(branch, k + 1) < before / 4)) continue;
        const start = Math.abs(currents[k]!);
        const spec = part.kind.coils?.(part.values).find((each) => each.element === element.name);
        const dropsOut = this.course.log.events.find(
          (event) => event.what === "drops-out" && event.branch === branch && event.time >= times[k]!,
        );
        const share = spec?.dropOut !== undefined && spec.nominal !== undefined ? spec.dropOut / spec.nominal : 0.1;
        let peak = 0;
        let at = k + 1;
        const holds = (sample: number): boolean =>
          dropsOut === undefined ? Math.abs(currents[sample]!) > share * start : times[sample]! < dropsOut.time;
        for (; at < currents.length && holds(at); at += 1) {
          peak = Math.max(peak, Math.abs(this.#across(branch, at)));
        }
        const end = times[Math.min(at, times.length - 1)]!;
        found.push({ time: times[k]!, branch, part, peak, decay: end - times[k]! });
        until = at;
      }
      return found;
    });
  }

  /** Capacitors that nothing feeds any more at the end. `steady`, `drain`: where each would come to rest, and through what. */
  discharges(steady: (branch: BranchIndex) => Volt, drain: (branch: BranchIndex) => Ohm): readonly Discharge[] {
    const { stepper } = this.course;
    const { traces } = this.course.log;
    return stepper.stores.flatMap(({ branch, coil }, s) => {
      const part = this.#partOf(branch);
      const rest = coil ? NaN : Math.abs(steady(branch));
      if (coil || part === undefined || rest >= CLASS_B_DC) return [];
      const volts = this.#acrossAll(branch).map(Math.abs);
      let from = volts.length - 1;
      while (from > 0 && (traces.times[from] === traces.times[from - 1] || volts[from - 1]! >= volts[from]!)) from -= 1;
      const first = this.#feedGone(branch, from) ?? from;
      const start = volts[first] ?? 0;
      if (!(start >= CLASS_B_DC)) return [];
      const below = this.course.log.events.findLast((event) => event.what === "below-60" && event.branch === branch);
      const end = Math.abs(stepper.values[s]!);
      return [
        {
          branch,
          part,
          from: traces.times[first]!,
          start,
          below60: end < CLASS_B_DC && below !== undefined ? below.time - traces.times[first]! : undefined,
          end,
          drain: drain(branch),
        },
      ];
    });
  }

  /** The sample just after the last contact opened that the capacitor had current through. */
  #feedGone(capacitor: BranchIndex, from: number): number | undefined {
    const own = this.#currents(capacitor);
    const cut = this.course.log.flips.findLast(({ closed, branch, before, after }) => {
      const through = Math.abs(this.#currents(branch)[before]!);
      if (closed || after < from || through < NO_CURRENT) return false;
      return Math.abs(own[after]! - own[before]!) >= TAKES_PART * through;
    });
    return cut?.after;
  }

  private get course(): Course {
    return this.#course;
  }

  #nextFlip(flip: Flip): Flip | undefined {
    return this.course.log.flips.find(
      ({ branch, time, closed }) => branch === flip.branch && !closed && time > flip.time,
    );
  }

  #interpolated(column: Float64Array, time: Second, last: number): number {
    const { times } = this.course.log.traces;
    const [t0, t1] = [times[last]!, times[last + 1]];
    if (t1 === undefined || t1 <= t0 || time <= t0) return column[last]!;
    return column[last]! + ((column[last + 1]! - column[last]!) * (Math.min(time, t1) - t0)) / (t1 - t0);
  }

  #partOf(branch: BranchIndex): NetworkPart | undefined {
    return this.course.bench.network.branches[branch]?.part;
  }

  #across(branch: BranchIndex, sample: number): Volt {
    const { a, b } = this.course.bench;
    const { traces } = this.course.log;
    const volts = traces.voltsAt(a[branch] ?? CHASSIS_NODE, sample) - traces.voltsAt(b[branch] ?? CHASSIS_NODE, sample);
    // Where an end is afloat nothing drives a current through it.
    return Number.isNaN(volts) ? 0 : volts;
  }

  #acrossAll(branch: BranchIndex): Float64Array {
    const { a, b } = this.course.bench;
    const minus = this.course.log.traces.volts(b[branch] ?? CHASSIS_NODE);
    return this.course.log.traces.volts(a[branch] ?? CHASSIS_NODE).map((volts, k) => volts - minus[k]!);
  }

  #currents(branch: BranchIndex): Float64Array {
    const key = `i${String(branch)}`;
    let column = this.#columns.get(key);
    if (column === undefined) this.#columns.set(key, (column = this.course.log.traces.currents(branch)));
    return column;
  }
}
