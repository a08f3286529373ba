/**
 * Sees to a browser for the tests of the window: the one that is there; else the system's package, where it can be
 * installed; else the test library's own download; else one line how to get it. Node built-ins only.
 */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { systemBrowser } from "./harness/browser-places.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const LIBRARY = path.join(ROOT, "node_modules/playwright-core");
/** Neither way may hold the tests up for longer than this, in milliseconds. */
const PATIENCE = 300_000;

/** @param {string} program @param {readonly string[]} words @returns {boolean} whether it ended well in time */
function ran(program, words) {
  const run = spawnSync(program, words, {
    // What an installer says is a note beside the answer.
    stdio: ["ignore", process.stderr.fd, process.stderr.fd],
    env: { ...process.env, DEBIAN_FRONTEND: "noninteractive" },
    timeout: PATIENCE,
  });
  return run.status === 0;
}

/** @returns {Promise<boolean>} whether the library's own browser is on the disk */
async function downloaded() {
  const { chromium } = await import("playwright-core");
  return existsSync(chromium.executablePath());
}

/** Resolves when a browser is there or everything was tried; the tests of the window then run or say why not. */
export async function ensureBrowser() {
  if (systemBrowser() !== undefined || (await downloaded())) return;
  if (process.platform === "linux" && process.getuid?.() === 0 && existsSync("/usr/bin/apt-get")) {
    console.error("The tests of the window need a browser: installing the system's chromium package ...");
    ran("apt-get", ["update"]);
    if (ran("apt-get", ["install", "-y", "--no-install-recommends", "chromium"]) && systemBrowser() !== undefined)
      return;
  }
  console.error("The tests of the window need a browser: asking the test library for its own ...");
  ran(process.execPath, [path.join(LIBRARY, "cli.js"), "install", "chromium"]);
  if (await downloaded()) return;
  console.error(
    "No browser could be had, so the tests of the window are skipped. Install Chromium with the system's package manager, or name one in LOOMWRIGHT_BROWSER.",
  );
}
