/** What is kept of each run in time: one pair of files a network, NAME.json and NAME.cir. */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import * as path from "node:path";
import type { TimedNetwork } from "./networks.ts";

/** One watched figure as the simulator gave it. */
export interface Trace {
  /** Its curve as straight lines between these points, each within a ten-thousandth of its peak. */
  readonly times: readonly number[];
  readonly values: readonly number[];
  readonly highest: { readonly time: number; readonly value: number };
  readonly lowest: { readonly time: number; readonly value: number };
  /** Moments at which each level of the watch was crossed. */
  readonly crossings: readonly (readonly number[])[];
}

export interface KeptRun {
  readonly name: string;
  readonly network: TimedNetwork;
  readonly netlist: string;
  readonly simulator: string;
  readonly traces: readonly Trace[];
}

/** A curve brought to what is compared. */
export function traceOf(times: readonly number[], values: readonly number[], levels: readonly number[]): Trace {
  let high = 0;
  let low = 0;
  values.forEach((value, k) => {
    if (value > values[high]!) high = k;
    if (value < values[low]!) low = k;
  });
  const crossings = levels.map((level) => {
    const found: number[] = [];
    for (let k = 1; k < values.length; k += 1) {
      const [before, after] = [values[k - 1]! - level, values[k]! - level];
      if (before * after >= 0 || before === 0) continue;
      found.push(times[k - 1]! + ((times[k]! - times[k - 1]!) * before) / (before - after));
    }
    return found;
  });
  const point = (k: number): Trace["highest"] => ({ time: times[k]!, value: values[k]! });
  const peak = Math.max(Math.abs(values[high]!), Math.abs(values[low]!));
  const kept = corners(times, values, peak / 1e4);
  return {
    times: kept.map((k) => Number(times[k]!.toPrecision(9))),
    values: kept.map((k) => Number(values[k]!.toPrecision(7))),
    highest: point(high),
    lowest: point(low),
    crossings,
  };
}

/** Points between which straight lines stay within `tolerance` of the curve (Ramer 1972, Douglas and Peucker 1973). */
function corners(times: readonly number[], values: readonly number[], tolerance: number): readonly number[] {
  const last = times.length - 1;
  const kept = new Set([0, last]);
  const open: (readonly [number, number])[] = [[0, last]];
  for (let span = open.pop(); span !== undefined; span = open.pop()) {
    const [from, to] = span;
    const slope = times[to]! > times[from]! ? (values[to]! - values[from]!) / (times[to]! - times[from]!) : 0;
    let worst = tolerance;
    let at = -1;
    for (let k = from + 1; k < to; k += 1) {
      const off = Math.abs(values[k]! - (values[from]! + slope * (times[k]! - times[from]!)));
      if (off > worst) [worst, at] = [off, k];
    }
    if (at === -1) continue;
    kept.add(at);
    open.push([from, at], [at, to]);
  }
  return [...kept].sort((one, other) => one - other);
}

export function readRuns(folder: string): KeptRun[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith(".json"))
    .sort()
    .map((file) => {
      const name = file.slice(0, -".json".length);
      const run = JSON.parse(readFileSync(path.join(folder, file), "utf8")) as Omit<KeptRun, "name" | "netlist">;
      return { ...run, name, netlist: readFileSync(path.join(folder, `${name}.cir`), "utf8") };
    });
}

/** Replaces what the folder holds. */
export function writeRuns(folder: string, runs: readonly KeptRun[]): void {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const { name, network, netlist, simulator, traces } of runs) {
    const { elements, ...rest } = network;
    const lines = elements.map((element) => `    ${JSON.stringify(element)}`).join(",\n");
    const curves = traces.map((trace) => `  ${JSON.stringify(trace)}`).join(",\n");
    const text = `{"network": {${JSON.stringify(rest).slice(1, -1)},\n  "elements": [\n${lines}]},\n "simulator": ${JSON.stringify(simulator)},\n "traces": [\n${curves}]}\n`;
    writeFileSync(path.join(folder, `${name}.json`), text);
    writeFileSync(path.join(folder, `${name}.cir`), netlist);
  }
}
