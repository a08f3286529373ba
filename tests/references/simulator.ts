/** Runs the general circuit simulator ngspice, where it is installed. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import * as path from "node:path";

/** A program of the machine's own, from its package manager; not one of this project's packages. */
const PROGRAM = "ngspice";

/** "ngspice-39", or undefined where there is none. */
export function simulatorVersion(): string | undefined {
  const { stdout } = spawnSync(PROGRAM, ["--version"], { encoding: "utf8" });
  return /ngspice-\S+/.exec(stdout ?? "")?.[0];
}

export interface Reading {
  /** By node, chassis 0; null where the simulator names no such node. */
  readonly volts: readonly (number | null)[];
  /** Amperes out of the plus of each source, by branch. */
  readonly sources: Readonly<Record<string, number>>;
}

/** The operating point of a netlist, or undefined where the simulator finds none. */
export function simulate(netlist: string, nodeCount: number): Reading | undefined {
  const output = runSimulator(netlist);
  const volts: (number | null)[] = new Array<number | null>(nodeCount).fill(null);
  volts[0] = 0;
  const sources: Record<string, number> = {};
  for (const [, name, value] of output.matchAll(/^(\S+) = (\S+)$/gm)) {
    const node = /^v\((\d+)\)$/i.exec(name!) ?? /^(\d+)$/.exec(name!);
    const source = /^v(\d+)#branch$/i.exec(name!);
    if (node !== null) volts[Number(node[1])] = Number(value);
    if (source !== null) sources[source[1]!] = 0 - Number(value);
  }
  if (/singular|no convergence|failed|aborted/i.test(output) && volts.every((v, n) => n === 0 || v === null))
    return undefined;
  return volts.some((v, n) => n > 0 && v !== null) ? { volts, sources } : undefined;
}

/** What the simulator prints for a netlist within `limit` milliseconds. */
export function runSimulator(netlist: string, limit = 60_000): string {
  const folder = mkdtempSync(path.join(tmpdir(), "loomwright-reference-"));
  try {
    const file = path.join(folder, "network.cir");
    writeFileSync(file, netlist);
    const { stdout, stderr } = spawnSync(PROGRAM, ["-b", file], { encoding: "utf8", timeout: limit });
    return `${stdout}\n${stderr}`;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
