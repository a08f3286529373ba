/**
 * The whole test suite: node tests/run.mjs [--only STAGE ...]. Node built-ins only: it runs before anything is installed.
 * The last line is always "N passed, N failed, N skipped": the tests of the runner, and one for each other stage.
 */
import { spawn } from "node:child_process";
import { readFileSync, rmSync } from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { ensureInstalled, installed } from "../electron/install.mjs";
import { closing } from "./architecture/closing.mjs";
import { ensureBrowser } from "./ensure-browser.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const TALLY = path.join(ROOT, ".cache/tally.json");

/**
 * @typedef {object} Stage
 * @property {string} name
 * @property {string[]} command script and arguments for node
 * @property {boolean} [counted] its tests are counted one by one, through the tally
 * @property {boolean} [quiet] what it prints matters only when it fails
 */

/** @type {Stage[]} */
const STAGES = [
  { name: "format", command: ["tests/architecture/format.mjs"] },
  { name: "lint", command: ["tests/architecture/lint.mjs"] },
  { name: "types", command: ["node_modules/typescript/bin/tsc", "-b", "tsconfig.json", "--verbose"], quiet: true },
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
 * @param {readonly string[]} command
 * @returns {Promise<{ ok: boolean, output: string, seconds: number }>}
 */
function run(command) {
  const begun = process.hrtime.bigint();
  return new Promise((resolve) => {
    const child = spawn(process.execPath, command, {
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

/** @returns {import("./architecture/closing.mjs").Tally | undefined} */
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
  if (!ensureInstalled()) console.log("The packages could not be installed, so no stage was run.");
  if (installed() && stages.some(({ counted }) => counted)) await ensureBrowser();
  /** @type {import("./architecture/closing.mjs").StageResult[]} */
  const results = [];
  rmSync(TALLY, { force: true });
  for (const { name, command, counted = false, quiet = false } of installed() ? stages : []) {
    const { ok, output, seconds } = await run(command);
    console.log(`== ${name}: ${ok ? "passed" : "FAILED"} in ${seconds.toFixed(1)} s`);
    if (!ok || !quiet) console.log(output);
    results.push({ name, ok, counted, tally: counted ? readTally() : undefined });
  }
  const { lines, exit } = closing(results);
  for (const line of lines) console.log(line);
  return exit;
}

process.exitCode = await main();
