import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { devices } from "../../studies/words/devices.ts";
import type { Device } from "../../studies/words/devices.ts";
import { assumedInLoop, faultCurrents, unstatedResistance } from "../../studies/words/fault-currents.ts";
import { faults } from "../../studies/words/faults.ts";
import type { Fault } from "../../studies/words/faults.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { boundsOf, clears, GRID, isOpenLoop, nothingKnown, stepsOf, tableOf } from "../words/clearing-bounds.ts";
import { curveFields, distinct } from "../words/curve-fields.ts";
import { nodePlace, partPlace } from "../words/places.ts";

export const selectivityLost = defineCheck({
  id: "selectivity-lost",
  group: "overcurrent",
  title: "Main fuse clears before the branch fuse",
  about:
    "For a dead short behind a branch's fuse it compares when that fuse has cleared with when one further up clears at the earliest, by their curves or the published limits of their classes. It looks only at devices further up that feed something else as well. Where the ranges of both overlap it is not known which of them opens.",
  severities: ["NOTICE"],
  source: { text: "IEC 60364-5-53, 536 (coordination of protective devices)", known: "memory" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    lost: {
      title: "A short circuit at {fault} drives {current}: {main} clears it before {device} does.",
      why: "A trouble in one small branch then takes everything away that {main} feeds, and nobody can tell by the fuses where it was.",
      mend: "Fit a slower or larger device in the place of {main} if its wires allow it, or a faster or smaller one in the place of {device}.",
    },
  },
  reasons: {
    curve: "Whether {device} clears before the devices ahead of it is not known from what is stated of them.",
    approximate: "The short-circuit current behind {device} rests on assumed wire lengths or sizes.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "protection-oversized",
    "protection-slow",
    "traction-on-chassis",
    "traction-on-auxiliary",
  ],
  run(analysis, report) {
    const all = faults(analysis);
    const found = new Map<Device, Found>();
    for (const fault of all) {
      if (!fault.walk.feed.storage) continue;
      for (const leg of [fault.way, fault.back]) {
        const [device, ...ahead] = onLeg(analysis, leg).reverse();
        const others = ahead.filter((main) => device !== undefined && servesOthers(analysis, all, main, device));
        if (device === undefined || others.length === 0) continue;
        const own = found.get(device) ?? { passed: false, lost: [], open: [] };
        found.set(device, own);
        look(analysis, fault, device, others, own);
      }
    }
    for (const [device, own] of found) tell(analysis, device, own, report);
  },
});

interface Lost {
  readonly fault: Fault;
  readonly main: Device;
  readonly current: Ampere;
}
interface Found {
  passed: boolean;
  readonly lost: Lost[];
  readonly open: { readonly reason: "curve" | "approximate"; readonly missing: readonly MissingField[] }[];
}

/** Devices of one leg, from the pole to the fault. */
function onLeg(analysis: Analysis, leg: readonly Branch[]): Device[] {
  const known = devices(analysis);
  return leg.flatMap(({ index }) => known.get(index) ?? []);
}

const served = new WeakMap<Analysis, ReadonlyMap<Device, readonly Fault[]>>();

/** Does this device carry current to some consumer that does not hang on the other one? */
function servesOthers(analysis: Analysis, all: readonly Fault[], main: Device, branch: Device): boolean {
  let map = served.get(analysis);
  if (map === undefined) {
    const made = new Map<Device, Fault[]>();
    for (const fault of all) {
      if (fault.consumer === undefined) continue;
      for (const device of fault.devices) made.set(device, [...(made.get(device) ?? []), fault]);
    }
    served.set(analysis, (map = made));
  }
  return (map.get(main) ?? []).some((fault) => !fault.devices.includes(branch));
}

function look(analysis: Analysis, fault: Fault, device: Device, others: readonly Device[], found: Found): void {
  const assumed = assumedInLoop(fault);
  if (assumed.length > 0) {
    found.open.push({ reason: "approximate", missing: assumed });
    return;
  }
  if (surelySelective(analysis, fault, device, others)) {
    found.passed = true;
    return;
  }
  const unstated = unstatedResistance(fault);
  const bounds = boundsOf(analysis, fault);
  if (bounds !== undefined && nothingKnown([device], bounds)) {
    found.open.push({ reason: "curve", missing: curveFields([device, ...others]) });
    return;
  }
  const ends = (unstated.length === 0 ? (["lowest"] as const) : (["lowest", "highest"] as const)).map((resistances) => {
    const currents = faultCurrents(analysis, fault, { resistances });
    const currentOf = ({ branch }: Device): Ampere => Math.abs(currents[branch.index] ?? 0);
    const own = clears(device, currentOf(device));
    const theirs = others.map((main) => ({ main, time: clears(main, currentOf(main)) }));
    return {
      current: currentOf(device),
      sooner: theirs.find(({ time }) => time.most < own.least)?.main,
      selective: theirs.every(({ time }) => own.most < time.least),
    };
  });
  if (ends.some(({ current }) => isOpenLoop(current))) return;
  const [first] = ends;
  if (ends.every(({ selective }) => selective)) found.passed = true;
  else if (first?.sooner !== undefined && ends.every(({ sooner }) => sooner !== undefined)) {
    found.lost.push({ fault, main: first.sooner, current: first.current });
  } else found.open.push({ reason: "curve", missing: distinct([...curveFields([device, ...others]), ...unstated]) });
}

/** At every current that there may be; the device ahead may carry its own rated load on top. */
function surelySelective(analysis: Analysis, fault: Fault, device: Device, others: readonly Device[]): boolean {
  const bounds = boundsOf(analysis, fault);
  if (bounds === undefined) return false;
  const steps = stepsOf(bounds);
  if (steps === undefined) return false;
  const own = tableOf(device);
  for (let step = steps.from; step < steps.to; step += 1) {
    const latest = own.most[step] ?? Infinity;
    const upper = GRID[step + 1] ?? Infinity;
    if (!others.every((main) => latest < soonest(main, upper))) return false;
  }
  return true;
}

/** The soonest that it clears a branch's current with its own rated load on top, by the next step of the grid. */
function soonest(main: Device, current: Ampere): number {
  const { rating } = main;
  const steps = rating === undefined ? undefined : stepsOf({ low: current, high: current + rating });
  return steps === undefined ? 0 : (tableOf(main).least[steps.to] ?? 0);
}

function tell(analysis: Analysis, device: Device, { passed, lost, open }: Found, report: Report): void {
  const place = partPlace(device.part);
  const facts = { device: { place } } as const;
  const worst = lost.reduce<Lost | undefined>(
    (most, each) => (most === undefined || each.current > most.current ? each : most),
    undefined,
  );
  if (worst !== undefined) {
    const { fault, main, current } = worst;
    report.fails({
      message: "lost",
      facts: {
        ...facts,
        fault: { place: nodePlace(analysis.network, fault.from) ?? place },
        main: { place: partPlace(main.part) },
        current: { value: current, dimension: "current" },
      },
      severity: "NOTICE",
      where: [place],
      states: [...new Set(lost.map((each) => each.fault.walk.state.name))],
      value: current,
      unit: "A",
      touches: [main.part, ...fault.walk.feed.parts].map(partPlace),
    });
    return;
  }
  for (const reason of ["curve", "approximate"] as const) {
    const own = open.filter((each) => each.reason === reason);
    const missing = distinct(own.flatMap((each) => each.missing));
    if (own.length > 0) report.notChecked({ where: [place], reason, facts, missing });
  }
  if (open.length === 0 && passed) report.passes(place);
}
