/**
 * What takes too long for npm test: npm run test:long [-- NAME ...], each NAME of the list below. The last line is
 * always "N passed, N failed, N skipped", the reason of each skip above it.
 */
import { spawn } from "node:child_process";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { ensureInstalled } from "../electron/install.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");

/**
 * @typedef {object} LongTest
 * @property {string} name
 * @property {string} tells what it is for
 * @property {string[]} command script and arguments for node
 * @property {boolean} [browser] it says nothing where no browser is
 */

/** @type {readonly LongTest[]} */
const TESTS = [
  {
    name: "faults",
    tells: "every single fault of the demos: solved cold, and looked for by what a meter shows of it",
    command: [
      "node_modules/vitest/vitest.mjs",
      "run",
      "tests/core/circuit/faults.test.ts",
      "tests/core/studies/diagnose.test.ts",
    ],
  },
  {
    name: "fields",
    tells: "every stated field of the sound demos taken out, one by one: no check passes for want of it",
    command: ["node_modules/vitest/vitest.mjs", "run", "tests/demos/deleted-fields.test.ts"],
  },
  {
    name: "kill",
    tells: "the program ended 200 times while it saves: nothing lost; the same written plainly: something is",
    command: ["tests/electron/files/plain-writing.mjs", "200"],
  },
  {
    name: "mutations",
    tells: "mistakes planted in the built desktop program: some test notices each",
    command: ["tests/electron-double/mutations.mjs"],
    browser: true,
  },
  {
    name: "remedies",
    tells:
      "every remedy of every finding of all drawings and of vehicles with mistakes applied and held to its promise",
    command: ["node_modules/vitest/vitest.mjs", "run", "tests/remedies"],
  },
];

/** @param {readonly string[]} command @returns {Promise<boolean>} */
function passes(command) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, command, {
      cwd: ROOT,
      env: { ...process.env, LOOMWRIGHT_LONG: "1", FORCE_COLOR: "0", NO_COLOR: "1" },
      stdio: "inherit",
    });
    child.on("error", () => resolve(false));
    child.on("close", (code) => resolve(code === 0));
  });
}

/** @returns {Promise<string | undefined>} why nothing can be seen in a browser here */
async function browserMissing() {
  const { bundled } = await import("./harness/bundled.mjs");
  const { startBrowser, NO_BROWSER } = await bundled(path.join(ROOT, "tests/harness/browser.ts"));
  const browser = await startBrowser();
  await browser?.close();
  return browser === undefined ? NO_BROWSER : undefined;
}

async function main() {
  const names = process.argv.slice(2);
  const unknown = names.filter((name) => !TESTS.some((test) => test.name === name));
  if (unknown.length > 0) {
    console.error(
      `No long test is called ${unknown.join(", ")}. There are: ${TESTS.map(({ name }) => name).join(", ")}.`,
    );
    return 2;
  }
  if (!ensureInstalled()) {
    console.error("The packages could not be installed, so nothing was tested.");
    return 2;
  }
  const noBrowser = await browserMissing();
  let [passed, failed, skipped] = [0, 0, 0];
  const reasons = [];
  for (const { name, tells, command, browser = false } of TESTS) {
    if (names.length > 0 && !names.includes(name)) continue;
    console.log(`== ${name}: ${tells}`);
    if (browser && noBrowser !== undefined) {
      skipped += 1;
      reasons.push(`skipped ${name}: ${noBrowser}`);
      continue;
    }
    const begun = performance.now();
    const ok = await passes(command);
    if (ok) passed += 1;
    else failed += 1;
    console.log(`== ${name}: ${ok ? "passed" : "FAILED"} in ${((performance.now() - begun) / 1000).toFixed(1)} s`);
  }
  for (const reason of reasons) console.log(reason);
  console.log(`${passed} passed, ${failed} failed, ${skipped} skipped`);
  return failed === 0 ? 0 : 1;
}

process.exitCode = await main();
