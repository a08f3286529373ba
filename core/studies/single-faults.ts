/**
 * The single-fault study: what each single fault of a drawing leads to, how bad that is, and whether anybody would
 * notice it before a second one comes. Failure mode and effects analysis after IEC 60812, on the solved circuit.
 */
import type { Analysis, SolvedState } from "../circuit/analysis.ts";
import type { SingleFault } from "../circuit/faults.ts";
import { singleFaults } from "../circuit/faults.ts";
import { CHASSIS_NODE } from "../network/network.ts";
import type { NetworkPart, NodeIndex } from "../network/network.ts";
import type { Ratio, Volt } from "../quantity/kinds.ts";
import { CLASS_B_DC } from "../standards/voltage-class.ts";
import type { Place } from "./place.ts";
import { cleared, clearingDevices } from "./single-faults-clearing.ts";
import { Effects, isBehaviour, rankOf } from "./single-faults-effects.ts";
import type { Effect, EffectKind, Severity } from "./single-faults-effects.ts";
import { fedLeast, fieldsLost, isReversed, Watch } from "./single-faults-observed.ts";
import type { Observed } from "./single-faults-observed.ts";
import { DrawnReadings } from "./single-faults-readings.ts";
import { Staged, stagesOf } from "./single-faults-stages.ts";
import type { Stage } from "./single-faults-stages.ts";
import { belongingAt, isTraction } from "./words/belongs.ts";
import type { Device } from "./words/devices.ts";

export interface Consequence {
  readonly fault: SingleFault;
  /** Worst first; empty where nothing changes. */
  readonly effects: readonly Effect[];
  /** Of the worst effect. */
  readonly severity: Severity | undefined;
  /** No behaviour changes and no reading to chassis or to a battery's minus shows it, in any state looked at. */
  readonly hidden: boolean;
}

const MOTIONS: ReadonlySet<EffectKind> = new Set<EffectKind>(["moves-at-idle", "cannot-be-stopped", "stop-lost"]);

/** Every single fault with what it leads to, worst first; faults of equal rank in the order of the drawing. */
export function singleFaultStudy(analysis: Analysis): readonly Consequence[] {
  const all = singleFaults(analysis).map((fault) => faultConsequence(analysis, fault));
  const ranks = new Map(all.map((each) => [each, rankOf(each.effects)]));
  return [...all].sort((one, other) => (ranks.get(one) ?? 0) - (ranks.get(other) ?? 0) || 0);
}

const studies = new WeakMap<Analysis, Study>();

/** What one fault leads to. Kept for an analysis, so that checks may ask again. */
export function faultConsequence(analysis: Analysis, fault: SingleFault): Consequence {
  let study = studies.get(analysis);
  if (study === undefined) studies.set(analysis, (study = new Study(analysis)));
  return study.of(fault);
}

/** Stages in which a fault can set the vehicle going or keep it going: driving comes first, as others follow from it. */
const MOTION: ReadonlySet<string> = new Set(["ready", "driving", "idle", "key-off", "emergency-stop"]);

/**
 * Of what a fault leads to only moves-at-idle, cannot-be-stopped and stop-lost: a third of the work, for a check that
 * asks this of many faults.
 */
export function faultMotion(analysis: Analysis, fault: SingleFault): readonly Effect[] {
  let study = studies.get(analysis);
  if (study === undefined) studies.set(analysis, (study = new Study(analysis)));
  return study.motion(fault);
}

interface Drawn {
  readonly stage: Stage;
  readonly state: SolvedState;
  readonly observed: Observed;
}

/** A stage in which the drive has to be ended, and what turns in spite of it. */
interface Stopped {
  readonly name: string;
  readonly turning: readonly NetworkPart[];
}

class Study {
  readonly #analysis: Analysis;
  readonly #watch: Watch;
  readonly #drawn: readonly Drawn[];
  readonly #fed: readonly Volt[];
  readonly #traction: readonly boolean[];
  readonly #devices: readonly Device[];
  readonly #readings: DrawnReadings;
  readonly #known = new Map<SingleFault, Consequence>();

  constructor(analysis: Analysis) {
    this.#analysis = analysis;
    this.#watch = new Watch(analysis);
    const staged = new Staged(analysis, undefined);
    this.#drawn = stagesOf(analysis).flatMap((stage): Drawn[] => {
      const state = staged.state(stage);
      return state === undefined ? [] : [{ stage, state, observed: this.#watch.observe(state) }];
    });
    this.#fed = fedLeast(
      this.#drawn.map(({ observed }) => observed),
      this.#watch.pairs.length,
    );
    this.#traction = this.#watch.pairs.map(({ plus, pair }) => pair.main && isTraction(analysis, plus));
    this.#devices = clearingDevices(analysis);
    this.#readings = new DrawnReadings(analysis);
  }

  of(fault: SingleFault): Consequence {
    let known = this.#known.get(fault);
    if (known === undefined) this.#known.set(fault, (known = this.#look(fault)));
    return known;
  }

  #look(fault: SingleFault): Consequence {
    const effects = new Effects();
    const staged = new Staged(this.#analysis, fault.change);
    const stopped: Stopped[] = [];
    const seen: (readonly [SolvedState, SolvedState])[] = [];
    for (const drawn of this.#drawn) {
      const faulted = staged.state(drawn.stage);
      if (faulted === undefined) continue;
      const { state, opened } = cleared(this.#analysis, this.#devices, drawn.state, faulted);
      staged.reached(drawn.stage, state);
      if (opened.length > 0) {
        const places = opened.map(({ part }) => partPlace(part));
        effects.add("device-clears", "CAUTION", drawn.stage.name, places);
      }
      const now = this.#watch.observe(state);
      this.#moves(drawn, now.turning, stopped, effects);
      this.#compare(drawn, now, state, effects);
      seen.push([drawn.state, state]);
    }
    this.#stops(stopped, effects);
    this.#isolation(fault, effects);
    const list = effects.list();
    return {
      fault,
      effects: list,
      severity: list[0]?.severity,
      hidden: !list.some(isBehaviour) && !seen.some(([drawn, now]) => this.#readings.differ(drawn, now)),
    };
  }

  motion(fault: SingleFault): readonly Effect[] {
    const known = this.#known.get(fault);
    if (known !== undefined) return known.effects.filter(({ kind }) => MOTIONS.has(kind));
    const effects = new Effects();
    const staged = new Staged(this.#analysis, fault.change);
    const stopped: Stopped[] = [];
    for (const drawn of this.#drawn) {
      const faulted = MOTION.has(drawn.stage.name) ? staged.state(drawn.stage) : undefined;
      if (faulted === undefined) continue;
      const { state } = cleared(this.#analysis, this.#devices, drawn.state, faulted);
      staged.reached(drawn.stage, state);
      this.#moves(drawn, this.#watch.turning(state), stopped, effects);
    }
    this.#stops(stopped, effects);
    return effects.list();
  }

  #moves({ stage, observed }: Drawn, now: Observed["turning"], stopped: Stopped[], effects: Effects): void {
    const { name, demand } = stage;
    const turning = [...now.keys()].filter((part) => !observed.turning.has(part));
    if (demand === "stopped") stopped.push({ name, turning });
    else if (demand === "rest" && turning.length > 0) {
      effects.add("moves-at-idle", "DANGER", name, turning.map(partPlace));
    } else if (demand === "plugged" && turning.length > 0) {
      effects.add("drives-plugged", "WARNING", name, turning.map(partPlace));
    }
  }

  #stops(stopped: readonly Stopped[], effects: Effects): void {
    const failed = stopped.filter(({ turning }) => turning.length > 0);
    const all = failed.length === stopped.length;
    for (const { name, turning } of failed) {
      effects.add(all ? "cannot-be-stopped" : "stop-lost", all ? "DANGER" : "WARNING", name, turning.map(partPlace));
    }
  }

  #compare(
    { stage, state: drawnState, observed: drawn }: Drawn,
    now: Observed,
    state: SolvedState,
    effects: Effects,
  ): void {
    const { name, demand } = stage;
    const { contacts, limits, pairs, wires } = this.#watch;
    if (demand === "driven") {
      const lost = [...drawn.turning.keys()].filter((part) => !now.turning.has(part));
      if (lost.length > 0) effects.add("drive-lost", "NOTICE", name, lost.map(partPlace));
      const turned = [...now.turning].filter(([part, way]) => (drawn.turning.get(part) ?? way) !== way);
      if (turned.length > 0)
        effects.add(
          "wrong-way",
          "DANGER",
          name,
          turned.map(([part]) => partPlace(part)),
        );
      const runaway = fieldsLost(drawn, now);
      if (runaway.length > 0) effects.add("field-lost", "DANGER", name, runaway.map(partPlace));
    }
    for (const part of now.shorted) {
      if (drawn.shorted.includes(part)) continue;
      const traction = this.#analysis.packs.some(({ duty, blocks }) => duty === "traction" && blocks.includes(part));
      effects.add("source-shorted", traction ? "DANGER" : "WARNING", name, [partPlace(part)]);
    }
    wires.forEach(({ wire, branch, most }, place) => {
      const value = now.overloaded[place] ?? 0;
      if (value === 0 || value <= Math.abs(drawnState.currents[branch] ?? 0) * WORSE) return;
      const traction = isTraction(this.#analysis, this.#analysis.network.branches[branch]?.a ?? CHASSIS_NODE);
      effects.add("unprotected-current", traction ? "DANGER" : "WARNING", name, [{ wire }], {
        value,
        limit: most,
        unit: "A",
      });
    });
    limits.forEach(({ part, most, limit }, place) => {
      const value = now.above[place] ?? 0;
      if (value === 0 || (drawn.above[place] ?? 0) > 0) return;
      const severity = value > CLASS_B_DC && most <= CLASS_B_DC ? "DANGER" : "WARNING";
      const at = [{ part: part.part.id, terminal: limit.a }];
      effects.add("overvoltage", severity, name, at, { value, limit: most, unit: "V" });
    });
    pairs.forEach(({ part, pair }, place) => {
      const [before, after] = [drawn.volts[place] ?? 0, now.volts[place] ?? 0];
      const least = this.#fed[place] ?? Infinity;
      const [was, is] = [Math.abs(before) >= least, Math.abs(after) >= least];
      if (pair.polarised && isReversed(after) && !isReversed(before) && this.#drives(state, place)) {
        effects.add("supply-reversed", "WARNING", name, [partPlace(part)], { value: -after, unit: "V" });
      } else if (was && !is) effects.add("load-unfed", "NOTICE", name, [partPlace(part)]);
      else if (is && !was && this.#drives(state, place))
        this.#fedUnasked(stage, part, this.#traction[place] === true, after, effects);
    });
    contacts.forEach(({ part }, place) => {
      const [was, is] = [drawn.closed[place] === true, now.closed[place] === true];
      if (was === is) return;
      // The break contact of a relay that pulls in opens: that is no relay that stays out.
      if (was && !is && !isMake(this.#drawn, place)) return;
      if (!was && is && !isMake(this.#drawn, place)) return;
      const severity = is && part.kind.traits.contactor === true ? "WARNING" : "NOTICE";
      effects.add(is ? "closes-unasked" : "does-not-close", severity, name, [partPlace(part)]);
    });
    const stays = [...drawn.charging].filter((part) => !now.charging.has(part));
    if (stays.length > 0) effects.add("does-not-charge", "NOTICE", name, stays.map(partPlace));
    const restless = now.chatter.filter((part) => !drawn.chatter.includes(part));
    if (restless.length > 0) effects.add("chatters", "WARNING", name, restless.map(partPlace));
  }

  /** Does more than a leak stand behind this voltage? */
  #drives(state: SolvedState, place: number): boolean {
    const at = this.#watch.pairs[place];
    if (at === undefined) return false;
    return (
      Math.abs(state.between(at.plus, at.minus)) / this.#analysis.resistanceBetween(state, at.plus, at.minus) > 1e-3
    );
  }

  #fedUnasked(stage: Stage, part: NetworkPart, traction: boolean, volts: Volt, effects: Effects): void {
    const figure = { value: Math.abs(volts), unit: "V" } as const;
    if (!traction) effects.add("runs-unasked", "NOTICE", stage.name, [partPlace(part)]);
    else
      effects.add(
        stage.demand === "stopped" ? "stays-live" : "live-unasked",
        "WARNING",
        stage.name,
        [partPlace(part)],
        figure,
      );
  }

  /** A short from the traction side to chassis or to the 12 V side, where the drawing keeps them apart. */
  #isolation({ change }: SingleFault, effects: Effects): void {
    for (const [one, other] of change.shorts ?? []) {
      this.#joins(one, other, effects);
      this.#joins(other, one, effects);
    }
  }

  #joins(live: NodeIndex, other: NodeIndex, effects: Effects): void {
    const [here, there] = [belongingAt(this.#analysis, live), belongingAt(this.#analysis, other)];
    const [pack] = here.traction;
    if (pack === undefined || here.chassis || here.auxiliary.length > 0 || there.traction.length > 0) return;
    const volts = pack.highest;
    const severity: Severity = volts > CLASS_B_DC ? "WARNING" : "CAUTION";
    const places = nodePlaces(this.#analysis, live);
    const figure = { value: volts, unit: "V" } as const;
    if (other === CHASSIS_NODE || there.chassis)
      effects.add("traction-on-chassis", severity, undefined, places, figure);
    if (other !== CHASSIS_NODE && there.auxiliary.length > 0) {
      effects.add("traction-on-auxiliary", severity, undefined, places, figure);
    }
  }
}

/** A wire overloaded as drawn counts only where the fault makes it clearly worse (common practice, no source). */
const WORSE: Ratio = 1.2;

/** A contact that is open in the first stage as drawn (parked) makes when its coil pulls in. */
function isMake(drawn: readonly Drawn[], place: number): boolean {
  return drawn[0]?.observed.closed[place] !== true;
}

function partPlace({ part }: NetworkPart): Place {
  return { part: part.id };
}

function nodePlaces({ network }: Analysis, node: NodeIndex): readonly Place[] {
  const end = network.terminalOfNode[node];
  return end === undefined ? [] : [{ part: end[0], terminal: end[1] }];
}
