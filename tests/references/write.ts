/** Writes the kept networks anew: run by make.mjs. */
import { ElectricalSolver } from "../../core/circuit/electrical.ts";
import type { ElectricalNetwork } from "../harness/electrical-networks.ts";
import { netlist, piecesAt, type Held } from "./netlist.ts";
import { referenceNetworks } from "./networks.ts";
import { simulate, simulatorVersion } from "./simulator.ts";
import { writeKept, type Kept } from "./kept.ts";

function solution({ nodeCount, a, b, elements }: ElectricalNetwork): number[] {
  const { volts } = new ElectricalSolver(nodeCount, Int32Array.from(a), Int32Array.from(b)).solve(elements);
  return Array.from(volts, (v) => (Number.isNaN(v) ? 0 : v));
}

const toAMillivolt = (volts: readonly number[]): number[] => volts.map((v) => Math.round(v * 1000) / 1000);

/**
 * Returns what to say: how many were kept, and which the simulator could not settle.
 * @public loaded by make.mjs as a bundle
 */
export function write(folder: string, demonstrations: string): string[] {
  const simulator = simulatorVersion();
  if (simulator === undefined) return ["ngspice is not installed here: the kept references stay as they are."];
  const kept: Kept[] = [];
  const lines: string[] = [];
  for (const network of referenceNetworks(demonstrations)) {
    const name = network.title.replace(/[^A-Za-z0-9-]+/g, "-");
    let text = netlist(network);
    let reading = simulate(text, network.nodeCount);
    let near: number[] | undefined;
    if (reading === undefined) {
      near = toAMillivolt(solution(network));
      text = netlist(network, near);
      reading = simulate(text, network.nodeCount);
    }
    let held: Held | undefined;
    if (reading === undefined) {
      near = undefined;
      held = piecesAt(network, solution(network));
      text = netlist(network, near, held);
      reading = simulate(text, network.nodeCount);
    }
    if (reading === undefined) lines.push(`${name}: ${simulator} found no operating point; left out.`);
    else {
      const start = { ...(near === undefined ? {} : { near }), ...(held === undefined ? {} : { held }) };
      kept.push({ name, network, ...start, netlist: text, simulator, reading });
    }
  }
  writeKept(folder, kept);
  const straight = kept.filter(({ held }) => held !== undefined).length;
  lines.push(`${kept.length} networks kept, ${straight} of them by straight pieces, results of ${simulator}.`);
  return lines;
}
