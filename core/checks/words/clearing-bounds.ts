/**
 * What a short circuit drives at least and at most, told without solving it: from the resistances along its loop and
 * from the current of a short right at the poles. Checks that ask when a device clears solve only those faults that
 * the whole of this range does not decide.
 */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import { PACK_ROLES } from "../../network/strings.ts";
import type { Ampere, Ohm, Second } from "../../quantity/kinds.ts";
import { clearingDevice, clearingTime } from "../../studies/fuse-clearing.ts";
import type { ClearingDevice } from "../../studies/fuse-clearing.ts";
import type { Device } from "../../studies/words/devices.ts";
import { polesOn } from "../../studies/words/fault-walk.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import type { Fault } from "../../studies/words/faults.ts";

export interface Bounds {
  readonly low: Ampere;
  readonly high: Ampere;
}

interface Source {
  readonly volts: number;
  /** Of a short right at the poles, with the batteries at their lowest resistance. */
  readonly most: Ampere;
  /** Of the batteries at their lowest and at their highest. */
  readonly resistance: { readonly low: Ohm; readonly high: Ohm };
  /** More than one way leads to some node, so that a loop alone does not tell its current. */
  readonly meshed: boolean;
}

const sources = new WeakMap<Walk, Source | undefined>();

/** Loads and outputs in parallel change what a loop alone would give by less than this. */
const MARGIN = 1.5;

/** Undefined where several strings share the current, or an output limits it: those are solved. */
export function boundsOf(analysis: Analysis, fault: Fault): Bounds | undefined {
  const { walk, way, back } = fault;
  if (!walk.feed.storage || polesOn(walk, "plus").length > 1 || polesOn(walk, "minus").length > 1) return undefined;
  const source = sourceOf(analysis, walk);
  if (source === undefined) return undefined;
  const { volts, resistance, most, meshed } = source;
  let [hot, cold] = [resistance.high, resistance.low];
  for (const branch of [...way, ...back]) {
    hot += branch.conductor?.hot ?? resistanceOf(walk, branch);
    cold += branch.conductor?.cold ?? resistanceOf(walk, branch);
  }
  return { low: volts / hot / MARGIN, high: (meshed ? most : Math.min(most, volts / cold)) * MARGIN };
}

function sourceOf(analysis: Analysis, walk: Walk): Source | undefined {
  if (sources.has(walk)) return sources.get(walk);
  const [plus] = polesOn(walk, "plus");
  const [minus] = polesOn(walk, "minus");
  let found: Source | undefined;
  if (plus !== undefined && minus !== undefined) {
    const volts = walk.state.between(plus, minus);
    const at = (resistances: "lowest" | "highest"): Ampere => {
      const change = { shorts: [[plus, minus] as const], hold: true, resistances };
      return Math.abs(analysis.solveChanged(walk.state, change).shortCurrents[0] ?? 0);
    };
    const [most, least] = [at("lowest"), at("highest")];
    const resistance = { low: volts / most, high: volts / least };
    if (volts > 0 && least > 0) found = { volts, most, resistance, meshed: isMeshed(analysis, walk) };
  }
  sources.set(walk, found);
  return found;
}

/** Some closed metal joins two nodes of one side besides the way by which the walk reached them. */
function isMeshed(analysis: Analysis, { labels, state }: Walk): boolean {
  return analysis.network.branches.some((branch) => {
    if (!PACK_ROLES.has(branch.role)) return false;
    const [a, b] = [labels.get(branch.a), labels.get(branch.b)];
    if (a === undefined || b === undefined || a.side !== b.side || a.via === branch || b.via === branch) return false;
    const element = state.elements[branch.index];
    return branch.a !== branch.b && (element?.type !== "contact" || element.closed);
  });
}

function resistanceOf({ state }: Walk, { index }: Branch): Ohm {
  const element = state.elements[index];
  return element !== undefined && "resistance" in element ? element.resistance : 0;
}

/** No short circuit of a battery is as weak: some contact between its blocks stands open. Common practice, no source. */
const LEAST_FAULT: Ampere = 0.1;

/** Only leaks close this loop. */
export const isOpenLoop = (current: Ampere): boolean => current < LEAST_FAULT;

/** Currents from 1 A to some 200 kA, each a tenth above the one before. */
const STEP = 1.1;
export const GRID: readonly Ampere[] = Array.from({ length: 130 }, (_, step) => STEP ** step);

/** Steps of the grid that enclose a range; undefined where it leaves the grid. */
export function stepsOf({ low, high }: Bounds): { readonly from: number; readonly to: number } | undefined {
  const from = Math.floor(Math.log(low) / Math.log(STEP));
  const to = Math.ceil(Math.log(high) / Math.log(STEP));
  return from >= 0 && to < GRID.length ? { from, to } : undefined;
}

export interface ClearingTable {
  readonly least: readonly Second[];
  readonly most: readonly Second[];
}

const tables = new WeakMap<Device, ClearingTable>();
/** By what decides it: a vehicle has dozens of fuses of one rating, and an edit leaves most as they are. */
const byFigures = new Map<string, ClearingTable>();
const MOST_FIGURES = 400;

/** When a device clears each current of the grid: reckoned once. */
export function tableOf(device: Device): ClearingTable {
  let table = tables.get(device);
  if (table === undefined) tables.set(device, (table = reckoned(curveOf(device))));
  return table;
}

function reckoned(curve: ClearingDevice): ClearingTable {
  const key = JSON.stringify([curve.rating ?? null, curve.fuseClass ?? null, curve.points]);
  let table = byFigures.get(key);
  if (table === undefined) {
    const each = GRID.map((current) => clearedBy(curve, current));
    table = { least: each.map(({ least }) => least), most: each.map(({ most }) => most) };
    if (byFigures.size >= MOST_FIGURES) byFigures.clear();
    byFigures.set(key, table);
  }
  return table;
}

const curves = new WeakMap<Device, ClearingDevice>();

function curveOf(device: Device): ClearingDevice {
  let curve = curves.get(device);
  if (curve === undefined) curves.set(device, (curve = clearingDevice(device.part)));
  return curve;
}

export interface Clears {
  readonly least: Second;
  readonly most: Second;
}

/** 0 to Infinity where nothing is known of it. */
export function clears(device: Device, current: Ampere): Clears {
  return clearedBy(curveOf(device), current);
}

function clearedBy(curve: ClearingDevice, current: Ampere): Clears {
  return clearingTime(curve, current) ?? { least: 0, most: Infinity };
}

/** The first of several devices in one loop, each with its own current. */
export function firstToClear(devices: readonly Device[], currentOf: (device: Device) => Ampere): Clears {
  const each = devices.map((device) => clears(device, currentOf(device)));
  return {
    least: Math.min(Infinity, ...each.map(({ least }) => least)),
    most: Math.min(Infinity, ...each.map(({ most }) => most)),
  };
}

/** All over the range some device may clear at once and none is sure ever to: solving would tell no more. */
export function nothingKnown(devices: readonly Device[], bounds: Bounds): boolean {
  const steps = stepsOf(bounds);
  if (steps === undefined) return false;
  const each = devices.map(tableOf);
  for (let step = steps.from; step <= steps.to; step += 1) {
    if (!each.every(({ most }) => most[step] === Infinity)) return false;
    if (!each.some(({ least }) => least[step] === 0)) return false;
  }
  return true;
}
