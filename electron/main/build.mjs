/**
 * Builds the desktop part, if its sources are newer than what was built last: main.cjs, preload.cjs and the demos.
 * CommonJS both: a sandboxed preload knows nothing else, and the main process must have said what it has to say before
 * Electron is ready, which a module that is loaded later cannot promise.
 * Run by itself: node electron/main/build.mjs
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { sourcesStamp } from "../sources-stamp.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
export const DIST = path.join(ROOT, "dist");
export const MAIN = path.join(DIST, "main.cjs");
const STAMP = `${MAIN}.sources`;
const SOURCES = [
  "core",
  "electron/main",
  "electron/preload",
  "electron/files",
  "electron/web-server",
  "demo-projects",
  "package-lock.json",
];

/** @param {string} file @param {string | Uint8Array} content */
function replace(file, content) {
  fs.mkdirSync(path.dirname(file), { recursive: true });
  const fresh = `${file}.${process.pid}.tmp`;
  fs.writeFileSync(fresh, content);
  fs.renameSync(fresh, file);
}

/** The demos go along, for the main process to hand out. */
function copyDemos() {
  const folder = path.join(ROOT, "demo-projects");
  for (const id of fs.readdirSync(folder)) {
    const file = path.join(folder, id, `${id}.loomwright`);
    if (fs.existsSync(file)) replace(path.join(DIST, `demos/${id}.loomwright`), fs.readFileSync(file, "utf8"));
  }
}

/** @param {string} source @param {"node" | "browser"} platform @param {string} target @returns {Promise<Uint8Array>} */
async function bundle(source, platform, target) {
  const { build } = await import("esbuild");
  const { outputFiles } = await build({
    absWorkingDir: ROOT,
    entryPoints: [source],
    outfile: "bundle.cjs",
    bundle: true,
    write: false,
    external: ["electron"],
    format: "cjs",
    platform,
    target,
    logLevel: "silent",
    legalComments: "none",
  });
  const [file] = outputFiles;
  if (file === undefined) throw new Error(`${source} gave no bundle`);
  return file.contents;
}

/**
 * @param {(note: string) => void} note hears what is being done
 * @returns {Promise<string>} the program that Electron begins with
 */
export async function buildDesktop(note) {
  const stamp = sourcesStamp(ROOT, SOURCES);
  const known = fs.existsSync(MAIN) && fs.existsSync(STAMP) ? fs.readFileSync(STAMP, "utf8") : "";
  if (known === stamp) return MAIN;
  note("Building the desktop part ...");
  // No part of Node in the preload: a browser's bundle that asks for one does not build.
  replace(path.join(DIST, "preload.cjs"), await bundle("electron/preload/preload.ts", "browser", "chrome140"));
  copyDemos();
  replace(MAIN, await bundle("electron/main/main.ts", "node", "node20"));
  replace(STAMP, stamp);
  return MAIN;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildDesktop((note) => console.error(note));
  console.error(`Built: ${path.relative(ROOT, MAIN)}`);
}
