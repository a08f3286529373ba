/**
 * The way of a fault current, found on the conducting network of a state: from the poles of a feed outward through
 * metal, closed contacts, devices, switched-on outputs and diodes, so that of each node the worst way is known (the
 * one whose smallest device is largest). What such a walk suspects is solved before anything is said of it.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import type { Ampere, Ohm } from "../../quantity/kinds.ts";
import { isBonded } from "./bonded.ts";
import { devices } from "./devices.ts";
import type { Device } from "./devices.ts";
import { everyState } from "./every-state.ts";
import { feeds, poles } from "./feeds.ts";
import type { Feed, Side } from "./feeds.ts";

export interface Label {
  readonly side: Side;
  readonly origin: NodeIndex;
  readonly from: NodeIndex | undefined;
  readonly via: Branch | undefined;
  /** The smallest device on the way; Infinity where there is none, or none of known rating. */
  readonly rating: Ampere;
  readonly devices: number;
}

export interface Walk {
  readonly feed: Feed;
  readonly state: SolvedState;
  readonly labels: ReadonlyMap<NodeIndex, Label>;
  readonly poles: ReadonlyMap<NodeIndex, Side>;
  /** Devices between the blocks of the string. */
  readonly stringDevices: readonly Device[];
  /** The side that metal joins to the chassis. */
  readonly bonded: Side | undefined;
}

const remembered = new WeakMap<Analysis, readonly Walk[]>();

/** A walk for each feed and each different position of the contacts that the drawing can be in. */
export function walks(analysis: Analysis): readonly Walk[] {
  let all = remembered.get(analysis);
  if (all === undefined) {
    const states = differentStates(analysis);
    all = feeds(analysis).flatMap((feed) => states.flatMap((state) => walkFrom(analysis, feed, state) ?? []));
    remembered.set(analysis, all);
  }
  return all;
}

/** Where most contacts are closed, first. */
const FIRST: readonly string[] = ["driving", "charging"];

/** States in which some contact is closed that no state before them closes along with the same others. */
function differentStates(analysis: Analysis): readonly SolvedState[] {
  const order = (state: SolvedState): number => {
    const at = FIRST.indexOf(state.name);
    return at === -1 ? FIRST.length : at;
  };
  const kept: { readonly state: SolvedState; readonly closed: ReadonlySet<number> }[] = [];
  const switching = analysis.network.branches.filter(
    ({ role }) => role === "contact" || role === "protection" || role === "driver",
  );
  for (const state of [...everyState(analysis)].sort((a, b) => order(a) - order(b))) {
    const closed = new Set<number>();
    for (const { index } of switching) {
      const element = state.elements[index];
      if (element?.type === "contact" && element.closed) closed.add(index);
    }
    for (const { sources } of feeds(analysis)) {
      for (const { index } of sources) {
        const element = state.elements[index];
        if (element?.type === "limited-source" && element.limit > 0) closed.add(index);
      }
    }
    if (kept.some((earlier) => [...closed].every((index) => earlier.closed.has(index)))) continue;
    kept.push({ state, closed });
  }
  return kept.map(({ state }) => state);
}

/** What resists more than this limits a fault current instead of passing it on. Common practice, no source. */
const LIMITING: Ohm = 1;

/** A controller's transistors from its own B+ (to a field winding): electronics limit what they let through. */
function isPowerStage({ role, part, a }: Branch): boolean {
  if (role !== "driver" || part === undefined) return false;
  return part.kind.supplyPairs(part.values).some(({ main, plus }) => main && part.nodes.get(plus) === a);
}

/** May a fault current pass this branch, coming from `at` on this side? */
function passes(state: SolvedState, branch: Branch, at: NodeIndex, side: Side): boolean {
  switch (branch.role) {
    case "conductor":
    case "shunt":
    case "contact":
    case "protection":
    case "driver": {
      const element = state.elements[branch.index];
      if (element?.type === "contact") {
        return element.closed && element.resistance < LIMITING && !isPowerStage(branch);
      }
      return element?.type === "resistance";
    }
    case "diode":
      return state.elements[branch.index]?.type === "diode" && at === (side === "minus" ? branch.b : branch.a);
    default:
      return false;
  }
}

function walkFrom(analysis: Analysis, feed: Feed, state: SolvedState): Walk | undefined {
  const { network } = analysis;
  const known = devices(analysis);
  const beside = neighbours(network);
  const sides = poles(feed, state);
  if (sides.size < 2) return undefined;
  const labels = new Map<NodeIndex, Label>();
  /** Devices at the border of what is reached, largest first: so each node gets its worst way. */
  const border: { readonly to: NodeIndex; readonly label: Label }[] = [];
  const queue: NodeIndex[] = [];
  const take = (node: NodeIndex, label: Label): void => {
    if (labels.has(node)) return;
    labels.set(node, label);
    queue.push(node);
  };
  for (const [origin, side] of sides) {
    take(origin, { side, origin, from: undefined, via: undefined, rating: Infinity, devices: 0 });
  }
  for (;;) {
    for (let head = 0; head < queue.length; head += 1) {
      const at = queue[head] ?? CHASSIS_NODE;
      const here = labels.get(at);
      if (here === undefined) continue;
      for (const { to, branch } of beside(at)) {
        if (labels.has(to) || !passes(state, branch, at, here.side)) continue;
        const device = known.get(branch.index);
        const label = { side: here.side, origin: here.origin, from: at, via: branch };
        if (device === undefined) take(to, { ...label, rating: here.rating, devices: here.devices });
        else {
          const rating = Math.min(here.rating, device.rating ?? Infinity);
          border.push({ to, label: { ...label, rating, devices: here.devices + 1 } });
        }
      }
    }
    queue.length = 0;
    border.sort((a, b) => a.label.rating - b.label.rating);
    const next = border.pop();
    if (next === undefined) break;
    take(next.to, next.label);
  }
  const stringDevices = [...known.values()].filter(({ branch }) => {
    const element = state.elements[branch.index];
    if (element?.type !== "contact" || !element.closed) return false;
    const [a, b] = [labels.get(branch.a), labels.get(branch.b)];
    return a !== undefined && b !== undefined && a.origin !== b.origin && a.devices === 0 && b.devices === 0;
  });
  const chassis = labels.get(CHASSIS_NODE);
  const bonded =
    chassis !== undefined && chassis.devices === 0 && isBonded(analysis, state, chassis.origin)
      ? chassis.side
      : undefined;
  return { feed, state, labels, poles: sides, stringDevices, bonded };
}

/** The way from a pole to a node, pole first; empty at the pole itself. */
export function wayTo(walk: Walk, node: NodeIndex): readonly Branch[] {
  const way: Branch[] = [];
  for (let at = walk.labels.get(node); at?.via !== undefined; ) {
    way.push(at.via);
    at = at.from === undefined ? undefined : walk.labels.get(at.from);
  }
  return way.reverse();
}

/** Poles of one side. */
export function polesOn(walk: Walk, side: Side): readonly NodeIndex[] {
  return [...walk.poles].flatMap(([node, own]) => (own === side ? [node] : []));
}
