/**
 * The whole test suite: node tests/run.mjs [--only STAGE ...]. Node built-ins only: it runs before anything is installed.
 * The last line is always "N passed, N failed, N skipped": the tests of the runner, and one for each other stage.
 */
import { spawn } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { ensureInstalled } from "../electron/install.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const TALLY = path.join(ROOT, ".cache/tally.json");

/**
 * @typedef {object} Stage
 * @property {string} name
 * @property {string[]} command script and arguments for node
 * @property {boolean} [counted] its tests are counted one by one, through the tally
 */

/** @type {Stage[]} */
const STAGES = [
  { name: "format", command: ["tests/architecture/format.mjs"] },
  { name: "lint", command: ["tests/architecture/lint.mjs"] },
  { name: "types", command: ["node_modules/typescript/bin/tsc", "-b", "tsconfig.json", "--verbose"] },
  { name: "imports", command: ["tests/architecture/imports.mjs"] },
  { name: "unused", command: ["tests/architecture/unused.mjs"] },
  {
    name: "unit",
    command: [
      "node_modules/vitest/vitest.mjs",
      "run",
      "--reporter=default",
      "--reporter=./tests/architecture/tally.mjs",
    ],
    counted: true,
  },
];

/**
 * @param {Stage} stage
 * @returns {Promise<{ ok: boolean, output: string, seconds: number }>}
 */
function run(stage) {
  const begun = process.hrtime.bigint();
  return new Promise((resolve) => {
    const child = spawn(process.execPath, stage.command, {
      cwd: ROOT,
      env: { ...process.env, LOOMWRIGHT_TALLY: TALLY, FORCE_COLOR: "0", NO_COLOR: "1" },
      stdio: ["ignore", "pipe", "pipe"],
    });
    let output = "";
    child.stdout.on("data", (chunk) => (output += chunk));
    child.stderr.on("data", (chunk) => (output += chunk));
    const done = (/** @type {boolean} */ ok) =>
      resolve({ ok, output: output.trimEnd(), seconds: Number(process.hrtime.bigint() - begun) / 1e9 });
    child.on("error", (problem) => {
      output += String(problem);
      done(false);
    });
    child.on("close", (code) => done(code === 0));
  });
}

/** @returns {{ passed: number, failed: number, skipped: { name: string, reason: string }[] } | undefined} */
function readTally() {
  try {
    return JSON.parse(readFileSync(TALLY, "utf8"));
  } catch {
    return undefined;
  }
}

/** @returns {Stage[] | undefined} */
function chosen() {
  const wanted = process.argv.slice(2).filter((word) => word !== "--only");
  const unknown = wanted.filter((word) => !STAGES.some((stage) => stage.name === word));
  if (unknown.length > 0) {
    console.error(
      `No stage is called ${unknown.join(", ")}. The stages: ${STAGES.map((stage) => stage.name).join(", ")}.`,
    );
    return undefined;
  }
  return wanted.length === 0 ? STAGES : STAGES.filter((stage) => wanted.includes(stage.name));
}

async function main() {
  const stages = chosen();
  if (stages === undefined) return 2;
  let passed = 0;
  let failed = 0;
  /** @type {{ name: string, reason: string }[]} */
  const skipped = [];

  if (!ensureInstalled()) {
    console.log("The packages could not be installed, so no stage was run.");
    console.log("0 passed, 1 failed, 0 skipped");
    return 1;
  }
  rmSync(TALLY, { force: true });
  for (const stage of stages) {
    const { ok, output, seconds } = await run(stage);
    console.log(`== ${stage.name}: ${ok ? "passed" : "FAILED"} in ${seconds.toFixed(1)} s`);
    const tally = stage.counted === true ? readTally() : undefined;
    if (!ok || stage.counted === true || stage.name !== "types") console.log(output);
    if (stage.counted !== true) {
      if (ok) passed += 1;
      else failed += 1;
      continue;
    }
    passed += tally?.passed ?? 0;
    failed += tally?.failed ?? 0;
    skipped.push(...(tally?.skipped ?? []));
    const ran = (tally?.passed ?? 0) + (tally?.failed ?? 0);
    if (ran === 0) {
      console.log(`${stage.name}: ran no test`);
      failed += 1;
    } else if (!ok && tally?.failed === 0) failed += 1;
  }
  for (const { name, reason } of skipped) console.log(`skipped: ${name}: ${reason}`);
  console.log(`${passed} passed, ${failed} failed, ${skipped.length} skipped`);
  return failed === 0 ? 0 : 1;
}

process.exitCode = await main();
