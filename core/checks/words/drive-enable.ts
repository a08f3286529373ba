/**
 * The drive and its enable chain. A drive is what moves the vehicle: a controller on a traction pack, or a motor that
 * contacts alone feed. It is enabled where closed contacts feed its main pair and, of a controller, the logic lives and
 * every enable pin that is wired says go. A control belongs to the chain if moving it takes that away.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { positionOf } from "../../network/build.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Condition } from "../../parts/condition.ts";
import { referenceOf } from "../../parts/controller-terminals.ts";
import { isFed } from "../../parts/input-pin.ts";
import type { MissingField } from "../define.ts";
import { closedFeed } from "./closed-feed.ts";
import { drivePairs, fedBetween, unstatedDrivers } from "./traction-pairs.ts";
import type { TractionPair } from "./traction-pairs.ts";
import { undecidedFields } from "./undecided.ts";

/** Positions of parts, by part id. */
export type Positions = Readonly<Record<string, string>>;

/** A biased charge-inhibit that hangs open stands above this and below what counts as fed. */
const HANGING_ABOVE = 1;

/** Everything that drives the vehicle, controllers as well as motors on contacts alone. */
export function drives(analysis: Analysis): readonly TractionPair[] {
  return drivePairs(analysis).filter(({ wired }) => wired);
}

export const isController = ({ part }: Pick<TractionPair, "part">): boolean => part.kind.traits.controller === true;

/** Do closed contacts and wires feed its main pair? */
export function isPowered(analysis: Analysis, state: SolvedState, drive: TractionPair): boolean {
  return fedBetween(analysis, closedFeed(analysis, state), drive) !== undefined;
}

/**
 * Would a controller drive, as far as its pins say: logic alive, no throttle fault, interlock and a direction fed, not
 * inhibited, not braked? What the pedal asks for does not count, nor whether the state asks for motion. A motor on
 * contacts has no pins.
 */
export function isAwake(analysis: Analysis, state: SolvedState, { part }: Pick<TractionPair, "part">): boolean {
  if (part.kind.traits.controller !== true) return true;
  const own = state.partStates[part.index] ?? {};
  if (own["logic"] !== "live" || own["throttle"] === "fault") return false;
  const isWired = (pin: string): boolean => analysis.network.wiresAt([part.part.id, pin]).length > 0;
  const reference = referenceOf(part.values, isWired);
  const volts = (pin: string): number => {
    const across = state.between(part.nodes.get(pin) ?? 0, part.nodes.get(reference) ?? 0);
    return Number.isNaN(across) ? 0 : across;
  };
  const fed = (pin: string): boolean => isWired(pin) && isFed(volts(pin));
  if (isWired("interlock") && !fed("interlock")) return false;
  const inhibit = volts("charge-inhibit");
  if (isWired("charge-inhibit") && inhibit > HANGING_ABOVE && !isFed(inhibit)) return false;
  if (fed("brake") || (fed("forward") && fed("reverse"))) return false;
  // With a reverse input alone "not fed" is forward.
  return !isWired("forward") || fed("forward") || fed("reverse");
}

export function isEnabled(analysis: Analysis, state: SolvedState, drive: TractionPair): boolean {
  return isAwake(analysis, state, drive) && isPowered(analysis, state, drive);
}

/** Parts whose control a change of condition moves, with the position that they take. */
export function movedBy(
  analysis: Analysis,
  from: Condition,
  change: Partial<Condition>,
  which: (part: NetworkPart) => boolean = () => true,
): Positions {
  const to: Condition = { ...from, ...change };
  return Object.fromEntries(
    analysis.network.parts.flatMap((part): [string, string][] => {
      const position = positionOf(part, to);
      return position === positionOf(part, from) || !which(part) || !isDrawnIn(analysis, part)
        ? []
        : [[part.part.id, position]];
    }),
  );
}

/** Carries at least one wire. */
export function isDrawnIn({ network }: Analysis, { part, terminals }: NetworkPart): boolean {
  return terminals.some(({ id }) => network.wiresAt([part.id, id]).length > 0);
}

const moved = new WeakMap<SolvedState, Map<string, SolvedState>>();

/** A state with controls moved by hand; what had pulled in starts from where it was. Solved once. */
export function withMoved(analysis: Analysis, state: SolvedState, set: Positions): SolvedState {
  if (Object.keys(set).length === 0) return state;
  let known = moved.get(state);
  if (known === undefined) moved.set(state, (known = new Map<string, SolvedState>()));
  const key = JSON.stringify(Object.entries(set).sort(([a], [b]) => (a < b ? -1 : 1)));
  let changed = known.get(key);
  if (changed === undefined) known.set(key, (changed = analysis.solveChanged(state, { set })));
  return changed;
}

/** What keeps it from being told whether a drive is ever enabled, as far as somebody could state it. */
export function unstatedEnable(analysis: Analysis): readonly MissingField[] {
  const fields = [...undecidedFields(analysis), ...unstatedDrivers(analysis)];
  return [...new Map(fields.map((field) => [JSON.stringify(field), field])).values()];
}

/** Drives sorted by whether they are enabled while driving, which is where every question about the chain starts. */
export interface Running {
  readonly driving: SolvedState | undefined;
  readonly enabled: readonly TractionPair[];
  readonly never: readonly TractionPair[];
}

const remembered = new WeakMap<Analysis, Running>();

export function running(analysis: Analysis): Running {
  let found = remembered.get(analysis);
  if (found === undefined) {
    const driving = analysis.state("driving");
    const all = drives(analysis);
    const enabled = driving === undefined ? [] : all.filter((drive) => isEnabled(analysis, driving, drive));
    found = { driving, enabled, never: all.filter((drive) => !enabled.includes(drive)) };
    remembered.set(analysis, found);
  }
  return found;
}
