/** Writes the kept runs in time anew: run by ../make.mjs. */
import { simulatorVersion } from "../simulator.ts";
import { writeRuns, type KeptRun } from "./kept.ts";
import { timedNetlist } from "./netlist.ts";
import { timedNetworks } from "./networks.ts";
import { RESULTS, runInTime } from "./run.ts";

/**
 * Returns what to say: how many were kept, and which the simulator did not bring to an end.
 * @public loaded by make.mjs as a bundle
 */
export function write(folder: string): string[] {
  const simulator = simulatorVersion();
  if (simulator === undefined) return ["ngspice is not installed here: the kept runs in time stay as they are."];
  const runs: KeptRun[] = [];
  const lines: string[] = [];
  for (const network of timedNetworks()) {
    const name = network.title.replace(/[^A-Za-z0-9-]+/g, "-");
    const netlist = timedNetlist(network, RESULTS);
    const traces = runInTime(netlist, network);
    if (traces === undefined) lines.push(`${name}: ${simulator} did not reach the end; left out.`);
    else runs.push({ name, network, netlist, simulator, traces });
  }
  writeRuns(folder, runs);
  lines.push(`${runs.length} runs in time kept, results of ${simulator}.`);
  return lines;
}
