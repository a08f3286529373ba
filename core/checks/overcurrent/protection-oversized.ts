import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, Conductor } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import type { ConductorSize } from "../../quantity/size.ts";
import { CONTINUOUS_SHARE, largestRating, RATING_SOURCE, STANDARD_RATINGS } from "../../standards/overcurrent.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Remedy, Report } from "../define.ts";
import type { Device } from "../../studies/words/devices.ts";
import { exits } from "../../studies/words/fault-exits.ts";
import { faultCurrents, leastThrough, through, unstatedResistance } from "../../studies/words/fault-currents.ts";
import { faults } from "../../studies/words/faults.ts";
import type { Fault } from "../../studies/words/faults.ts";
import { IN_LOOP } from "../../studies/words/in-loop.ts";
import { nominalVoltage } from "../../studies/words/nominal-voltage.ts";
import { smallerDevice } from "../remedies/device-choice.ts";
import { exchangeDevice } from "../remedies/exchange-device.ts";
import { fitFuse } from "../remedies/fit-fuse.ts";
import { nextThatHolds, setSizes } from "../remedies/thicker-wire.ts";
import { partPlace } from "../words/places.ts";
import { branchLoad } from "../../studies/words/branch-load.ts";
import { nodesAlong, tapVerdict } from "../../studies/words/taps.ts";
import { ampacityAtSize, wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import type { KnownAmpacity, WireAmpacity } from "../../studies/words/wire-ampacity.ts";
import { WireVerdicts } from "../words/wire-verdicts.ts";

interface Oversized {
  readonly conductor: Conductor;
  readonly device: Device;
  readonly allowed: Ampere;
  readonly ampacity: Ampere;
  readonly fault: Fault;
  /** How many times its own rating the device lets through this wire: 2 where two strings with a fuse each feed it. */
  readonly times: number;
  /** The wire is a tap, but too long a one. */
  readonly tap: boolean;
  /** No device of the loop ends an overload. */
  readonly shortCircuitOnly: boolean;
}

export const protectionOversized = defineCheck({
  id: "protection-oversized",
  group: "overcurrent",
  title: "Fuse or breaker too large for its wire",
  about:
    "Looks at every wire with a fuse or breaker in the loop of a short circuit at its ends, and compares the smallest rating in that loop with the wire's ampacity. Below 50 V the rating may be 150 % of it, from 50 V on no more than the next larger standard size. Short taps to a device of their own or to a current-limiting resistor are left out, and so is a wire through which no short circuit drives more than its ampacity. An aR fuse does not count: it clears short circuits only.",
  severities: ["WARNING"],
  source: { text: "33 CFR 183.455(c); ampacity: 33 CFR 183.425, table 5", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    oversized: {
      title:
        "{device} is rated {rating}, but {wire} behind it may carry only {ampacity} continuously; at most {allowed} may protect it.",
      why: "The wire is the fuse then: it overheats and its insulation burns at a current that {device} lets through for minutes or for ever.",
      mend: "Fit a device of at most {allowed} there, give the thinner branch a fuse of its own where it begins, or use thicker wire for {wires}.",
    },
    shortCircuitOnly: {
      title: "Only {device} protects {wire}, and a fuse of class aR opens on short circuits alone.",
      why: "An overload of two or three times the rating heats wire and fuse until one of them burns, for such a fuse cannot interrupt it.",
      mend: "Add a full-range fuse (gR) or a breaker of at most {allowed} in series with {device}, or exchange it for one.",
    },
  },
  reasons: {
    size: "The size of {wire} is not stated, so that the device before it cannot be judged.",
    small: "{wire} is thinner than any that the table of ampacities lists.",
    insulation: "The insulation of {wire} is of a lower class than the table of ampacities lists.",
    rating: "The rating of the fuse or breaker that protects {wire} is not stated.",
    range: "Whether the device before {wire} is too large depends on figures that are only known as a range.",
    tap: "Whether {wire} is a tap short enough to do without a device sized for it is not known.",
  },
  // Wires that carry the pack's fault current only because something joins it to the chassis or the 12 V side.
  foldsUnder: ["conductor-overloaded", "traction-on-chassis", "traction-on-auxiliary", "serial-port-live"],
  run(analysis, report) {
    const verdicts = new WireVerdicts();
    const found = faults(analysis).flatMap((fault) => look(analysis, fault, verdicts));
    const groups = new Map<string, Oversized[]>();
    for (const each of found) {
      const key = `${each.device.branch.index} ${String(each.shortCircuitOnly)}`;
      const group = groups.get(key);
      if (group === undefined) groups.set(key, [each]);
      else group.push(each);
    }
    for (const group of groups.values()) fail(analysis, group, report);
    verdicts.report(analysis, report);
  },
});

function look(analysis: Analysis, fault: Fault, verdicts: WireVerdicts): readonly Oversized[] {
  if (fault.devices.length === 0) return [];
  const seen = new Set<Conductor>();
  return [fault.way, fault.back].flatMap((way) =>
    way.flatMap((branch, index): readonly Oversized[] => {
      const { conductor } = branch;
      if (conductor === undefined || seen.has(conductor)) return [];
      seen.add(conductor);
      const ampacity = wireAmpacity(analysis, conductor);
      if (!ampacity.known) {
        verdicts.notChecked(conductor, ampacity.why, ampacity.missing);
        return [];
      }
      return judge(analysis, { fault, way, index, conductor, ampacity }, verdicts);
    }),
  );
}

interface Looked {
  readonly fault: Fault;
  readonly way: readonly Branch[];
  readonly index: number;
  readonly conductor: Conductor;
  readonly ampacity: KnownAmpacity;
}

function judge(analysis: Analysis, looked: Looked, verdicts: WireVerdicts): readonly Oversized[] {
  const { fault, conductor, ampacity } = looked;
  const volts = nominalVoltage(analysis, fault.walk.feed);
  const allowed = largestRating(ampacity.low, volts);
  const counting = fault.devices.filter(({ endsOverloads }) => endsOverloads);
  if (counting.some(({ rating }) => rating !== undefined && rating <= allowed)) {
    verdicts.passes(conductor);
    return [];
  }
  const tap = tapOf(analysis, looked);
  if (tap?.verdict === "within") {
    verdicts.passes(conductor);
    return [];
  }
  const most = faultCurrents(analysis, fault, { resistances: "lowest" });
  if (through(most, conductor) <= ampacity.low) {
    verdicts.passes(conductor);
    return [];
  }
  const unrated = counting.flatMap(({ rating, ratingField }): MissingField[] =>
    rating === undefined ? [ratingField] : [],
  );
  if (unrated.length > 0) {
    verdicts.notChecked(conductor, "rating", unrated);
    return [];
  }
  if (tap?.verdict === "open") {
    verdicts.notChecked(conductor, "tap", tap.missing);
    return [];
  }
  const smallest = equivalent(counting, most, conductor);
  if (smallest !== undefined && smallest.rating <= allowed) {
    verdicts.passes(conductor);
    return [];
  }
  const device = smallest?.device ?? equivalent(fault.devices, most, conductor)?.device;
  if (device === undefined) return [];
  if (smallest === undefined && !leadsOn(analysis, fault)) {
    // Ahead of a further device, which ends the overloads of this wire as well.
    verdicts.passes(conductor);
    return [];
  }
  const least = leastThrough(analysis, fault, conductor, through(most, conductor), false);
  const sure = smallest === undefined || smallest.rating > largestRating(ampacity.high, volts);
  if (!sure || least <= ampacity.high) {
    verdicts.notChecked(conductor, "range", [...ampacity.missing, ...unstatedResistance(fault)]);
    return [];
  }
  verdicts.fails(conductor);
  const shortCircuitOnly = smallest === undefined;
  const times = smallest === undefined ? 1 : smallest.rating / (device.rating ?? smallest.rating);
  return [
    { conductor, device, allowed, ampacity: ampacity.low, fault, times, tap: tap !== undefined, shortCircuitOnly },
  ];
}

/** Does the place of the fault lead on to a consumer or an open end without a further device? */
function leadsOn(analysis: Analysis, { walk, from, way }: Fault): boolean {
  return exits(analysis, from, way[way.length - 1], walk.poles).open.length > 0;
}

/** The device that opens first, by the current that the wire then carries: two strings with a fuse each feed it twice. */
function equivalent(
  candidates: readonly Device[],
  currents: Float64Array,
  conductor: Conductor,
): { readonly device: Device; readonly rating: Ampere } | undefined {
  const own = through(currents, conductor);
  return candidates
    .flatMap((device) => {
      const current = Math.abs(currents[device.branch.index] ?? 0);
      if (current < IN_LOOP * own) return [];
      return [{ device, rating: ((device.rating ?? Infinity) * own) / current }];
    })
    .sort((a, b) => a.rating - b.rating || a.device.branch.index - b.device.branch.index)[0];
}

function tapOf(analysis: Analysis, { fault, way, index }: Looked) {
  const { walk } = fault;
  const origin = walk.labels.get(way === fault.way ? fault.from : fault.to)?.origin;
  if (origin === undefined) return undefined;
  const volts = nominalVoltage(analysis, walk.feed);
  const ratings = fault.devices.flatMap(({ rating, endsOverloads }) => (endsOverloads ? (rating ?? []) : []));
  const smallest = Math.min(...ratings);
  const thin = ({ conductor }: Branch): boolean => {
    const ampacity = conductor === undefined ? undefined : wireAmpacity(analysis, conductor);
    return ampacity === undefined || !ampacity.known || largestRating(ampacity.low, volts) < smallest;
  };
  return tapVerdict(analysis, fault, origin, way, index, thin);
}

const natural = new Intl.Collator("en", { numeric: true });

function fail(analysis: Analysis, group: readonly Oversized[], report: Report): void {
  const sorted = [...group].sort(
    (a, b) => a.allowed - b.allowed || natural.compare(a.conductor.wire.number, b.conductor.wire.number),
  );
  const [worst] = sorted;
  if (worst === undefined) return;
  const { device, allowed, ampacity, shortCircuitOnly, fault } = worst;
  const wires = [...new Set(sorted.map(({ conductor }) => conductor.wire.id))].map((wire): Place => ({ wire }));
  const rating = device.rating;
  report.fails({
    message: shortCircuitOnly ? "shortCircuitOnly" : "oversized",
    facts: {
      device: { place: partPlace(device.part) },
      wire: { place: { wire: worst.conductor.wire.id } },
      wires: { places: wires },
      ampacity: { value: ampacity, dimension: "current" },
      allowed: { value: allowed, dimension: "current" },
      ...(rating === undefined ? {} : { rating: { value: rating, dimension: "current" as const } }),
    },
    severity: "WARNING",
    where: [partPlace(device.part), ...wires],
    states: [...new Set(group.map((each) => each.fault.walk.state.name))],
    ...(rating === undefined ? {} : { value: rating }),
    limit: allowed,
    unit: "A",
    source: { ...RATING_SOURCE, text: `${RATING_SOURCE.text}; ampacity: 33 CFR 183.425, table 5` },
    touches: fault.consumer === undefined ? [] : [partPlace(fault.consumer)],
    ...(shortCircuitOnly ? { variant: "aR" } : {}),
    remedies: shortCircuitOnly ? fullRange(analysis, group) : remediesOf(analysis, group),
  });
}

/** A smaller rating where the load allows it, else a fuse where the thin branch begins, else, for a single thin wire, one that stands it. */
function remediesOf(analysis: Analysis, group: readonly Oversized[]): readonly Remedy[] {
  const [first] = group;
  if (first === undefined) return [];
  const smaller = smallerDevice(analysis, first.device, (rating) =>
    group.every(({ times, allowed }) => rating * times <= allowed),
  );
  if (smaller.length > 0) return smaller;
  const own = fuseOfItsOwn(analysis, group);
  if (own.length > 0) return own;
  // Several thin wires are a branch, and a branch wants a fuse of its own.
  if (group.some(({ tap }) => tap) || new Set(group.map(({ conductor }) => conductor)).size > 1) return [];
  const volts = Math.max(...group.map(({ fault }) => nominalVoltage(analysis, fault.walk.feed)));
  const rating = (first.device.rating ?? Infinity) * Math.max(...group.map(({ times }) => times));
  const stands = (ampacity: WireAmpacity): boolean => ampacity.known && rating <= largestRating(ampacity.low, volts);
  const loops = group.flatMap(({ fault }) => [...fault.way, ...fault.back]);
  const sizes = new Map<string, ConductorSize>();
  for (const conductor of new Set(loops.flatMap((branch) => branch.conductor ?? []))) {
    if (stands(wireAmpacity(analysis, conductor))) continue;
    const size = nextThatHolds(conductor.wire, (larger) => stands(ampacityAtSize(analysis, conductor, larger)));
    if (size === undefined) return [];
    sizes.set(conductor.wire.id, size);
  }
  const label = `Use wires thick enough for ${first.device.rating ?? ""} A behind ${first.device.part.part.designation}`;
  return [setSizes(sizes, label)];
}

/** Where all ways have their first thin wire in common. */
function fuseOfItsOwn(analysis: Analysis, group: readonly Oversized[]): readonly Remedy[] {
  const thin = new Set(group.map(({ conductor }) => conductor));
  const starts = group.map(({ fault }) => {
    const origin = fault.walk.labels.get(fault.from)?.origin ?? fault.from;
    const index = fault.way.findIndex(({ conductor }) => conductor !== undefined && thin.has(conductor));
    return { first: fault.way[index]?.conductor, near: nodesAlong(origin, fault.way)[index] };
  });
  const [one] = starts;
  const walk = group[0]?.fault.walk;
  if (walk === undefined || one?.first === undefined || one.near === undefined) return [];
  if (starts.some(({ first, near }) => first !== one.first || near !== one.near)) return [];
  return fitFuse(analysis, { walk, first: one.first, near: one.near, wires: [...thin] });
}

/** The largest full-range fuse that may protect these wires, if it carries the load; its other ratings stay. */
function fullRange(analysis: Analysis, group: readonly Oversized[]): readonly Remedy[] {
  const [first] = group;
  if (first === undefined) return [];
  const { device } = first;
  const load = branchLoad(analysis, device.branch);
  const most = Math.min(device.rating ?? Infinity, ...group.map(({ allowed }) => allowed));
  const rating = STANDARD_RATINGS.findLast((each) => each <= most);
  if (load.unknown || rating === undefined || rating * CONTINUOUS_SHARE < load.high) return [];
  return exchangeDevice(
    "full-range",
    device,
    { rating, curve: "traction-gR" },
    `of ${rating} A that clears overloads as well (gR)`,
  );
}
