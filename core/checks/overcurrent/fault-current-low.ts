import type { Analysis } from "../../circuit/analysis.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { ADIABATIC_LIMIT } from "../../studies/adiabatic.ts";
import { clearingDevice, clearingTime } from "../../studies/fuse-clearing.ts";
import { devices } from "../../studies/words/devices.ts";
import type { Device } from "../../studies/words/devices.ts";
import { assumedInLoop, faultCurrents, unstatedResistance } from "../../studies/words/fault-currents.ts";
import { faults } from "../../studies/words/faults.ts";
import type { Fault } from "../../studies/words/faults.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { boundsOf, firstToClear, isOpenLoop, nothingKnown, stepsOf, tableOf } from "../words/clearing-bounds.ts";
import { curveFields, distinct } from "../words/curve-fields.ts";
import { smallerDevice } from "../remedies/device-choice.ts";
import { nodePlace, partPlace } from "../words/places.ts";

export const faultCurrentLow = defineCheck({
  id: "fault-current-low",
  group: "overcurrent",
  title: "Short circuit too weak to clear its fuse",
  about:
    "For a dead short at the far end of every wire it asks whether the first fuse in the loop clears within 5 s, with the wires as hot as their insulation allows, as that is when the least current flows. It goes by the fuse's curve or the published limits of its class. Outputs that limit their current are left out: no fuse clears on them.",
  severities: ["WARNING"],
  source: { text: "IEC 60364-4-41 (disconnection within 5 s) and IEC 60364-5-54", known: "memory" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    weak: {
      title:
        "A short circuit at {fault} drives no more than {current}, and {device} ({rating}) does not clear it within {limit}.",
      why: "The short circuit goes on as if it were a load: the place of the fault and everything in the way gets hot until something burns.",
      mend: "Fit a smaller or faster fuse in the place of {device}, or thicker or shorter wires on the way to {fault}.",
    },
  },
  reasons: {
    curve:
      "Whether {device} clears a short circuit at the far end of its branch within 5 s is not known from what is stated of it.",
    approximate:
      "The short-circuit current at the far end of the branch of {device} rests on assumed wire lengths or sizes.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "protection-oversized",
    "protection-slow",
    "conductor-overloaded",
    "traction-on-chassis",
    "traction-on-auxiliary",
  ],
  run(analysis, report) {
    const found = new Map<Device, Found>();
    for (const fault of faults(analysis)) {
      const device = nearestTo(analysis, fault);
      if (device === undefined || !fault.walk.feed.storage) continue;
      const own = found.get(device) ?? { passed: false, weak: [], open: [] };
      found.set(device, own);
      look(analysis, fault, own);
    }
    for (const [device, own] of found) tell(analysis, device, own, report);
  },
});

interface Weak {
  readonly fault: Fault;
  readonly current: Ampere;
}
interface Found {
  passed: boolean;
  readonly weak: Weak[];
  readonly open: { readonly reason: "curve" | "approximate"; readonly missing: readonly MissingField[] }[];
}

/** The last device on the way to the fault. */
function nearestTo(analysis: Analysis, { way, back }: Fault): Device | undefined {
  const known = devices(analysis);
  const last = way.findLast(({ index }) => known.has(index)) ?? back.findLast(({ index }) => known.has(index));
  return last === undefined ? undefined : known.get(last.index);
}

function look(analysis: Analysis, fault: Fault, found: Found): void {
  const assumed = assumedInLoop(fault);
  if (assumed.length > 0) {
    found.open.push({ reason: "approximate", missing: assumed });
    return;
  }
  const bounds = boundsOf(analysis, fault);
  const steps = bounds === undefined ? undefined : stepsOf(bounds);
  if (steps !== undefined && fault.devices.some((device) => clearsFrom(device, steps.from))) {
    found.passed = true;
    return;
  }
  if (bounds !== undefined && nothingKnown(fault.devices, bounds)) {
    found.open.push({ reason: "curve", missing: curveFields(fault.devices) });
    return;
  }
  const ends = hotCurrents(analysis, fault);
  const nearest = nearestTo(analysis, fault);
  if (nearest === undefined || ends.some((currentOf) => isOpenLoop(currentOf(nearest)))) return;
  const times = ends.map((currentOf) => firstToClear(fault.devices, currentOf));
  if (times.every(({ most }) => most <= ADIABATIC_LIMIT)) found.passed = true;
  else if (times.every(({ least }) => least > ADIABATIC_LIMIT)) {
    found.weak.push({ fault, current: Math.max(...ends.map((currentOf) => currentOf(nearest))) });
  } else {
    const missing = distinct([...curveFields(fault.devices), ...unstatedResistance(fault)]);
    found.open.push({ reason: "curve", missing });
  }
}

/** Within 5 s at this step of the grid, and so at every higher current. */
const clearsFrom = (device: Device, step: number): boolean =>
  (tableOf(device).most[step] ?? Infinity) <= ADIABATIC_LIMIT;

/**
 * Currents of the devices with hot wires, and where the batteries' resistance is a range, at both its ends: in a loop
 * resistances add, so that 1/I of hot wires and 1/I of another battery add as well.
 */
function hotCurrents(analysis: Analysis, fault: Fault): readonly ((device: Device) => Ampere)[] {
  const change = { shorts: [[fault.from, fault.to] as const], hold: true };
  const at = (resistances: "nominal" | "hot"): Float64Array =>
    analysis.solveChanged(fault.walk.state, { ...change, resistances }).currents;
  const through = (currents: Float64Array, { branch }: Device): Ampere => Math.abs(currents[branch.index] ?? 0);
  const hot = at("hot");
  if (unstatedResistance(fault).length === 0) return [(device) => through(hot, device)];
  const nominal = at("nominal");
  return (["lowest", "highest"] as const).map((resistances) => {
    const end = faultCurrents(analysis, fault, { resistances });
    return (device) => {
      const inverse = 1 / through(hot, device) + 1 / through(end, device) - 1 / through(nominal, device);
      return inverse > 0 ? 1 / inverse : 0;
    };
  });
}

function tell(analysis: Analysis, device: Device, { passed, weak, open }: Found, report: Report): void {
  const place = partPlace(device.part);
  const facts = { device: { place } } as const;
  const worst = weak.reduce<Weak | undefined>(
    (least, each) => (least === undefined || each.current < least.current ? each : least),
    undefined,
  );
  const { rating } = device;
  if (worst !== undefined && rating !== undefined) {
    const { fault, current } = worst;
    const ways = weak.flatMap((each) => [...each.fault.way, ...each.fault.back]);
    const wires = [...new Set(ways.flatMap(({ conductor }) => conductor?.wire.id ?? []))].map(
      (wire): Place => ({ wire }),
    );
    const curve = clearingDevice(device.part);
    report.fails({
      message: "weak",
      facts: {
        ...facts,
        fault: { place: nodePlace(analysis.network, fault.from) ?? place },
        current: { value: current, dimension: "current" },
        rating: { value: rating, dimension: "current" },
        limit: { value: ADIABATIC_LIMIT, dimension: "time" },
      },
      severity: "WARNING",
      where: [place],
      states: [...new Set(weak.map((each) => each.fault.walk.state.name))],
      value: current,
      unit: "A",
      touches: [
        ...wires,
        ...weak.flatMap((each) => [...each.fault.walk.feed.parts, each.fault.consumer ?? []].flat().map(partPlace)),
      ],
      // A little less than now: what clears at that clears at this as well.
      remedies: smallerDevice(
        analysis,
        device,
        (smaller) => (clearingTime({ ...curve, rating: smaller }, 0.9 * current)?.most ?? Infinity) <= ADIABATIC_LIMIT,
      ),
    });
    return;
  }
  const reasons = ["curve", "approximate"] as const;
  for (const reason of reasons) {
    const own = open.filter((each) => each.reason === reason);
    const missing = distinct(own.flatMap((each) => each.missing));
    if (own.length > 0) report.notChecked({ where: [place], reason, facts, missing });
  }
  if (open.length === 0 && passed) report.passes(place);
}
