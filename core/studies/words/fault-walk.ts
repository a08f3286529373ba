/**
 * The way of a fault current, found on the conducting network of a state: from the poles of a feed outward through
 * metal, closed contacts, devices, switched-on outputs and diodes, so that of each node the worst way is known (the
 * one whose smallest device is largest). What such a walk suspects is solved before anything is said of it.
 */
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import { positionOf } from "../../network/build.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import type { Ampere, Ohm } from "../../quantity/kinds.ts";
import { BOND_LIMIT } from "../../standards/contact-protection.ts";
import { devices } from "./devices.ts";
import type { Device } from "./devices.ts";
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
  /** Nodes that the first walk of this feed reached by the same way: nothing new is to be seen there. */
  readonly repeats: ReadonlySet<NodeIndex>;
  /** The side that metal, or a contact closed in this state, joins to the chassis. */
  readonly bonded: Side | undefined;
}

const remembered = new WeakMap<Analysis, readonly Walk[]>();

/** A walk for each feed and each different position of the contacts that the drawing can be in. */
export function walks(analysis: Analysis): readonly Walk[] {
  let all = remembered.get(analysis);
  if (all === undefined) {
    const states = differentStates(analysis);
    all = feeds(analysis).flatMap((feed) => {
      const own: Walk[] = [];
      for (const state of states) {
        const walk = walkFrom(analysis, feed, state, own[0]);
        if (walk !== undefined) own.push(walk);
      }
      return own;
    });
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
  const after = analysis.parkedAfterDriving;
  const operating = [...analysis.states, ...(after === undefined ? [] : [after])].sort((a, b) => order(a) - order(b));
  const kept: { readonly state: SolvedState; readonly closed: ReadonlySet<number> }[] = [];
  const keep = (state: SolvedState): void => {
    const closed = closedIn(analysis, state);
    if (!kept.some((earlier) => [...closed].every((index) => earlier.closed.has(index)))) kept.push({ state, closed });
  };
  for (const state of operating) keep(state);
  for (const state of byHand(analysis, new Set(kept.flatMap(({ closed }) => [...closed])))) keep(state);
  return kept.map(({ state }) => state);
}

/** Contacts, devices and outputs that are closed, and sources that deliver. */
function closedIn(analysis: Analysis, state: SolvedState): ReadonlySet<number> {
  const closed = new Set<number>();
  for (const { role, index } of analysis.network.branches) {
    if (role !== "contact" && role !== "protection" && role !== "driver" && role !== "source") continue;
    const element = state.elements[index];
    if (element?.type === "contact" ? element.closed : element?.type === "limited-source" && element.limit > 0) {
      closed.add(index);
    }
  }
  return closed;
}

/** What no operating state closes but a hand or a pedal can, each by itself: a brake lamp's switch, a selector's other side. */
function byHand(analysis: Analysis, closed: ReadonlySet<number>): readonly SolvedState[] {
  const { network } = analysis;
  const base = analysis.state("driving") ?? analysis.states[0];
  if (base === undefined) return [];
  return network.parts.flatMap((part): SolvedState[] => {
    const { control } = part.kind;
    if (control === undefined) return [];
    const open = network.branches
      .slice(part.firstBranch, part.firstBranch + part.branchCount)
      .filter(({ role, index, a, b }) => {
        const wired = [a, b].every((node) => {
          const end = network.terminalOfNode[node];
          return end !== undefined && network.wiresAt(end).length > 0;
        });
        return role === "contact" && wired && !closed.has(index);
      });
    if (open.length === 0) return [];
    return control.positions(part.values).flatMap((position) => {
      if (position === positionOf(part, base.condition)) return [];
      const state = analysis.solveChanged(base, { set: { [part.part.id]: position } });
      const closes = open.some(({ index }) => {
        const element = state.elements[index];
        return element?.type === "contact" && element.closed;
      });
      return closes ? [state] : [];
    });
  });
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

function walkFrom(analysis: Analysis, feed: Feed, state: SolvedState, earlier: Walk | undefined): Walk | undefined {
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
    // Of equal ratings the one met last.
    let largest = border.length - 1;
    for (let index = largest - 1; index >= 0; index -= 1) {
      if ((border[index]?.label.rating ?? 0) > (border[largest]?.label.rating ?? 0)) largest = index;
    }
    const next = border[largest];
    if (next === undefined) break;
    border.splice(largest, 1);
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
    chassis !== undefined &&
    chassis.devices === 0 &&
    analysis.resistanceBetween(state, chassis.origin, CHASSIS_NODE) < BOND_LIMIT
      ? chassis.side
      : undefined;
  return { feed, state, labels, poles: sides, stringDevices, repeats: repeatsOf(labels, earlier), bonded };
}

/** Labels are in the order of the walk: what a way comes from stands before it. */
function repeatsOf(labels: ReadonlyMap<NodeIndex, Label>, earlier: Walk | undefined): ReadonlySet<NodeIndex> {
  const repeats = new Set<NodeIndex>();
  if (earlier === undefined) return repeats;
  for (const [node, { from, via, side }] of labels) {
    const before = earlier.labels.get(node);
    if (before === undefined || before.via !== via || before.side !== side) continue;
    if (from === undefined || repeats.has(from)) repeats.add(node);
  }
  return repeats;
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

const polesBySide = new WeakMap<Walk, Map<Side, readonly NodeIndex[]>>();

/** Poles of one side. */
export function polesOn(walk: Walk, side: Side): readonly NodeIndex[] {
  let known = polesBySide.get(walk);
  if (known === undefined) polesBySide.set(walk, (known = new Map<Side, readonly NodeIndex[]>()));
  let nodes = known.get(side);
  if (nodes === undefined) {
    known.set(side, (nodes = [...walk.poles].flatMap(([node, own]) => (own === side ? [node] : []))));
  }
  return nodes;
}
