/** Bundles the table tests of all checks, with collectors in place of runner and harness, and what draws their pictures. */
import { readdir } from "node:fs/promises";
import * as path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const HERE = path.join(ROOT, "tests/check-pictures");
const TESTS = path.join(ROOT, "tests/core/checks");

/** @type {import("esbuild").Plugin} */
const collectors = {
  name: "collectors",
  setup({ onResolve }) {
    onResolve({ filter: /^vitest$/ }, () => ({ path: path.join(HERE, "no-runner.ts") }));
    onResolve({ filter: /harness\/check-table\.ts$/ }, () => ({ path: path.join(HERE, "collected.ts") }));
  },
};

/**
 * @param {string} name of the bundle: two that are made at once must not write over each other
 * @returns {Promise<typeof import("./picture-pages.ts")>}
 */
export async function loadPictures(name) {
  const entries = await readdir(TESTS, { recursive: true, withFileTypes: true });
  const tests = entries
    .filter((entry) => entry.isFile() && entry.name.endsWith(".test.ts") && entry.parentPath !== TESTS)
    .map((entry) => path.join(entry.parentPath, entry.name))
    .sort();
  const outfile = path.join(ROOT, ".cache/bundled", `${name}.mjs`);
  await build({
    stdin: {
      contents: [...tests.map((file) => `import ${JSON.stringify(file)};`), 'export * from "./picture-pages.ts";'].join(
        "\n",
      ),
      resolveDir: HERE,
      loader: "ts",
    },
    outfile,
    bundle: true,
    platform: "node",
    format: "esm",
    packages: "external",
    plugins: [collectors],
    logLevel: "error",
  });
  return import(pathToFileURL(outfile).href);
}
