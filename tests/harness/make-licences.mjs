/**
 * Writes assets/licences/notices.txt: the licence of every package that ends up in the built window or the command
 * line, and of the typeface. Which packages these are is read off the bundles, not kept by hand.
 * Run after adding a package: node tests/harness/make-licences.mjs
 */
import * as fs from "node:fs";
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { build as bundle } from "esbuild";

const ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), "../..");
export const NOTICES = path.join(ROOT, "assets/licences/notices.txt");

const ENTRIES = [
  { from: "renderer/main.tsx", platform: /** @type {const} */ ("browser") },
  { from: "renderer/window/analysis/worker.ts", platform: /** @type {const} */ ("browser") },
  { from: "electron/command-line/main.ts", platform: /** @type {const} */ ("node") },
];

/** @param {string} file as the bundler names it @returns {string[]} the folder of its package, if it is from one */
function packageOf(file) {
  const found = /^(.*node_modules\/(?:@[^/]+\/)?[^/]+)\//.exec(file.replaceAll("\\", "/"));
  return found?.[1] === undefined ? [] : [found[1]];
}

/** @returns {Promise<string[]>} folders of the packages of which something is bundled, from the root, sorted */
export async function bundledPackages() {
  const metas = await Promise.all(
    ENTRIES.map(({ from, platform }) =>
      bundle({
        absWorkingDir: ROOT,
        entryPoints: [from],
        bundle: true,
        write: false,
        metafile: true,
        format: "esm",
        platform,
        outdir: "out",
        logLevel: "silent",
        jsx: "automatic",
        define: { "import.meta.env": "{}", "import.meta.glob": "Object" },
        plugins: [
          {
            // Files that are shipped as they are hold no package.
            name: "assets",
            setup(given) {
              given.onResolve({ filter: /\?(url|raw)$|\.woff2$/ }, (file) => ({ path: file.path, external: true }));
            },
          },
        ],
      }),
    ),
  );
  const folders = metas.flatMap(({ metafile }) =>
    Object.values(metafile.outputs).flatMap(({ inputs }) =>
      Object.entries(inputs).flatMap(([file, { bytesInOutput }]) => (bytesInOutput > 0 ? packageOf(file) : [])),
    ),
  );
  return [...new Set(folders)].sort();
}

/** @param {string} folder @returns {string} */
function notice(folder) {
  const at = path.join(ROOT, folder);
  const { name, version, license } = JSON.parse(fs.readFileSync(path.join(at, "package.json"), "utf8"));
  const file = fs.readdirSync(at).find((entry) => /^(licen[cs]e|copying)(\.(md|txt))?$/i.test(entry));
  if (file === undefined) throw new Error(`${name} brings no licence text. Find it, and say here where it stands.`);
  const text = fs.readFileSync(path.join(at, file), "utf8").replaceAll("\r\n", "\n").trim();
  return `${name} ${version} (${license})\n\n${text}`;
}

/** @returns {Promise<string>} */
export async function noticesText() {
  const typeface = fs.readFileSync(path.join(ROOT, "assets/fonts/OFL.txt"), "utf8").replaceAll("\r\n", "\n").trim();
  const packages = await bundledPackages();
  const parts = [...packages.map(notice), `Iosevka Aile, the typeface (OFL-1.1)\n\n${typeface}`];
  return `${parts.join(`\n\n${"-".repeat(80)}\n\n`)}\n`;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  fs.mkdirSync(path.dirname(NOTICES), { recursive: true });
  fs.writeFileSync(NOTICES, await noticesText());
  console.log(`${path.relative(ROOT, NOTICES)}: ${(await bundledPackages()).join(", ")}`);
}
