import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { Ampere, Second, SquareMetre } from "../../quantity/kinds.ts";
import { withstandEnergy } from "../../standards/short-circuit.ts";
import { adiabaticLimit, ADIABATIC_LIMIT, kOfWire } from "../../studies/adiabatic.ts";
import type { Device } from "../../studies/words/devices.ts";
import { assumedInLoop, faultCurrents, unstatedResistance } from "../../studies/words/fault-currents.ts";
import { faults } from "../../studies/words/faults.ts";
import type { Fault } from "../../studies/words/faults.ts";
import { IN_LOOP } from "../../studies/words/in-loop.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { boundsOf, clears, firstToClear, GRID, nothingKnown, stepsOf, tableOf } from "../words/clearing-bounds.ts";
import type { Bounds, Clears } from "../words/clearing-bounds.ts";
import { curveFields, distinct } from "../words/curve-fields.ts";
import { nodePlace, partPlace } from "../words/places.ts";
import { nextThatHolds, setSizes } from "../remedies/thicker-wire.ts";
import { WireVerdicts } from "../words/wire-verdicts.ts";

interface Slow {
  readonly fault: Fault;
  readonly conductor: Conductor;
  readonly device: Device;
  readonly current: Ampere;
  readonly clears: Clears;
  readonly stands: Second;
}

export const protectionSlow = defineCheck({
  id: "protection-slow",
  group: "overcurrent",
  title: "Fuse clears too slowly for its wire",
  about:
    "For a dead short at the end of every wire it compares how long the first fuse in the loop takes to clear with how long each wire of the loop stands the current, starting as hot as its insulation may be in service and losing no heat. Both are ranges: from the fuse's curve or the published limits of its class, and from the insulation. Outputs that limit their current are left out. Beyond 5 s the method does not hold; what goes on longer is looked at by its rating and as a short circuit too weak to clear.",
  severities: ["WARNING"],
  source: { text: "IEC 60364-5-54 and IEC 60949: adiabatic method, up to 5 s", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    slow: {
      title:
        "A short circuit at {fault} drives {current} through {wire}: {device} takes {time} or more to clear it, and the wire stands it for {limit}.",
      why: "Until the fuse opens, the wire gets so hot that its insulation melts off or burns; next time it is the wire that shorts.",
      mend: "Fit a faster or smaller fuse in the place of {device}, or thicker wire for {wires}.",
    },
    never: {
      title:
        "A short circuit at {fault} drives {current} through {wire}, which stands it for {limit}; {device} carries that for ever.",
      why: "The fuse takes the short circuit for a load, and the wire burns in its stead.",
      mend: "Fit a smaller fuse in the place of {device}, or thicker wire for {wires}.",
    },
  },
  reasons: {
    size: "The size of {wire} is not stated, so that it is not known what it stands.",
    curve:
      "Whether the fuse before {wire} clears before the wire gets too hot is not known from what is stated of both.",
    close:
      "The fuse before {wire} clears at about the time at which the wire gets too hot: more points of its curve, a smaller fuse or thicker wire would settle which comes first.",
    approximate: "The short-circuit current through {wire} rests on assumed wire lengths or sizes.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "protection-oversized",
    "conductor-overloaded",
    "traction-on-chassis",
    "traction-on-auxiliary",
    "serial-port-live",
  ],
  run(analysis, report) {
    const verdicts = new WireVerdicts();
    const groups = new Map<Device, Slow[]>();
    for (const fault of faults(analysis)) {
      for (const slow of look(analysis, fault, verdicts)) {
        groups.set(slow.device, [...(groups.get(slow.device) ?? []), slow]);
      }
    }
    for (const group of groups.values()) fail(analysis, group, report);
    verdicts.report(analysis, report);
  },
});

function look(analysis: Analysis, fault: Fault, verdicts: WireVerdicts): Slow[] {
  // What an output beside the battery adds is limited; the short circuit is the battery's.
  if (fault.devices.length === 0 || !fault.walk.feed.storage) return [];
  const conductors = [...new Set([...fault.way, ...fault.back].flatMap(({ conductor }) => conductor ?? []))];
  const assumed = assumedInLoop(fault);
  const bounds = assumed.length > 0 ? undefined : boundsOf(analysis, fault);
  const energy = bounds === undefined ? Infinity : mostLetThrough(fault, bounds);
  const silent = bounds !== undefined && nothingKnown(fault.devices, bounds);
  const doubtful = conductors.filter((conductor) => {
    const { area } = conductor;
    const ampacity = bounds === undefined ? undefined : wireAmpacity(analysis, conductor);
    const carries = ampacity?.known === true && (bounds?.high ?? Infinity) <= ampacity.low;
    const holds = area !== undefined && (carries || energy <= standsAtLeast(conductor, area));
    if (holds) verdicts.passes(conductor);
    return !holds;
  });
  const fields = silent ? curveFields(fault.devices) : [];
  return doubtful.flatMap((conductor): readonly Slow[] => {
    if (conductor.area === undefined) {
      verdicts.notChecked(conductor, "size", [{ wire: conductor.wire.id, field: "size" }]);
      return [];
    }
    if (assumed.length > 0) {
      verdicts.notChecked(conductor, "approximate", assumed);
      return [];
    }
    if (silent) {
      verdicts.notChecked(conductor, "curve", fields);
      return [];
    }
    return judge(analysis, fault, conductor, verdicts);
  });
}

const remembered = new WeakMap<Conductor, number>();

/** A2s that it stands for sure. */
function standsAtLeast(conductor: Conductor, area: SquareMetre): number {
  let energy = remembered.get(conductor);
  if (energy === undefined) remembered.set(conductor, (energy = withstandEnergy(area, kOfWire(conductor).low)));
  return energy;
}

/** A2s at most, whatever the current within its bounds; Infinity where only solving tells. */
function mostLetThrough(fault: Fault, bounds: Bounds): number {
  const steps = stepsOf(bounds);
  if (steps === undefined) return Infinity;
  const tables = fault.devices.map(tableOf);
  let most = 0;
  for (let step = steps.from; step < steps.to; step += 1) {
    // Time falls as the current rises: within a step it is no longer than at its lower end.
    const time = Math.min(...tables.map((table) => table.most[step] ?? Infinity));
    most = Math.max(most, (GRID[step + 1] ?? Infinity) ** 2 * time);
  }
  return most;
}

type AtEnd = { readonly verdict: "stands" | "burns" | "open" | "outside"; readonly slow?: Slow };

function judge(analysis: Analysis, fault: Fault, conductor: Conductor, verdicts: WireVerdicts): readonly Slow[] {
  const unstated = unstatedResistance(fault);
  const ends = (unstated.length === 0 ? (["lowest"] as const) : (["lowest", "highest"] as const)).map((resistances) =>
    atEnd(analysis, fault, conductor, faultCurrents(analysis, fault, { resistances })),
  );
  const all = (verdict: AtEnd["verdict"]): boolean => ends.every((end) => end.verdict === verdict);
  if (all("outside")) return [];
  if (ends.every(({ verdict }) => verdict === "stands" || verdict === "outside")) {
    verdicts.passes(conductor);
    return [];
  }
  if (all("burns")) {
    verdicts.fails(conductor);
    return ends.slice(0, 1).flatMap(({ slow }) => slow ?? []);
  }
  const fields = kOfWire(conductor).missing.map((field): MissingField => ({ wire: conductor.wire.id, field }));
  const missing = distinct([...curveFields(fault.devices), ...fields, ...unstated]);
  verdicts.notChecked(conductor, missing.length > 0 ? "curve" : "close", missing);
  return [];
}

function atEnd(analysis: Analysis, fault: Fault, conductor: Conductor, currents: Float64Array): AtEnd {
  const current = Math.abs(currents[conductor.branch] ?? 0);
  const ampacity = wireAmpacity(analysis, conductor);
  const stands = adiabaticLimit(conductor, current);
  if (stands === undefined) return { verdict: "open" };
  if (ampacity.known && current <= ampacity.low) return { verdict: "stands" };
  const currentOf = ({ branch }: Device): Ampere => Math.abs(currents[branch.index] ?? 0);
  const inLoop = fault.devices.filter((device) => currentOf(device) >= IN_LOOP * current);
  const [first] = [...inLoop].sort((a, b) => clears(a, currentOf(a)).least - clears(b, currentOf(b)).least);
  const time = firstToClear(inLoop, currentOf);
  if (time.most <= stands.least) return { verdict: "stands" };
  if (first === undefined || stands.least >= ADIABATIC_LIMIT) return { verdict: "outside" };
  if (time.least <= stands.most) return { verdict: "open" };
  return { verdict: "burns", slow: { fault, conductor, device: first, current, clears: time, stands: stands.most } };
}

const natural = new Intl.Collator("en", { numeric: true });

function fail(analysis: Analysis, group: readonly Slow[], report: Report): void {
  const ratio = ({ clears: time, stands }: Slow): number => time.least / stands;
  const sorted = [...group].sort(
    (a, b) =>
      ratio(b) - ratio(a) || natural.compare(a.conductor.wire.number, b.conductor.wire.number) || b.current - a.current,
  );
  const [worst] = sorted;
  if (worst === undefined) return;
  const { fault, conductor, device, current, clears: time, stands } = worst;
  const wires = [...new Set(sorted.map((each) => each.conductor.wire.id))].map((wire): Place => ({ wire }));
  const place = partPlace(device.part);
  const ends = time.least < Infinity;
  report.fails({
    message: ends ? "slow" : "never",
    facts: {
      fault: { place: nodePlace(analysis.network, fault.from) ?? place },
      wire: { place: { wire: conductor.wire.id } },
      wires: { places: wires },
      device: { place },
      current: { value: current, dimension: "current" },
      limit: { value: stands, dimension: "time" },
      ...(ends ? { time: { value: time.least, dimension: "time" as const } } : {}),
    },
    severity: "WARNING",
    where: [place, ...wires],
    states: [...new Set(group.map((each) => each.fault.walk.state.name))],
    ...(ends ? { value: time.least } : {}),
    limit: stands,
    unit: "s",
    touches: [...fault.walk.feed.parts, ...(fault.consumer === undefined ? [] : [fault.consumer])].map(partPlace),
    remedies: remedyOf(sorted),
  });
}

/** A thicker wire also lets more current through: it is chosen to stand this much more. */
const ROOM = 2;

/** Wires thick enough for what the fuse lets through, if it is known that it clears. */
function remedyOf(group: readonly Slow[]) {
  const energies = new Map<Conductor, number>();
  for (const { conductor, current, clears: time } of group) {
    energies.set(conductor, Math.max(energies.get(conductor) ?? 0, current ** 2 * time.most * ROOM));
  }
  const sizes = [...energies].flatMap(([conductor, energy]) => {
    const k = kOfWire(conductor).low;
    const size = nextThatHolds(conductor.wire, ({ area }) => withstandEnergy(area, k) >= energy);
    return size === undefined ? [] : [[conductor.wire.id, size] as const];
  });
  if (sizes.length < energies.size) return [];
  return [setSizes(new Map(sizes), "Use wires that stand what the fuse lets through")];
}
