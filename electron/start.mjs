/**
 * npm start. Until the window exists this runs the main job on the faulty 96 V demo vehicle: prints its findings,
 * writes its sheets and says what to try next. Node built-ins only: it runs before anything is installed.
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { buildCommandLine } from "./command-line/build.mjs";
import { ensureInstalled } from "./install.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "..");
const DEMOS = path.join(ROOT, "demo-projects");

/** @returns {string[]} the demo drawings, as paths from the checkout's top */
function demos() {
  if (!fs.existsSync(DEMOS)) return [];
  return fs
    .readdirSync(DEMOS, { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".loomwright"))
    .map((name) => path.join("demo-projects", name))
    .sort();
}

async function start() {
  if (!ensureInstalled()) {
    console.error("The packages that Loomwright needs could not be installed; npm says why above.");
    return 2;
  }
  const drawings = demos();
  const faulty = drawings.find((name) => /faulty/.test(path.basename(name)) && /96/.test(path.basename(name)));
  if (faulty === undefined) {
    console.error("The faulty 96 V vehicle is missing from demo-projects. Fetch the whole checkout again.");
    return 2;
  }
  const { main } = await import(pathToFileURL(await buildCommandLine((note) => console.error(note))).href);
  process.chdir(ROOT);
  const streams = {
    out: (/** @type {string} */ text) => process.stdout.write(text),
    err: (/** @type {string} */ text) => process.stderr.write(text),
  };

  console.log("The window is not built yet. This is the main job on a vehicle with mistakes in it.\n");
  if (main(["check", faulty], streams) === 2) return 2;
  const folder = path.join("out", path.basename(faulty, ".loomwright"));
  console.log("\nIts sheets:");
  if (main(["draw", faulty, "--out", folder, "--svg"], streams) === 2) return 2;

  const sound = drawings.find((name) => !/faulty/.test(path.basename(name)) && /96/.test(path.basename(name)));
  console.log(`\nOpen a sheet in a browser, or print it. What to try next:`);
  if (sound !== undefined) console.log(`  npm run -s loomwright -- check ${sound}`);
  console.log(`  npm run -s loomwright -- solve ${faulty} --state driving`);
  console.log("  npm run -s loomwright -- import WIRES.csv --parts PARTS.csv --out my-vehicle.loomwright");
  console.log("  npm run -s loomwright -- --help");
  return 0;
}

process.stdout.on("error", (problem) => process.exit("code" in problem && problem.code === "EPIPE" ? 0 : 2));
process.exitCode = await start();
