/**
 * Builds the command line into one file, if its sources are newer than what was built last.
 * Run by itself: node electron/command-line/build.mjs
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { sourcesStamp } from "../sources-stamp.mjs";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const BUNDLE = path.join(ROOT, "dist/command-line.mjs");
const STAMP = `${BUNDLE}.sources`;
const SOURCES = ["core", "electron/command-line", "package-lock.json"];
const FONTS = path.join(ROOT, "assets/fonts");

/** @param {string} weight @returns {string} the typeface as a text of the program */
const typeface = (weight) =>
  JSON.stringify(fs.readFileSync(path.join(FONTS, `drawing-${weight}.woff2`)).toString("base64"));

/** @param {string} file @param {string | Uint8Array} content */
function replace(file, content) {
  const fresh = `${file}.${process.pid}.tmp`;
  fs.writeFileSync(fresh, content);
  fs.renameSync(fresh, file);
}

/**
 * @param {(note: string) => void} note hears what is being done
 * @returns {Promise<string>} the bundle's path
 */
export async function buildCommandLine(note) {
  const stamp = sourcesStamp(ROOT, SOURCES);
  const known = fs.existsSync(BUNDLE) && fs.existsSync(STAMP) ? fs.readFileSync(STAMP, "utf8") : "";
  if (known === stamp) return BUNDLE;
  note("Building the command line ...");
  const { build } = await import("esbuild");
  const result = await build({
    absWorkingDir: ROOT,
    entryPoints: ["electron/command-line/main.ts"],
    bundle: true,
    write: false,
    format: "esm",
    platform: "node",
    target: "node20",
    logLevel: "silent",
    legalComments: "none",
    define: { TYPEFACE_BASE64: typeface("regular"), TYPEFACE_BOLD_BASE64: typeface("bold") },
  });
  fs.mkdirSync(path.dirname(BUNDLE), { recursive: true });
  // Two commands may build at the same time: each writes whole files, the stamp last.
  for (const file of result.outputFiles) replace(BUNDLE, file.contents);
  replace(STAMP, stamp);
  return BUNDLE;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await buildCommandLine((note) => console.error(note));
  console.error(`Built: ${path.relative(ROOT, BUNDLE)}`);
}
