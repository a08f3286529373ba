/**
 * `npm run bench`: every tests/bench/NAME.bench.ts, which exports rows(), as one table; with names, those alone. Times depend on the machine: a
 * target that is missed is marked, and makes the run fail.
 */
import { readdirSync } from "node:fs";
import * as os from "node:os";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { bundled } from "../harness/bundled.mjs";

const HERE = path.dirname(fileURLToPath(import.meta.url));

const wanted = process.argv.slice(2);
const files = readdirSync(HERE)
  .filter((file) => file.endsWith(".bench.ts"))
  .filter((file) => wanted.length === 0 || wanted.some((name) => file === `${name}.bench.ts`));
console.log(`Node ${process.versions.node}, ${os.cpus()[0]?.model.trim() ?? "unknown processor"}`);
let missed = 0;
for (const file of files.sort()) {
  console.log(`\n${file.slice(0, -".bench.ts".length)}`);
  const { rows } = await bundled(path.join(HERE, file));
  /** @type {import("./row.ts").Row[]} */
  const list = await rows();
  const widest = Math.max(...list.map(({ what }) => what.length));
  for (const { what, measured, wanted, met } of list) {
    const verdict = wanted === undefined ? "" : `  ${wanted}: ${met === true ? "met" : "MISSED"}`;
    if (wanted !== undefined && met !== true) missed += 1;
    console.log(`  ${what.padEnd(widest)}  ${measured.padStart(14)}${verdict}`);
  }
}
if (missed > 0) process.exitCode = 1;
