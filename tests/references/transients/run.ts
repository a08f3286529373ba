/** Runs the general simulator over a time and reads what it wrote. */
import { spawnSync } from "node:child_process";
import { mkdtempSync, existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import * as path from "node:path";
import { traceOf, type Trace } from "./kept.ts";
import type { TimedNetwork } from "./networks.ts";

/** Where the netlist tells the simulator to write; the run's own folder is its working folder. */
export const RESULTS = "results.txt";

/** The watched figures, or undefined where the simulator did not reach the end. */
export function runInTime(netlist: string, { duration, watch }: TimedNetwork): Trace[] | undefined {
  const folder = mkdtempSync(path.join(tmpdir(), "loomwright-reference-"));
  try {
    writeFileSync(path.join(folder, "network.cir"), netlist);
    spawnSync("ngspice", ["-b", "network.cir"], { cwd: folder, encoding: "utf8", timeout: 60_000 });
    const file = path.join(folder, RESULTS);
    if (!existsSync(file)) return undefined;
    const rows = readFileSync(file, "utf8")
      .trim()
      .split("\n")
      .map((line) => line.trim().split(/\s+/).map(Number));
    const times = rows.map((row) => row[0]!);
    if (!(times.at(-1)! >= duration * 0.999)) return undefined;
    return watch.map(({ levels }, w) =>
      traceOf(
        times,
        rows.map((row) => row[2 * w + 1]!),
        levels,
      ),
    );
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
