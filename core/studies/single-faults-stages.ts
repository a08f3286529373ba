/**
 * The moments in which a fault is looked at: operating states of the drawing, and two that follow from driving (pedal
 * released; key off or emergency stop with the pedal still pressed), reached with the fault already there.
 */
import type { Analysis, Change, ChangedState, SolvedState } from "../circuit/analysis.ts";
import { positionOf } from "../network/build.ts";
import type { Condition } from "../parts/condition.ts";

/** States of the drawing that are looked at as they are. */
const AS_DRAWN = ["stored", "parked", "key-on", "ready", "driving", "reversing", "charging"] as const;

/** Which controls are moved by hand out of driving. */
const OUT_OF_DRIVING = {
  idle: { throttle: "idle" },
  braking: { throttle: "idle", brake: "pressed" },
  "plugged-in": { mains: "plugged" },
  "key-off": { key: "off" },
  "emergency-stop": { emergencyStop: "pressed" },
} as const satisfies Readonly<Record<string, Partial<Condition>>>;

/**
 * driven    motion is asked for                       rest     nobody asks for motion
 * stopped   the key or the emergency stop has to end it, pedal pressed    plugged  the charging cable has to
 */
export type Demand = "driven" | "rest" | "stopped" | "plugged";

const DEMANDS: Readonly<Record<string, Demand>> = {
  driving: "driven",
  reversing: "driven",
  "plugged-in": "plugged",
  "key-off": "stopped",
  "emergency-stop": "stopped",
};

export interface Stage {
  readonly name: string;
  readonly demand: Demand;
  /** The state in which the fault comes; undefined: it came while driving, then `set` was moved. */
  readonly state: SolvedState | undefined;
  readonly set: Readonly<Record<string, string>> | undefined;
}

/** In the order in which they are told. A stage whose controls the drawing lacks is left out. */
export function stagesOf(analysis: Analysis): readonly Stage[] {
  const stage = (name: string, state: SolvedState | undefined, set?: Stage["set"]): Stage => ({
    name,
    demand: DEMANDS[name] ?? "rest",
    state,
    set,
  });
  const stages = AS_DRAWN.flatMap((name): Stage[] => {
    const state = analysis.state(name);
    return state === undefined ? [] : [stage(name, state)];
  });
  const driving = analysis.state("driving");
  if (driving === undefined) return stages;
  const moved = Object.entries(OUT_OF_DRIVING).flatMap(([name, controls]): Stage[] => {
    const set = movedBy(analysis, driving, controls);
    const turned = name === "key-off" && set === undefined ? movedBy(analysis, driving, { toggle: "off" }) : set;
    if (turned === undefined) return [];
    // With the pedal released a fault may come as well: a throttle's wire breaks while the vehicle stands.
    const standing = name === "idle" ? [stage(name, analysis.solveChanged(driving, { set: turned }))] : [];
    return [...standing, stage(name, undefined, turned)];
  });
  return [...stages, ...moved];
}

/** Parts of which a control stands elsewhere when these are moved; undefined if none does. */
function movedBy(
  { network }: Analysis,
  { condition }: SolvedState,
  controls: Partial<Condition>,
): Readonly<Record<string, string>> | undefined {
  const other = { ...condition, ...controls };
  const set = network.parts.flatMap((part) => {
    const position = positionOf(part, other);
    return position === positionOf(part, condition) ? [] : [[part.part.id, position] as const];
  });
  return set.length === 0 ? undefined : Object.fromEntries(set);
}

/** A stage with a change, from driving with that change where it follows from driving. */
export class Staged {
  readonly #analysis: Analysis;
  readonly #change: Change | undefined;
  #driving: SolvedState | undefined;

  constructor(analysis: Analysis, change: Change | undefined) {
    this.#analysis = analysis;
    this.#change = change;
  }

  state({ state, set }: Stage): SolvedState | undefined {
    if (state !== undefined) return this.#changed(state);
    const driving = this.#analysis.state("driving");
    if (driving === undefined) return undefined;
    this.#driving ??= this.#changed(driving);
    return set === undefined ? undefined : this.#analysis.solveChanged(this.#driving, { set });
  }

  /** What a stage has come to (a fuse has opened in it): the stages that follow from driving begin there. */
  reached({ name }: Stage, state: SolvedState): void {
    if (name === "driving") this.#driving = state;
  }

  #changed(state: SolvedState): SolvedState | ChangedState {
    return this.#change === undefined ? state : this.#analysis.solveChanged(state, this.#change);
  }
}
