/**
 * Builds the window, if its sources are newer than what was built last.
 * Run by itself: node electron/web-server/build.mjs
 */
import { execFile } from "node:child_process";
import * as fs from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { sourcesStamp } from "../sources-stamp.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const STAMP = path.join(ROOT, "dist/renderer.sources");
const LOCK = path.join(ROOT, "dist/renderer.lock");
const VITE = path.join(ROOT, "node_modules/vite/bin/vite.js");
const SOURCES = [
  "core",
  "renderer",
  "electron/web-server",
  "assets",
  "demo-projects",
  "vite.config.ts",
  "package-lock.json",
];

export const RENDERER = path.join(ROOT, "dist/renderer");

/** @param {string} stamp */
const fresh = (stamp) =>
  fs.existsSync(path.join(RENDERER, "index.html")) && fs.existsSync(STAMP) && fs.readFileSync(STAMP, "utf8") === stamp;

/** A build that takes longer than this has died without letting go. */
const LONGEST_BUILD_MS = 120_000;
const LOOK_AGAIN_MS = 100;

/** @returns {boolean} whether the one who holds the lock has ended, or must have */
function abandoned() {
  const since = fs.statSync(LOCK, { throwIfNoEntry: false })?.mtimeMs;
  if (since === undefined) return false;
  if (Date.now() - since > LONGEST_BUILD_MS) return true;
  try {
    const holder = Number(fs.readFileSync(LOCK, "utf8"));
    // Between making the lock and naming its holder it is empty for a moment.
    if (holder > 0) process.kill(holder, 0);
    return false;
  } catch (problem) {
    return problem instanceof Error && "code" in problem && problem.code === "ESRCH";
  }
}

/**
 * Waits until nobody else builds: several tests, or a test and a person, may want to at once.
 * @returns {Promise<() => void>} lets the next one in
 */
async function myTurn() {
  fs.mkdirSync(path.dirname(LOCK), { recursive: true });
  for (;;) {
    try {
      fs.writeFileSync(LOCK, String(process.pid), { flag: "wx" });
      return () => fs.rmSync(LOCK, { force: true });
    } catch (problem) {
      if (!(problem instanceof Error && "code" in problem && problem.code === "EEXIST")) throw problem;
      if (abandoned()) fs.rmSync(LOCK, { force: true });
      else await new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
    }
  }
}

/** Of what the bundler says when it gives up, the beginning names the place. */
const MOST_LINES = 12;

/**
 * In a process of its own, which takes what it builds for the finished program: inside a test it would be built for
 * testing, slow and talkative.
 * @param {string} into
 */
async function bundle(into) {
  const words = ["build", "--config", path.join(ROOT, "vite.config.ts"), "--outDir", into, "--emptyOutDir"];
  try {
    await promisify(execFile)(process.execPath, [VITE, ...words, "--logLevel", "error"], {
      cwd: ROOT,
      env: { ...process.env, NODE_ENV: "production", NO_COLOR: "1", FORCE_COLOR: "0" },
    });
  } catch (problem) {
    const said = problem instanceof Error && "stderr" in problem ? String(problem.stderr) : String(problem);
    const lines = said.split("\n").filter((line) => line.trim() !== "");
    throw new Error(`the window could not be built.\n${lines.slice(0, MOST_LINES).join("\n")}`);
  }
}

/**
 * @param {(note: string) => void} note hears what is being done
 * @returns {Promise<string>} the folder that holds index.html
 */
export async function buildRenderer(note) {
  const release = await myTurn();
  try {
    const stamp = sourcesStamp(ROOT, SOURCES);
    if (fresh(stamp)) return RENDERER;
    note("Building the window ...");
    // Whole or not at all: what is built takes the place of the old one at its end.
    const made = `${RENDERER}.made`;
    await bundle(made);
    fs.rmSync(RENDERER, { recursive: true, force: true });
    fs.renameSync(made, RENDERER);
    fs.writeFileSync(STAMP, stamp);
    return RENDERER;
  } finally {
    release();
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildRenderer((note) => console.error(note));
  console.error(`Built: ${path.relative(ROOT, RENDERER)}`);
}
