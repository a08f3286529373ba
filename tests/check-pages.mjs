// Writes assets/check-pages/<id>.md from the metadata of every check (npm run check-pages).
import { mkdir, readdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const root = path.dirname(path.dirname(fileURLToPath(import.meta.url)));
const bundle = path.join(root, "out", "check-pages.mjs");
await build({
  stdin: {
    contents: 'export { CHECKS } from "./core/checks/catalogue.ts"; export { checkPage } from "./core/checks/page.ts";',
    resolveDir: root,
    loader: "ts",
  },
  bundle: true,
  format: "esm",
  platform: "node",
  outfile: bundle,
  logLevel: "error",
});
const { CHECKS, checkPage } = await import(pathToFileURL(bundle).href);
const folder = path.join(root, "assets", "check-pages");
await mkdir(folder, { recursive: true });
const wanted = new Set(CHECKS.map((/** @type {{ id: string }} */ check) => `${check.id}.md`));
for (const file of await readdir(folder))
  if (file.endsWith(".md") && !wanted.has(file)) await rm(path.join(folder, file));
for (const check of CHECKS) await writeFile(path.join(folder, `${check.id}.md`), checkPage(check));
console.log(`${CHECKS.length} pages written.`);
