/**
 * The bolted faults that protection is judged by (33 CFR 183.455 asks for a device in every ungrounded conductor): at
 * a consumer across its own two terminals; anywhere else to the opposite pole, behind that pole's first device where
 * all of the pole lies behind devices; and to a chassis that a pole is bonded to.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import { devices } from "./devices.ts";
import type { Device } from "./devices.ts";
import { exits, isWiredNode, pairsAt } from "./fault-exits.ts";
import type { Exits } from "./fault-exits.ts";
import { polesOn, walks, wayTo } from "./fault-walk.ts";
import type { Walk } from "./fault-walk.ts";

export interface Fault {
  readonly walk: Walk;
  readonly from: NodeIndex;
  readonly to: NodeIndex;
  /** From the pole to the fault, and from the fault back to the other pole (listed pole first). */
  readonly way: readonly Branch[];
  readonly back: readonly Branch[];
  /** Devices that the walk met on the way, on the way back, and between the blocks. */
  readonly devices: readonly Device[];
  /** The consumer at the fault, if it is at one. */
  readonly consumer: NetworkPart | undefined;
}

/** What lies between a pole and the first devices on its side. */
export interface PoleRegion {
  readonly origin: NodeIndex;
  readonly exits: Exits;
  /** Every way out leads through a device. */
  readonly covered: boolean;
}

const rememberedFaults = new WeakMap<Analysis, readonly Fault[]>();
const rememberedRegions = new WeakMap<Analysis, Map<NodeIndex, PoleRegion>>();

export function poleRegion(analysis: Analysis, walk: Walk, origin: NodeIndex): PoleRegion {
  let known = rememberedRegions.get(analysis);
  if (known === undefined) rememberedRegions.set(analysis, (known = new Map<NodeIndex, PoleRegion>()));
  let region = known.get(origin);
  if (region === undefined) {
    const found = exits(analysis, origin, undefined, walk.poles);
    const covered = found.open.length === 0 && found.entrances.some(({ branch }) => branch.role === "protection");
    known.set(origin, (region = { origin, exits: found, covered }));
  }
  return region;
}

/** The point of the opposite pole that a fault reaches: behind its largest first device if all of it is covered. */
export function opposite(
  analysis: Analysis,
  walk: Walk,
  side: "plus" | "minus",
): { readonly node: NodeIndex; readonly back: readonly Branch[]; readonly device: Device | undefined } | undefined {
  const [origin] = polesOn(walk, side);
  if (origin === undefined) return undefined;
  const region = poleRegion(analysis, walk, origin);
  if (!region.covered) return { node: origin, back: [], device: undefined };
  const known = devices(analysis);
  const first = region.exits.entrances
    .flatMap(({ branch, node }) => {
      const device = known.get(branch.index);
      const far = branch.a === node ? branch.b : branch.a;
      return device === undefined || !walk.labels.has(far) ? [] : [{ device, far }];
    })
    .sort((a, b) => (b.device.rating ?? Infinity) - (a.device.rating ?? Infinity))[0];
  if (first === undefined) return { node: origin, back: [], device: undefined };
  return { node: first.far, back: wayTo(walk, first.far), device: first.device };
}

/** Every fault once for each different set of devices in its way. */
export function faults(analysis: Analysis): readonly Fault[] {
  let all = rememberedFaults.get(analysis);
  if (all === undefined) {
    const seen = new Set<string>();
    all = walks(analysis).flatMap((walk) =>
      inWalk(analysis, walk).filter((fault) => {
        const met = fault.devices.map(({ branch }) => branch.index).sort((a, b) => a - b);
        const key = `${walk.feed.sources[0]?.index ?? ""} ${fault.from} ${fault.to} ${met.join(" ")}`;
        if (seen.has(key)) return false;
        seen.add(key);
        return true;
      }),
    );
    rememberedFaults.set(analysis, all);
  }
  return all;
}

function inWalk(analysis: Analysis, walk: Walk): readonly Fault[] {
  const { labels, feed, bonded } = walk;
  const pairs = pairsAt(analysis);
  const targets = { plus: opposite(analysis, walk, "minus"), minus: opposite(analysis, walk, "plus") };
  const chassisBack = bonded === undefined ? [] : wayTo(walk, CHASSIS_NODE);
  const found: Fault[] = [];
  const done = new Set<string>();
  const add = (from: NodeIndex, to: NodeIndex, back: readonly Branch[], consumer?: NetworkPart): void => {
    const key = from < to ? `${from} ${to}` : `${to} ${from}`;
    if (from === to || done.has(key) || (walk.repeats.has(from) && walk.repeats.has(to))) return;
    done.add(key);
    const way = wayTo(walk, from);
    if (way.length === 0 && back.length === 0) return;
    const met = onWay(analysis, [...way, ...back]);
    // A device between the blocks is in every loop from pole to pole, as long as there is one string.
    const whole = labels.get(from)?.side !== "middle" && polesOn(walk, "plus").length === 1;
    found.push({ walk, from, to, way, back, devices: whole ? [...met, ...walk.stringDevices] : met, consumer });
  };
  for (const [node, label] of labels) {
    if (walk.poles.has(node) || !isWiredNode(analysis, node)) continue;
    const consumers = (pairs.get(node) ?? []).filter(({ part }) => !feed.parts.includes(part) || feed.storage);
    const hot = label.side === bonded ? false : label.side !== "minus" || label.devices > 0 || bonded !== undefined;
    for (const { part, plus, minus } of consumers) {
      const other = node === plus ? minus : plus;
      const there = labels.get(other);
      // Looked at once for each pair, from its plus.
      if (there === undefined || there.origin === label.origin || node !== plus) continue;
      add(node, other, wayTo(walk, other), part);
    }
    if (!hot) continue;
    if (consumers.length === 0) {
      const target = targets[label.side === "minus" ? "minus" : "plus"];
      if (target !== undefined) add(node, target.node, target.back);
    } else if (bonded !== undefined && consumers.every((at) => returnsElsewhere(walk, node, at))) {
      add(node, CHASSIS_NODE, chassisBack, consumers[0]?.part);
    }
  }
  return found;
}

/** Does the other terminal of the pair reach the chassis only through a device, or not at all in this state? */
function returnsElsewhere(
  walk: Walk,
  node: NodeIndex,
  { plus, minus }: { readonly plus: NodeIndex; readonly minus: NodeIndex },
): boolean {
  const there = walk.labels.get(node === plus ? minus : plus);
  return there === undefined || there.devices > 0 || there.side !== walk.bonded;
}

function onWay(analysis: Analysis, way: readonly Branch[]): readonly Device[] {
  const known = devices(analysis);
  const met = new Map<number, Device>();
  for (const { index } of way) {
    const device = known.get(index);
    if (device !== undefined) met.set(index, device);
  }
  return [...met.values()];
}
