/** Stage "unused": no file, export or package that nothing uses. */
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync } from "node:fs";
import * as path from "node:path";
import { conclude, PLANTED, ROOT } from "./stage.mjs";

const TOOL = path.join(ROOT, "node_modules/knip/bin/knip.js");
const REPORT = path.join(ROOT, "tests/architecture/unused-report.mjs");
const SCRATCH = path.join(ROOT, ".cache");

/**
 * @param {string} folder
 * @param {string} name
 * @returns {import("./stage.mjs").Reading}
 */
function read(folder, name) {
  const file = path.join(SCRATCH, `unused-${name}.json`);
  mkdirSync(SCRATCH, { recursive: true });
  rmSync(file, { force: true });
  const options = ["--no-progress", "--reporter", REPORT, "--reporter-options", JSON.stringify({ file })];
  const run = spawnSync(process.execPath, [TOOL, ...options], { cwd: folder, encoding: "utf8" });
  try {
    return JSON.parse(readFileSync(file, "utf8"));
  } catch {
    return { files: 0, reports: [{ rule: "unused", text: `${run.stdout}${run.stderr}`.trim() }] };
  }
}

const real = read(ROOT, "real");
const planted = read(path.join(PLANTED, "unused"), "planted");
conclude("unused", real, planted, ["files", "exports", "devDependencies"]);
