/** node electron/packages/make-icons.mjs: writes assets/packages anew after the icon's drawing has changed. */
import * as fs from "node:fs";
import * as path from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
const outfile = path.join(ROOT, ".cache/bundled/icons.mjs");
await build({
  entryPoints: [path.join(ROOT, "electron/packages/icons.ts")],
  outfile,
  bundle: true,
  platform: "node",
  format: "esm",
  logLevel: "warning",
});
/** @type {typeof import("./icons.ts")} */
const { iconFiles } = await import(pathToFileURL(outfile).href);
const folder = path.join(ROOT, "assets/packages");
fs.mkdirSync(folder, { recursive: true });
for (const [name, bytes] of iconFiles()) fs.writeFileSync(path.join(folder, name), bytes);
