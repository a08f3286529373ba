/**
 * What protects each wire of a drawing: the device that ends its overloads, what passes through it until a short
 * circuit is cleared, and where neither is so (ahead of the first device, a short tap, an output that limits itself).
 */
import type { Analysis } from "../circuit/analysis.ts";
import type { Branch, Conductor, NodeIndex } from "../network/network.ts";
import type { Ampere, Ratio } from "../quantity/kinds.ts";
import { largestRating } from "../standards/overcurrent.ts";
import type { MissingField } from "./missing-field.ts";
import { prospectiveFaults } from "./prospective-current.ts";
import type { ConductorInFault, ProspectiveFault } from "./prospective-current.ts";
import { devices } from "./words/devices.ts";
import type { Device } from "./words/devices.ts";
import { exits } from "./words/fault-exits.ts";
import type { Exits } from "./words/fault-exits.ts";
import type { Fault } from "./words/faults.ts";
import { IN_LOOP } from "./words/in-loop.ts";
import { nominalVoltage } from "./words/nominal-voltage.ts";
import { nodesAlong, tapVerdict } from "./words/taps.ts";
import { wireAmpacity } from "./words/wire-ampacity.ts";

/**
 * device: one stands before it; tap: a short way to a device of its own, which counts instead; ahead: none stands
 * before it, but those behind it end its overloads; unprotected: none at all; limited: fed by outputs that limit
 * themselves; none-needed: nothing drives a short circuit through it.
 */
export type ProtectedHow = "device" | "tap" | "ahead" | "unprotected" | "limited" | "none-needed";

export interface WireProtection {
  readonly how: ProtectedHow;
  readonly device: Device | undefined;
  /** That one and any other of the same loop that does as much. */
  readonly alike: readonly Device[];
  /** Its rating, as this wire sees it: two strings with a fuse each feed a wire twice. */
  readonly rating: Ampere | undefined;
  /** What outputs without a device drive through it at most. */
  readonly limit: Ampere | undefined;
  /** I2t of a short circuit until it is cleared, at most 5 s, in A2s; undefined: unknown, or no device clears it. */
  readonly letThrough: number | undefined;
  readonly missing: readonly MissingField[];
}

/** A wire through which nothing drives a short circuit. */
export const NONE_NEEDED: WireProtection = {
  how: "none-needed",
  device: undefined,
  alike: [],
  rating: undefined,
  limit: undefined,
  letThrough: 0,
  missing: [],
};

const remembered = new WeakMap<Analysis, ReadonlyMap<Conductor, WireProtection>>();

export function wireProtections(analysis: Analysis): ReadonlyMap<Conductor, WireProtection> {
  let all = remembered.get(analysis);
  if (all === undefined) {
    const seen = new Map<Conductor, Seen[]>();
    for (const at of prospectiveFaults(analysis)) {
      for (const wire of at.conductors) {
        if (wire.current.most === 0) continue;
        const list = seen.get(wire.conductor);
        const one = seenIn(analysis, at, wire);
        if (list === undefined) seen.set(wire.conductor, [one]);
        else list.push(one);
      }
    }
    all = new Map(analysis.network.conductors.map((conductor) => [conductor, together(seen.get(conductor) ?? [])]));
    remembered.set(analysis, all);
  }
  return all;
}

/** One wire in one fault. */
interface Seen {
  readonly how: Exclude<ProtectedHow, "none-needed">;
  readonly device: Device | undefined;
  readonly alike: readonly Device[];
  readonly rating: Ampere | undefined;
  readonly limit: Ampere | undefined;
  readonly letThrough: number | undefined;
  readonly missing: readonly MissingField[];
}

function seenIn(analysis: Analysis, at: ProspectiveFault, wire: ConductorInFault): Seen {
  const own = wire.current.most;
  const inLoop = at.devices.filter(
    ({ device, current }) => device.endsOverloads && current.most >= IN_LOOP * own && own > 0,
  );
  const [rated, ...more] = inLoop
    .flatMap(({ device, current }) =>
      device.rating === undefined ? [] : [{ device, rating: device.rating * shareOf(own, current.most) }],
    )
    .sort((a, b) => a.rating - b.rating);
  const nothing = {
    device: undefined,
    alike: [],
    rating: undefined,
    limit: undefined,
    letThrough: undefined,
    missing: [],
  };
  if (rated === undefined && inLoop.length > 0) {
    return { ...nothing, how: "device", missing: inLoop.map(({ device }) => device.ratingField) };
  }
  if (rated === undefined) return withoutDevice(analysis, at.fault, wire, nothing);
  if (isTap(analysis, at.fault, wire.conductor, rated.rating)) {
    const behind = deviceBehind(analysis, at.fault, wire.conductor);
    return { ...nothing, how: "tap", device: behind, rating: behind?.rating };
  }
  const same = more.filter(({ rating }) => rating <= rated.rating * 1.001);
  const alike = [rated, ...same].map(({ device }) => device);
  return { ...nothing, ...rated, alike, how: "device", letThrough: wire.shortTerm, missing: at.missing };
}

/** A wire's current by its device's; what leaks aside is no share. */
function shareOf(wire: Ampere, device: Ampere): Ratio {
  const share = wire / device;
  return Math.abs(share - 1) < 1e-3 ? 1 : share;
}

type Nothing = Omit<Seen, "how">;

function withoutDevice(analysis: Analysis, fault: Fault, wire: ConductorInFault, nothing: Nothing): Seen {
  const { feed } = fault.walk;
  if (!feed.storage) {
    const missing = feed.limit === undefined && feed.limitField !== undefined ? [feed.limitField] : [];
    return { ...nothing, how: "limited", limit: feed.limit, missing };
  }
  const beyond = exitsBehind(analysis, fault, wire.conductor);
  if (beyond !== undefined && beyond.open.length > 0) return { ...nothing, how: "unprotected" };
  const device = deviceBehind(analysis, fault, wire.conductor);
  return { ...nothing, how: "ahead", device, rating: device?.rating };
}

interface OnWay {
  readonly way: readonly Branch[];
  readonly index: number;
  readonly origin: NodeIndex;
}

function onWay({ way, back, walk, from, to }: Fault, conductor: Conductor): OnWay | undefined {
  for (const [each, end] of [
    [way, from],
    [back, to],
  ] as const) {
    const index = each.findIndex((branch) => branch.conductor === conductor);
    const origin = walk.labels.get(end)?.origin;
    if (index >= 0 && origin !== undefined) return { way: each, index, origin };
  }
  return undefined;
}

/** What lies behind a wire, seen from the source; undefined for a jumper between blocks. */
function exitsBehind(analysis: Analysis, fault: Fault, conductor: Conductor): Exits | undefined {
  const at = onWay(fault, conductor);
  const far = at === undefined ? undefined : nodesAlong(at.origin, at.way)[at.index + 1];
  return at === undefined || far === undefined ? undefined : exits(analysis, far, at.way[at.index], fault.walk.poles);
}

/** The only device behind a wire; undefined where there are several, or something else. */
function deviceBehind(analysis: Analysis, fault: Fault, conductor: Conductor): Device | undefined {
  const { open, entrances } = exitsBehind(analysis, fault, conductor) ?? { open: [], entrances: [] };
  const [only, ...more] = entrances.filter(({ branch }) => branch.role === "protection");
  if (open.length > 0 || only === undefined || more.length > 0) return undefined;
  return devices(analysis).get(only.branch.index);
}

function isTap(analysis: Analysis, fault: Fault, conductor: Conductor, rating: Ampere): boolean {
  const at = onWay(fault, conductor);
  if (at === undefined) return false;
  const volts = nominalVoltage(analysis, fault.walk.feed);
  const isThin = (branch: Branch): boolean => {
    const ampacity = branch.conductor === undefined ? undefined : wireAmpacity(analysis, branch.conductor);
    return ampacity?.known !== true || largestRating(ampacity.low, volts) < rating;
  };
  const own = at.way[at.index];
  if (own === undefined || !isThin(own)) return false;
  return tapVerdict(analysis, fault, at.origin, at.way, at.index, isThin)?.verdict === "within";
}

/** The worst protected counts: its largest device, and the most that passes. */
function together(seen: readonly Seen[]): WireProtection {
  const order: readonly Seen["how"][] = ["tap", "unprotected", "ahead", "device", "limited"];
  const how = order.find((each) => seen.some((one) => one.how === each));
  if (how === undefined) {
    return NONE_NEEDED;
  }
  // Ahead of the first device it is the largest of those behind that ends its overloads.
  const behind = how === "ahead" ? seen.filter((one) => one.how === "device") : [];
  const counting = behind.length > 0 ? behind : seen.filter((one) => one.how === how);
  const worst = counting.reduce<Seen | undefined>(
    (most, one) => (most === undefined || (one.rating ?? Infinity) > (most.rating ?? Infinity) ? one : most),
    undefined,
  );
  const limits = seen.flatMap((one) => (one.how === "limited" && one.limit !== undefined ? [one.limit] : []));
  return {
    how: how === "ahead" && worst?.device === undefined ? "unprotected" : how,
    device: worst?.device,
    alike: worst?.alike ?? [],
    rating: worst?.rating,
    limit: limits.length === 0 ? undefined : Math.max(...limits),
    letThrough: how === "limited" ? 0 : how === "device" ? mostOf(counting) : undefined,
    missing: distinct(counting.flatMap(({ missing }) => missing)),
  };
}

function mostOf(seen: readonly Seen[]): number | undefined {
  const each = seen.flatMap(({ letThrough }) => letThrough ?? []);
  return each.length < seen.length ? undefined : Math.max(...each);
}

const distinct = (fields: readonly MissingField[]): readonly MissingField[] => [
  ...new Map(fields.map((field) => [JSON.stringify(field), field])).values(),
];
