/** What is kept of each run in time: one pair of files a network, NAME.json and NAME.cir. */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import * as path from "node:path";
import type { TimedNetwork } from "./networks.ts";

/** One watched figure as the simulator gave it. */
export interface Trace {
  /** At `samples` moments spread evenly over the duration, the first at 0 left out. */
  readonly samples: readonly number[];
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

export const SAMPLES = 60;

/** A curve as the simulator or we have it, brought to what is compared. */
export function traceOf(
  times: readonly number[],
  values: readonly number[],
  duration: number,
  levels: readonly number[],
): Trace {
  let at = 0;
  const valueAt = (time: number): number => {
    while (at < times.length - 2 && times[at + 1]! <= time) at += 1;
    const [t0, t1, v0, v1] = [times[at]!, times[at + 1]!, values[at]!, values[at + 1]!];
    return t1 > t0 ? v0 + ((v1 - v0) * (time - t0)) / (t1 - t0) : v1;
  };
  const samples = Array.from({ length: SAMPLES }, (_, k) => valueAt(((k + 1) * duration) / (SAMPLES + 1)));
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
  return { samples, highest: point(high), lowest: point(low), crossings };
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
