/**
 * Prospective current: what a dead short drives at each pair of terminals and behind each device, from the least to
 * the most that the batteries' resistance allows; how soon a device clears it, what passes until then (I2t), and how
 * hot each conductor of the loop gets. IEC 60909's principle on the solved network: sources behind their resistance.
 */
import type { Analysis, SolvedState } from "../circuit/analysis.ts";
import type { Conductor, NodeIndex } from "../network/network.ts";
import type { Ampere, Kelvin, Second } from "../quantity/kinds.ts";
import { parseQuantity } from "../quantity/parse.ts";
import { ADIABATIC_LIMIT, temperatureAfter } from "./adiabatic.ts";
import { clearingDevice, clearingTime } from "./fuse-clearing.ts";
import type { MissingField } from "./missing-field.ts";
import type { Device } from "./words/devices.ts";
import { devices } from "./words/devices.ts";
import { assumedInLoop, faultCurrents, unstatedResistance } from "./words/fault-currents.ts";
import { polesOn, walks } from "./words/fault-walk.ts";
import type { Walk } from "./words/fault-walk.ts";
import { faults } from "./words/faults.ts";
import type { Fault } from "./words/faults.ts";
import { IN_LOOP } from "./words/in-loop.ts";

/** From the highest to the lowest resistance of the batteries; alike where it is stated. */
export interface CurrentRange {
  readonly least: Ampere;
  readonly most: Ampere;
}

export interface DeviceInFault {
  readonly device: Device;
  readonly current: CurrentRange;
  /** When it has cleared, over the whole range of current; undefined: not known (no rating, no curve). */
  readonly clears: TimeRange | undefined;
  /** The same at the most and (where the batteries' resistance is a range) at the least current. */
  readonly ends: readonly ClearsAt[];
}

export interface ClearsAt {
  readonly current: Ampere;
  readonly clears: TimeRange | undefined;
}

/** Infinity as `most`: nothing says that it clears. */
export interface TimeRange {
  readonly least: Second;
  readonly most: Second;
}

export interface ConductorInFault {
  readonly conductor: Conductor;
  readonly current: CurrentRange;
  /** I2t until the first device has cleared, in A2s; undefined: no device, or not known when it clears. */
  readonly letThrough: number | undefined;
  /** The same of the first 5 s, which is as far as the adiabatic method goes; undefined: not known when it clears. */
  readonly shortTerm: number | undefined;
  /** Its temperature then, from the highest in service on; undefined: size or let-through unknown. */
  readonly heatsTo: Kelvin | undefined;
}

export interface ProspectiveFault {
  readonly fault: Fault;
  /** Through the short itself. */
  readonly current: CurrentRange;
  readonly devices: readonly DeviceInFault[];
  /** When the first of them has cleared. */
  readonly cleared: TimeRange | undefined;
  readonly conductors: readonly ConductorInFault[];
  /** What to state so that least and most become one and nothing rests on an assumption. */
  readonly missing: readonly MissingField[];
}

/** Insulation of unstated class: the usual one of PVC. */
const UNSTATED: Kelvin = 343.15;

const remembered = new WeakMap<Analysis, readonly ProspectiveFault[]>();

/**
 * Every short circuit that protection is judged by (at consumers across their terminals, elsewhere from pole to pole,
 * to a bonded chassis), each with its currents, clearing and heat.
 */
export function prospectiveFaults(analysis: Analysis): readonly ProspectiveFault[] {
  let all = remembered.get(analysis);
  if (all === undefined) remembered.set(analysis, (all = faults(analysis).map((fault) => lookAt(analysis, fault))));
  return all;
}

/** Currents of every branch at the most, and at the least where that differs. */
function endsOf(analysis: Analysis, fault: Fault): readonly Float64Array[] {
  const most = faultCurrents(analysis, fault, { resistances: "lowest" });
  if (unstatedResistance(fault).length === 0) return [most];
  return [most, faultCurrents(analysis, fault, { resistances: "highest" })];
}

function lookAt(analysis: Analysis, fault: Fault): ProspectiveFault {
  const ends = endsOf(analysis, fault);
  const own = ends.map((currents) => fault.devices.map((device) => deviceAt(device, currents)));
  const inFault = fault.devices.map((device, index): DeviceInFault => {
    const each = own.flatMap((at) => at[index] ?? []);
    return {
      device,
      current: rangeOf(each.map(({ current }) => current)),
      clears: widest(each.map((at) => at.clears)),
      ends: each,
    };
  });
  const onWay = [...fault.way, ...fault.back].flatMap(({ conductor }) => conductor ?? []);
  const conductors = [...new Set([...onWay, ...withinString(analysis, fault)])].map((conductor) =>
    conductorAt(conductor, ends, own),
  );
  return {
    fault,
    current: rangeOf(ends.map((currents) => shortOf(fault, currents))),
    devices: inFault,
    cleared: widest(own.map(firstOf)),
    conductors,
    missing: distinct([...unstatedResistance(fault), ...assumedInLoop(fault), ...inFault.flatMap(unclear)]),
  };
}

/** Wires within a string, between its blocks: what a fault from pole to pole drives passes them as well. */
function withinString(analysis: Analysis, { walk, from }: Fault): readonly Conductor[] {
  const { feed, labels, poles } = walk;
  if (!feed.storage || labels.get(from)?.side === "middle") return [];
  const isWithin = (node: NodeIndex): boolean => poles.has(node) || labels.get(node)?.side === "middle";
  return analysis.network.conductors.filter(({ a, b }) => isWithin(a) && isWithin(b));
}

/** What the last branch before the short carries; a short right at a pole is the whole of what the pole gives. */
function shortOf({ way, back }: Fault, currents: Float64Array): Ampere {
  const last = way[way.length - 1] ?? back[back.length - 1];
  return last === undefined ? 0 : Math.abs(currents[last.index] ?? 0);
}

function deviceAt(device: Device, currents: Float64Array): ClearsAt {
  const current = Math.abs(currents[device.branch.index] ?? 0);
  return { current, clears: clearingTime(clearingDevice(device.part), current) };
}

/** The first of several devices to clear: sooner than any of them may, later than the surest of them does not. */
function firstOf(each: readonly ClearsAt[]): TimeRange | undefined {
  const known = each.flatMap(({ clears }) => clears ?? []);
  if (known.length === 0) return undefined;
  // One of unknown curve may clear at once.
  const least = known.length < each.length ? 0 : Math.min(...known.map(({ least: own }) => own));
  return { least, most: Math.min(...known.map(({ most }) => most)) };
}

function conductorAt(
  conductor: Conductor,
  ends: readonly Float64Array[],
  own: readonly (readonly ClearsAt[])[],
): ConductorInFault {
  const currents = ends.map((each) => Math.abs(each[conductor.branch] ?? 0));
  const times = currents.map((current, index) => {
    const inLoop = (own[index] ?? []).filter((at) => at.current >= IN_LOOP * current);
    return firstOf(inLoop)?.most;
  });
  const energyWithin = (limit: Second): number | undefined => {
    const each = currents.map((current, index) => {
      const time = times[index];
      return current === 0 ? 0 : time === undefined ? Infinity : current ** 2 * Math.min(time, limit);
    });
    const most = Math.max(...each);
    return Number.isFinite(most) ? most : undefined;
  };
  const letThrough = energyWithin(Infinity);
  const { area } = conductor;
  const heatsTo =
    area === undefined || letThrough === undefined ? undefined : temperatureAfter(area, classOf(conductor), letThrough);
  return { conductor, current: rangeOf(currents), letThrough, shortTerm: energyWithin(ADIABATIC_LIMIT), heatsTo };
}

function classOf({ wire }: Conductor): Kelvin {
  const typed = wire.insulation?.temperature;
  const reading = typed == null ? undefined : parseQuantity(typed, "temperature");
  return reading?.ok === true ? reading.value : UNSTATED;
}

const rangeOf = (currents: readonly Ampere[]): CurrentRange => ({
  least: Math.min(...currents),
  most: Math.max(...currents),
});

/** From the soonest to the latest; unknown at one end of the current is unknown. */
function widest(times: readonly (TimeRange | undefined)[]): TimeRange | undefined {
  const known = times.flatMap((time) => time ?? []);
  if (known.length < times.length || known.length === 0) return undefined;
  return { least: Math.min(...known.map(({ least }) => least)), most: Math.max(...known.map(({ most }) => most)) };
}

/** What to state of a device before it is known when it clears. */
function unclear({ device, clears }: DeviceInFault): readonly MissingField[] {
  if (clears !== undefined) return [];
  if (device.rating === undefined) return [device.ratingField];
  return "curvePoints" in device.part.kind.parameters ? [{ part: device.part.part.id, parameter: "curvePoints" }] : [];
}

const distinct = (fields: readonly MissingField[]): readonly MissingField[] => [
  ...new Map(fields.map((field) => [JSON.stringify(field), field])).values(),
];

/** A short right behind a device. */
export interface BehindDevice {
  readonly walk: Walk;
  readonly from: NodeIndex;
  readonly to: NodeIndex;
}

/**
 * The place right behind a device, towards the nearest point of the other pole; between blocks: across the whole
 * string. Undefined for a device that no battery reaches.
 */
export function behindDevice(analysis: Analysis, device: Device): BehindDevice | undefined {
  const { a, b, index } = device.branch;
  for (const walk of walks(analysis)) {
    if (!walk.feed.storage) continue;
    const [plus] = polesOn(walk, "plus");
    const [minus] = polesOn(walk, "minus");
    if (plus === undefined || minus === undefined) continue;
    if (walk.stringDevices.includes(device)) return { walk, from: plus, to: minus };
    const [atA, atB] = [walk.labels.get(a), walk.labels.get(b)];
    if (atA === undefined || atB === undefined) continue;
    const far = atA.via?.index === index ? a : atB.via?.index === index ? b : atA.devices > atB.devices ? a : b;
    return { walk, from: far, to: walk.labels.get(far)?.side === "minus" ? plus : minus };
  }
  return undefined;
}

/** What a short behind a device drives through it, from least to most; undefined for a device that no battery reaches. */
export function currentBehind(analysis: Analysis, device: Device): CurrentRange | undefined {
  const behind = behindDevice(analysis, device);
  if (behind === undefined) return undefined;
  const at = (resistances: "lowest" | "highest"): Ampere => {
    const shorts = [[behind.from, behind.to] as const];
    const { currents } = analysis.solveChanged(behind.walk.state, { shorts, hold: true, resistances });
    return Math.abs(currents[device.branch.index] ?? 0);
  };
  return rangeOf([at("lowest"), at("highest")]);
}

/** What a dead short between any two nodes carries in a state, everything else as it stands. */
export function currentBetween(analysis: Analysis, state: SolvedState, a: NodeIndex, b: NodeIndex): CurrentRange {
  const at = (resistances: "lowest" | "highest"): Ampere =>
    Math.abs(analysis.solveChanged(state, { shorts: [[a, b]], hold: true, resistances }).shortCurrents[0] ?? 0);
  return rangeOf([at("lowest"), at("highest")]);
}

/** Currents of a short between the two poles of every battery, nothing else in the way. */
export function currentsAtPoles(
  analysis: Analysis,
): readonly { readonly pack: Walk["feed"]; readonly current: CurrentRange }[] {
  const done = new Set<Walk["feed"]>();
  return walks(analysis).flatMap((walk) => {
    const { feed, state } = walk;
    const [plus] = polesOn(walk, "plus");
    const [minus] = polesOn(walk, "minus");
    if (!feed.storage || done.has(feed) || plus === undefined || minus === undefined) return [];
    done.add(feed);
    return [{ pack: feed, current: currentBetween(analysis, state, plus, minus) }];
  });
}

/** Whether the device next to a fault clears before those nearer to the source. */
export interface Selectivity {
  readonly at: ProspectiveFault;
  readonly nearest: DeviceInFault;
  readonly others: readonly DeviceInFault[];
  /** lost: at some current one further up is sure to clear first, or at the same time at the latest. */
  readonly verdict: "selective" | "lost" | "unknown";
}

/** Every fault with at least two devices in its way, judged by their clearing times over the whole range of current. */
export function selectivity(analysis: Analysis): readonly Selectivity[] {
  const known = devices(analysis);
  return prospectiveFaults(analysis).flatMap((at): Selectivity[] => {
    const { way, back } = at.fault;
    const last = way.findLast(({ index }) => known.has(index)) ?? back.findLast(({ index }) => known.has(index));
    const nearest = at.devices.find(({ device }) => device.branch === last);
    if (nearest === undefined || at.devices.length < 2) return [];
    const others = at.devices.filter((each) => each !== nearest);
    return [{ at, nearest, others, verdict: verdictOf(nearest, others) }];
  });
}

/** One answer for every current that there may be, else unknown. */
function verdictOf(nearest: DeviceInFault, others: readonly DeviceInFault[]): Selectivity["verdict"] {
  const each = nearest.ends.map(({ clears: own }, end) => {
    const theirs = others.map(({ ends }) => ends[end]?.clears);
    if (own === undefined) return "unknown";
    if (theirs.some((clears) => clears !== undefined && clears.most < own.least)) return "lost";
    return theirs.every((clears) => clears !== undefined && own.most < clears.least) ? "selective" : "unknown";
  });
  const [first = "unknown", ...more] = each;
  return more.every((verdict) => verdict === first) ? first : "unknown";
}
