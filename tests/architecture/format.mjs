/** Stage "format": every file is as the formatter would write it. */
import { readFile } from "node:fs/promises";
import * as path from "node:path";
import * as prettier from "prettier";
import { conclude, PLANTED, ROOT } from "./stage.mjs";
import { trackedFiles } from "./tracked-files.mjs";

/**
 * @param {readonly string[]} files absolute
 * @param {string | undefined} ignorePath
 * @returns {Promise<import("./stage.mjs").Reading>}
 */
async function read(files, ignorePath) {
  /** @type {import("./stage.mjs").Reading} */
  const reading = { files: 0, reports: [] };
  for (const file of files) {
    const info = await prettier.getFileInfo(file, ignorePath === undefined ? {} : { ignorePath });
    if (info.ignored || info.inferredParser === null) continue;
    const options = (await prettier.resolveConfig(file, { editorconfig: false })) ?? {};
    const text = await readFile(file, "utf8");
    reading.files += 1;
    const clean = await prettier.check(text, { ...options, filepath: file }).catch(() => false);
    if (!clean) reading.reports.push({ rule: "format", text: `${path.relative(ROOT, file)}: run "npm run format"` });
  }
  return reading;
}

const real = await read(trackedFiles(), path.join(ROOT, ".prettierignore"));
const planted = await read([path.join(PLANTED, "format/crooked.ts")], undefined);
conclude("format", real, planted, ["format"]);
