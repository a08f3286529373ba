/**
 * The operating states as data: where every control stands, and from which state each one is reached. The table is
 * the one in DEVELOPERS.md, "Operating states"; a row here is a column there.
 */
import type { Condition, StateName } from "../parts/condition.ts";
import { BUILT_IN_STATES } from "../parts/condition.ts";
import type { Network, NetworkPart } from "../network/network.ts";
import { positionOf } from "../network/build.ts";
import { REFERENCE_CONDITION } from "../network/reference-condition.ts";

export type BuiltInState = (typeof BUILT_IN_STATES)[number];

const READY: Condition = REFERENCE_CONDITION;
const PARKED: Condition = {
  ...READY,
  state: "parked",
  key: "off",
  toggle: "off",
  selector: "centre",
  parkingBrake: "set",
  seat: "empty",
  gear: "neutral",
  timers: "by-circuit",
};
const KEY_ON: Condition = {
  ...PARKED,
  state: "key-on",
  key: "on",
  toggle: "on",
  button: "pressed",
  seat: "seated",
  capacitors: "kept",
  timers: "not-elapsed",
};
const DRIVING: Condition = { ...READY, state: "driving", throttle: "full", pack: "loaded", drive: "forward" };

export const CONDITIONS: Readonly<Record<BuiltInState, Condition>> = {
  stored: { ...PARKED, state: "stored", disconnect: "out", capacitors: "empty" },
  parked: PARKED,
  "key-on": KEY_ON,
  "pre-charging": { ...KEY_ON, state: "pre-charging", capacitors: "part" },
  ready: READY,
  driving: DRIVING,
  "driving-low": { ...DRIVING, state: "driving-low", pack: "low" },
  reversing: { ...DRIVING, state: "reversing", selector: "b", drive: "reverse" },
  regenerating: {
    ...DRIVING,
    state: "regenerating",
    throttle: "idle",
    brake: "pressed",
    pack: "taking-current",
    drive: "regeneration",
  },
  "emergency-stop": { ...DRIVING, state: "emergency-stop", emergencyStop: "pressed", timers: "by-circuit" },
  charging: { ...PARKED, state: "charging", mains: "plugged", pack: "on-charge" },
};

/** The state whose contact positions and electrical pieces each one starts from; undefined = everything open. */
export const PREDECESSORS: Readonly<Record<BuiltInState, BuiltInState | undefined>> = {
  stored: undefined,
  parked: undefined,
  "key-on": "parked",
  "pre-charging": "key-on",
  ready: "pre-charging",
  driving: "ready",
  "driving-low": "driving",
  reversing: "driving",
  regenerating: "driving",
  "emergency-stop": "driving",
  charging: "parked",
};

/** The share of its steady voltage that a capacitor has in *pre-charging*: one time constant, 1 - 1/e. */
export const PRECHARGED_PART = 0.632;

export function isBuiltIn(name: StateName): name is BuiltInState {
  return (BUILT_IN_STATES as readonly string[]).includes(name);
}

/** Which built-in states a drawing has: a state whose controls it lacks is left out. */
export function statesOf(network: Network): readonly BuiltInState[] {
  const { parts } = network;
  const moves = (from: BuiltInState, to: BuiltInState): boolean =>
    parts.some((part) => positionOf(part, CONDITIONS[from]) !== positionOf(part, CONDITIONS[to]));
  const needs: Partial<Record<BuiltInState, () => boolean>> = {
    stored: () => parts.some(isDisconnect),
    reversing: () => moves("driving", "reversing") || parts.some((part) => hasReverseInput(network, part)),
    regenerating: () =>
      parts.some(({ kind, values }) => kind.traits.controller === true && values.choice("regeneration") === "yes"),
    "emergency-stop": () => moves("driving", "emergency-stop"),
    charging: () => parts.some(({ kind }) => kind.traits.charger === true),
  };
  return BUILT_IN_STATES.filter((name) => needs[name]?.() ?? true);
}

/** Opens the circuit by hand and without electricity: a disconnect, or a breaker stated to have a handle. */
export function isDisconnect({ kind, values }: NetworkPart): boolean {
  return kind.traits.disconnect === true || (kind.traits.device === "breaker" && values.choice("manual") === "yes");
}

function hasReverseInput(network: Network, part: NetworkPart): boolean {
  return (
    part.kind.traits.controller === true &&
    part.nodes.has("reverse") &&
    network.wiresAt([part.part.id, "reverse"]).length > 0
  );
}
