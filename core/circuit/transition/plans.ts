/**
 * The transitions as data: the operating state each one starts from, what is moved when, and how long it is watched.
 * Which of them a drawing has follows from its controls.
 */
import type { BranchIndex, Network, NetworkPart } from "../../network/network.ts";
import { positionOf } from "../../network/build.ts";
import type { Condition, StateName } from "../../parts/condition.ts";
import type { Second } from "../../quantity/kinds.ts";
import { CONDITIONS, isDisconnect, statesOf } from "../conditions.ts";
import type { BuiltInState } from "../conditions.ts";
import type { Sources } from "../duty.ts";
import { TRANSITIONS, type TransitionName } from "./transition.ts";

/** Controls moved at one moment, by the driver or by what happens to the vehicle. */
export interface Move {
  /**
   * Seconds after the start; or, with `quiet`, as soon as nothing moves any more, but not before `at` and at the latest
   * `quiet` seconds after it: a driver waits until the vehicle is ready.
   */
  readonly at: Second;
  readonly quiet?: Second;
  /** Where every control stands from then on. */
  readonly condition: Condition;
  /** Sources lost at this moment. */
  readonly lost?: readonly BranchIndex[];
  /** Plain words: "the key goes to on". */
  readonly says: string;
}

export interface Plan {
  readonly name: TransitionName;
  readonly from: BuiltInState;
  readonly to: StateName;
  readonly moves: readonly Move[];
  /** Watched at most this long after the last move; shorter where nothing moves any more. */
  readonly watch: Second;
  /** Outputs do what they do while their electronics start up. */
  readonly bounce?: true;
}

/** What is watched for at most after the last control has moved. */
const WATCHED: Second = 10;
/** Capacitors empty slowly once everything is off: long enough to see 60 s and a good deal beyond. */
const WATCHED_EMPTYING: Second = 600;
/** How a driver handles controls (common practice, no source). */
const BUTTON_PRESSED: Second = 0.5;
const SETTLES_WITHIN: Second = 5;
const FOOT_OFF: Second = 1;
/** Off and on again at once, as when a driver thinks that the vehicle has not started. */
const OFF_AND_ON: Second = 0.2;

const { parked, ready, driving, charging } = CONDITIONS;
/** Time runs by the clock here, not by the condition. */
const timed = (condition: Condition): Condition => ({ ...condition, timers: "by-circuit" });

const KEY_ON = timed({ ...CONDITIONS["key-on"] });
const PRECHARGING = timed({ ...CONDITIONS["pre-charging"] });
/** At the end of driving: key and switches off first, with the foot still down; everything else follows. */
const KEY_OFF = timed({ ...driving, state: "parked", key: "off", toggle: "off" });

const STARTING: readonly Move[] = [
  { at: 0, condition: KEY_ON, says: "the key goes to on" },
  { at: 0.1, condition: PRECHARGING, says: "the driver waits for the pre-charge" },
  { at: BUTTON_PRESSED, condition: { ...PRECHARGING, button: "released" }, says: "push buttons are let go" },
  {
    at: BUTTON_PRESSED + 0.1,
    quiet: SETTLES_WITHIN,
    condition: timed(ready),
    says: "gear, selector and parking brake are set for driving",
  },
];

/** The transitions of a drawing, in the order of their names. */
export function plansOf(network: Network, sources: Sources): readonly Plan[] {
  return TRANSITIONS.flatMap((name) => planOf(name, network, sources) ?? []);
}

/** What happens in a transition; undefined where the drawing has not the controls for it. */
function planOf(name: TransitionName, network: Network, sources: Sources): Plan | undefined {
  const { parts } = network;
  const moves = (from: Condition, to: Condition): boolean =>
    parts.some((part) => positionOf(part, from) !== positionOf(part, to));
  const has = (state: BuiltInState): boolean => statesOf(network).includes(state);
  switch (name) {
    case "key-on":
      if (!moves(parked, ready)) return undefined;
      return { name, from: "parked", to: "ready", moves: STARTING, watch: WATCHED };
    case "drive":
      if (!moves(ready, driving) && !parts.some(({ kind }) => kind.traits.controller === true)) return undefined;
      return {
        name,
        from: "ready",
        to: "driving",
        moves: [{ at: 0, condition: timed(driving), says: "the pedal goes down" }],
        watch: WATCHED,
      };
    case "key-off":
      if (!moves(driving, KEY_OFF)) return undefined;
      return {
        name,
        from: "driving",
        to: "parked",
        moves: [
          { at: 0, condition: KEY_OFF, says: "the key goes to off, with the pedal still down" },
          { at: FOOT_OFF, condition: timed(parked), says: "the pedal is let go and the vehicle parked" },
        ],
        watch: WATCHED_EMPTYING,
      };
    case "key-off-on":
      if (!moves(driving, KEY_OFF)) return undefined;
      return {
        name,
        from: "driving",
        to: "ready",
        moves: [
          {
            at: 0,
            condition: { ...KEY_OFF, throttle: "idle", drive: "none", pack: "rest" },
            says: "the pedal is let go and the key goes to off",
          },
          { at: OFF_AND_ON, condition: timed(ready), says: "the key goes to on again" },
        ],
        watch: WATCHED,
      };
    case "emergency-stop":
      if (!has("emergency-stop")) return undefined;
      return {
        name,
        from: "driving",
        to: "emergency-stop",
        moves: [
          { at: 0, condition: timed(CONDITIONS["emergency-stop"]), says: "the emergency stop is pressed at full load" },
        ],
        watch: WATCHED_EMPTYING,
      };
    case "plug-in":
      if (!has("charging")) return undefined;
      return {
        name,
        from: "parked",
        to: "charging",
        moves: [{ at: 0, condition: timed(charging), says: "the charging plug goes in" }],
        watch: WATCHED,
      };
    case "unplug":
      if (!has("charging")) return undefined;
      return {
        name,
        from: "charging",
        to: "parked",
        moves: [{ at: 0, condition: timed(parked), says: "the charging plug is pulled" }],
        watch: WATCHED_EMPTYING,
      };
    case "disconnect":
      return disconnecting(network);
    case "supply-lost": {
      const lost = auxiliarySources(sources);
      if (lost.length === 0) return undefined;
      return {
        name,
        from: "driving",
        to: "driving",
        moves: [{ at: 0, condition: timed(driving), lost, says: "the 12 V supply is lost" }],
        watch: WATCHED_EMPTYING,
      };
    }
    case "output-bounce":
      if (!moves(parked, ready) || !parts.some(bounces)) return undefined;
      return { name, from: "parked", to: "ready", moves: STARTING, watch: WATCHED, bounce: true };
  }
}

/** At full load what may break it, or of which nobody said that it must not; else, with everything off, all of them. */
function disconnecting(network: Network): Plan | undefined {
  const all = network.parts.filter(isDisconnect);
  if (all.length === 0) return undefined;
  const underLoad = all.filter(({ values }) => values.choice("breakLoad") !== "no");
  const from = underLoad.length > 0 ? "driving" : "parked";
  const pulled = underLoad.length > 0 ? underLoad : all;
  const set = Object.fromEntries(pulled.map(({ part }) => [part.id, "out"]));
  const names = pulled.map(({ part }) => part.designation).join(", ");
  const condition = { ...timed(CONDITIONS[from]), set };
  return {
    name: "disconnect",
    from,
    to: from === "parked" ? "stored" : "driving",
    moves: [{ at: 0, condition, says: `${names} ${pulled.length === 1 ? "is" : "are"} pulled while ${from}` }],
    watch: WATCHED_EMPTYING,
  };
}

/** An output stated to be on, or to do nobody knows what, while its electronics start up. */
function bounces({ values }: NetworkPart): boolean {
  const boot = values.choice("outputBootState");
  return boot === "on" || boot === "undefined";
}

function auxiliarySources({ edges, duties }: Sources): readonly BranchIndex[] {
  return edges.filter((_, index) => duties[index] === "auxiliary").map(({ branch }) => branch.index);
}
