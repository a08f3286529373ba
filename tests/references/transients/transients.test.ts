/**
 * Networks in time against a general circuit simulator (ngspice): its runs as kept, and made again where it is
 * installed. Every moment that we work out within 0.5 % of the peak, every crossing within 1 % of its moment since something last moved;
 * exponential diodes against straight pieces within 5 %.
 */
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { simulate } from "../../../core/circuit/transition/simulate.ts";
import { simulatorVersion } from "../simulator.ts";
import { readRuns, traceOf, type KeptRun, type Trace } from "./kept.ts";
import { timedNetlist } from "./netlist.ts";
import type { TimedNetwork, Watch } from "./networks.ts";
import { RESULTS, runInTime } from "./run.ts";

const RUNS = readRuns(path.join(path.dirname(fileURLToPath(import.meta.url)), "kept"));
const VALUE = 0.005;
const EXPONENTIAL = 0.05;
const MOMENT = 0.01;

interface Own {
  readonly times: readonly number[];
  readonly values: readonly number[];
  readonly trace: Trace;
}

function ours(network: TimedNetwork): Own[] {
  // The simulator's contacts are ideal: their gaps do not break down.
  const run = simulate({ ...network, breakdown: Infinity });
  const times = [...run.times];
  const curve = (watch: Watch): number[] => {
    if ("branch" in watch) return [...run.currents(watch.branch)];
    const [plus, minus] = [run.volts(watch.a), run.volts(watch.b)];
    return times.map((_, k) => (watch.a === 0 ? 0 : plus[k]!) - (watch.b === 0 ? 0 : minus[k]!));
  };
  return network.watch.map((watch) => {
    const values = curve(watch);
    return { times, values, trace: traceOf(times, values, watch.levels) };
  });
}

/** Values between which the kept curve runs about a moment: 1 % of the time since something last moved to either side. */
function keptAbout(network: TimedNetwork, { times, values }: Trace, time: number): readonly [number, number] {
  const slack = MOMENT * (time - lastMove(network, time));
  const valueAt = (when: number): number => {
    const after = times.findIndex((each) => each >= when);
    if (after <= 0) return after === 0 ? values[0]! : values.at(-1)!;
    const [t0, t1, v0, v1] = [times[after - 1]!, times[after]!, values[after - 1]!, values[after]!];
    return v0 + ((v1 - v0) * (when - t0)) / (t1 - t0);
  };
  const near = values.filter((_, k) => Math.abs(times[k]! - time) <= slack);
  const all = [valueAt(time - slack), valueAt(time), valueAt(time + slack), ...near];
  return [Math.min(...all), Math.max(...all)];
}

function lastMove({ moves }: TimedNetwork, time: number): number {
  return moves.filter((move) => move.time <= time).at(-1)?.time ?? 0;
}

function expectAlike(network: TimedNetwork, theirs: readonly Trace[]): void {
  const within = network.exponential === true ? EXPONENTIAL : VALUE;
  const own = ours(network);
  theirs.forEach((trace, w) => {
    const { times, values, trace: mine } = own[w]!;
    const peak = Math.max(Math.abs(trace.highest.value), Math.abs(trace.lowest.value));
    const what = `${network.title}, watch ${w}`;
    let compared = 0;
    times.forEach((time, k) => {
      // The simulator's contact takes a moment to move: beside it the two jump one after the other.
      if (network.moves.some((move) => Math.abs(move.time - time) < network.duration / 5000)) return;
      const kept = keptAbout(network, trace, time);
      compared += 1;
      const off = Math.max(kept[0] - values[k]!, values[k]! - kept[1]);
      expect(off, `${what} at ${time} s`).toBeLessThan(within * peak);
    });
    expect(compared, what).toBeGreaterThan(5);
    expect(Math.abs(mine.highest.value - trace.highest.value), `${what}, highest`).toBeLessThan(within * peak);
    expect(Math.abs(mine.lowest.value - trace.lowest.value), `${what}, lowest`).toBeLessThan(within * peak);
    trace.crossings.forEach((crossings, level) => {
      expect(mine.crossings[level]?.length, `${what}, level ${level}`).toBe(crossings.length);
      crossings.forEach((time, k) => {
        const moved = lastMove(network, time);
        // At the jump itself the simulator's contact takes a ramp of a thousandth of a step.
        const slack = Math.max(
          (network.exponential === true ? EXPONENTIAL : MOMENT) * (time - moved),
          network.duration / 1e6,
        );
        expect(Math.abs(mine.crossings[level]![k]! - time), `${what}, level ${level} at ${time} s`).toBeLessThan(slack);
      });
    });
  });
}

describe("runs kept from a general simulator", () => {
  it("are there, of at least 20 networks, and say something", () => {
    expect(RUNS.length).toBeGreaterThanOrEqual(20);
    for (const { network, traces } of RUNS) {
      expect(traces).toHaveLength(network.watch.length);
      const moving = traces.some(({ highest, lowest }) => highest.value - lowest.value > 0.1);
      expect(moving, network.title).toBe(true);
    }
  });

  for (const { network, netlist, traces } of RUNS) {
    it(network.title, () => {
      expect(timedNetlist(network, RESULTS), "netlist: run `npm run references` where ngspice is installed").toBe(
        netlist,
      );
      expectAlike(network, traces);
    });
  }
});

describe("the simulator run again", () => {
  const version = simulatorVersion();
  it("agrees on every network", (context) => {
    if (version === undefined) context.skip("ngspice is not installed here; the runs kept from it were compared");
    const again = (run: KeptRun): Trace[] => {
      const traces = runInTime(run.netlist, run.network);
      if (traces === undefined) throw new Error(`${run.name}: ${version ?? ""} did not reach the end`);
      return traces;
    };
    for (const run of RUNS) expectAlike(run.network, again(run));
  }, 120_000);
});
