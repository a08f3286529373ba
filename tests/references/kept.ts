/** The networks and results kept beside this file, one pair of files a network: NAME.json and NAME.cir. */
import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import * as path from "node:path";
import type { ElectricalNetwork } from "../harness/electrical-networks.ts";
import type { Held } from "./netlist.ts";
import type { Reading } from "./simulator.ts";

export interface Kept {
  readonly name: string;
  readonly network: ElectricalNetwork;
  /** Volts at which the simulator began, where it got nowhere from 0 V. */
  readonly near?: readonly number[];
  /** The straight pieces it was given, where it settled nowhere on the whole curves. */
  readonly held?: Held;
  readonly netlist: string;
  /** The simulator that gave the results. */
  readonly simulator: string;
  readonly reading: Reading;
}

export function readKept(folder: string): Kept[] {
  return readdirSync(folder)
    .filter((file) => file.endsWith(".json"))
    .sort()
    .map((file) => {
      const name = file.slice(0, -".json".length);
      const kept = JSON.parse(readFileSync(path.join(folder, file), "utf8")) as Omit<Kept, "name" | "netlist">;
      return { ...kept, name, netlist: readFileSync(path.join(folder, `${name}.cir`), "utf8") };
    });
}

/** Replaces what the folder holds. */
export function writeKept(folder: string, list: readonly Kept[]): void {
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { recursive: true });
  for (const { name, network, near, held, netlist, simulator, reading } of list) {
    const { title, nodeCount, a, b, elements } = network;
    const lines = elements.map((element) => `    ${JSON.stringify(element)}`).join(",\n");
    const head = `"title": ${JSON.stringify(title)}, "nodeCount": ${nodeCount}`;
    const ends = `"a": ${JSON.stringify(a)},\n  "b": ${JSON.stringify(b)}`;
    const text = `{"network": {${head},\n  ${ends},\n  "elements": [\n${lines}]},\n ${near === undefined ? "" : `"near": ${JSON.stringify(near)},\n `}${held === undefined ? "" : `"held": ${JSON.stringify(held)},\n `}"simulator": ${JSON.stringify(simulator)},\n "reading": ${JSON.stringify(reading)}}\n`;
    writeFileSync(path.join(folder, `${name}.json`), text);
    writeFileSync(path.join(folder, `${name}.cir`), netlist);
  }
}
