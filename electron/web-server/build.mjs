/**
 * Builds the window, if its sources are newer than what was built last.
 * Run by itself: node electron/web-server/build.mjs
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { sourcesStamp } from "../sources-stamp.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const STAMP = path.join(ROOT, "dist/renderer.sources");
const SOURCES = ["core", "renderer", "assets", "demo-projects", "vite.config.ts", "package-lock.json"];

export const RENDERER = path.join(ROOT, "dist/renderer");

/** @param {string} stamp */
const fresh = (stamp) =>
  fs.existsSync(path.join(RENDERER, "index.html")) && fs.existsSync(STAMP) && fs.readFileSync(STAMP, "utf8") === stamp;

/**
 * @param {(note: string) => void} note hears what is being done
 * @returns {Promise<string>} the folder that holds index.html
 */
export async function buildRenderer(note) {
  const stamp = sourcesStamp(ROOT, SOURCES);
  if (fresh(stamp)) return RENDERER;
  note("Building the window ...");
  const { build } = await import("vite");
  // Two commands may build at the same time: each into a folder of its own, which then takes the place of the old one.
  const made = `${RENDERER}.${process.pid}`;
  await build({
    configFile: path.join(ROOT, "vite.config.ts"),
    logLevel: "error",
    build: { outDir: made, emptyOutDir: true },
  });
  fs.rmSync(RENDERER, { recursive: true, force: true });
  fs.renameSync(made, RENDERER);
  fs.writeFileSync(STAMP, stamp);
  return RENDERER;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildRenderer((note) => console.error(note));
  console.error(`Built: ${path.relative(ROOT, RENDERER)}`);
}
