/** Loads a TypeScript module in a plain Node process, outside the test runner. */
import { build } from "esbuild";
import * as path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const CACHE = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../../.cache/bundled");

/**
 * @param {string} entry absolute path of the module
 * @returns {Promise<any>} its exports
 */
export async function bundled(entry) {
  const outfile = path.join(CACHE, `${path.basename(entry, ".ts")}.mjs`);
  await build({
    entryPoints: [entry],
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    packages: "external",
    logLevel: "warning",
  });
  return import(pathToFileURL(outfile).href);
}
