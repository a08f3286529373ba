/**
 * Brings the packages of a checkout into line with its lock file. Node built-ins only: this runs before anything
 * is installed.
 */
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const STAMP = path.join(ROOT, "node_modules/.loomwright-lock");

/** As in package.json, "engines". */
const NEEDED = /** @type {const} */ ([20, 19]);

/** @param {string} version @returns {boolean} */
function tooOld(version) {
  const [major = 0, minor = 0] = version.split(".").map(Number);
  return major < NEEDED[0] || (major === NEEDED[0] && minor < NEEDED[1]);
}

/** @returns {string} the lock file's hash */
function lockHash() {
  return createHash("sha256")
    .update(readFileSync(path.join(ROOT, "package-lock.json")))
    .digest("hex");
}

/** @returns {boolean} whether what is installed is what the lock file names */
export function installed() {
  return existsSync(STAMP) && readFileSync(STAMP, "utf8").trim() === lockHash();
}

/**
 * Installs the packages that the lock file names, unless they are there already.
 * @returns {boolean} false when they could not be installed; npm has then said why
 */
export function ensureInstalled() {
  if (tooOld(process.versions.node)) {
    console.error(`Node.js ${NEEDED.join(".")} or newer is needed; this is ${process.versions.node}.`);
    return false;
  }
  if (installed()) return true;
  console.error("Installing the packages that this checkout needs (npm ci) ...");
  // npm is a .cmd file on Windows, which only a shell may start.
  const windows = process.platform === "win32";
  const run = spawnSync("npm", ["ci", "--no-audit", "--no-fund"], {
    cwd: ROOT,
    // What npm says is a note, not an answer: whoever reads our standard output waits for one JSON document.
    stdio: ["ignore", process.stderr.fd, process.stderr.fd],
    shell: windows,
  });
  if (run.status !== 0) return false;
  writeFileSync(STAMP, `${lockHash()}\n`);
  return true;
}
