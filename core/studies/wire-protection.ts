/**
 * What protects each wire of a drawing: the device that ends its overloads, what passes through it until a short
 * circuit is cleared, and where neither is so (ahead of the first device, a short tap, an output that limits itself).
 */
import type { Analysis } from "../circuit/analysis.ts";
import type { Branch, Conductor, NodeIndex } from "../network/network.ts";
import type { Ampere } from "../quantity/kinds.ts";
import { largestRating } from "../standards/overcurrent.ts";
import type { MissingField } from "./missing-field.ts";
import { prospectiveFaults } from "./prospective-current.ts";
import type { ConductorInFault, ProspectiveFault } from "./prospective-current.ts";
import { devices } from "./words/devices.ts";
import type { Device } from "./words/devices.ts";
import { exits } from "./words/fault-exits.ts";
import type { Fault } from "./words/faults.ts";
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
  /** Its rating, as this wire sees it: two strings with a fuse each feed a wire twice. */
  readonly rating: Ampere | undefined;
  /** What outputs without a device drive through it at most. */
  readonly limit: Ampere | undefined;
  /** I2t of a short circuit until it is cleared, at most 5 s, in A2s; undefined: unknown, or no device clears it. */
  readonly letThrough: number | undefined;
  readonly missing: readonly MissingField[];
}

const IN_LOOP = 0.05;

const remembered = new WeakMap<Analysis, ReadonlyMap<Conductor, WireProtection>>();

export function wireProtections(analysis: Analysis): ReadonlyMap<Conductor, WireProtection> {
  let all = remembered.get(analysis);
  if (all === undefined) {
    const seen = new Map<Conductor, Seen[]>();
    for (const at of prospectiveFaults(analysis)) {
      for (const wire of at.conductors) {
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
  const rated = inLoop
    .flatMap(({ device, current }) =>
      device.rating === undefined ? [] : [{ device, rating: (device.rating * own) / current.most }],
    )
    .sort((a, b) => a.rating - b.rating)[0];
  const nothing = { device: undefined, rating: undefined, limit: undefined, letThrough: undefined, missing: [] };
  if (rated === undefined && inLoop.length > 0) {
    return { ...nothing, how: "device", missing: inLoop.map(({ device }) => device.ratingField) };
  }
  if (rated === undefined) return withoutDevice(analysis, at.fault, wire, nothing);
  if (isTap(analysis, at.fault, wire.conductor, rated.rating)) {
    const behind = deviceBehind(analysis, at.fault, wire.conductor);
    return { ...nothing, how: "tap", device: behind, rating: behind?.rating };
  }
  return { ...nothing, ...rated, how: "device", letThrough: wire.shortTerm, missing: at.missing };
}

type Nothing = Omit<Seen, "how">;

function withoutDevice(analysis: Analysis, fault: Fault, wire: ConductorInFault, nothing: Nothing): Seen {
  const { feed } = fault.walk;
  if (!feed.storage) {
    const missing = feed.limit === undefined && feed.limitField !== undefined ? [feed.limitField] : [];
    return { ...nothing, how: "limited", limit: feed.limit, missing };
  }
  const behind = deviceBehind(analysis, fault, wire.conductor);
  if (behind === undefined) return { ...nothing, how: "unprotected" };
  const missing = behind.rating === undefined ? [behind.ratingField] : [];
  return { ...nothing, how: "ahead", device: behind, rating: behind.rating, missing };
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

/** The only device behind a wire, seen from the source; undefined where there are several, or something else. */
function deviceBehind(analysis: Analysis, fault: Fault, conductor: Conductor): Device | undefined {
  const at = onWay(fault, conductor);
  const far = at === undefined ? undefined : nodesAlong(at.origin, at.way)[at.index + 1];
  if (at === undefined || far === undefined) return undefined;
  const { open, entrances } = exits(analysis, far, at.way[at.index], fault.walk.poles);
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
    return { how: "none-needed", device: undefined, rating: undefined, limit: undefined, letThrough: 0, missing: [] };
  }
  const alike = seen.filter((one) => one.how === how);
  const worst = alike.reduce((most, one) => ((one.rating ?? Infinity) > (most.rating ?? Infinity) ? one : most));
  const limits = seen.flatMap((one) => (one.how === "limited" && one.limit !== undefined ? [one.limit] : []));
  const through = alike.map(({ letThrough }) => letThrough);
  const known = how === "device" && through.every((each) => each !== undefined);
  return {
    how,
    device: worst.device,
    rating: worst.rating,
    limit: limits.length === 0 ? undefined : Math.max(...limits),
    letThrough: known ? Math.max(...through.map((each) => each ?? 0)) : how === "limited" ? 0 : undefined,
    missing: distinct(alike.flatMap(({ missing }) => missing)),
  };
}

const distinct = (fields: readonly MissingField[]): readonly MissingField[] => [
  ...new Map(fields.map((field) => [JSON.stringify(field), field])).values(),
];
