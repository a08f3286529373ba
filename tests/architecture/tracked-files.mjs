/** The files of the project: what version control knows or would take, i.e. not what .gitignore names. */
import { spawnSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import * as path from "node:path";
import { ROOT } from "./stage.mjs";

/** What .gitignore names, and version control's own folder: for a copy of the project without version control. */
const MADE = ["node_modules", "dist", "out", ".cache", "coverage", "test-results", ".git"];

/** @returns {string[]} */
function walked() {
  const top = readdirSync(ROOT).filter((name) => !MADE.includes(name));
  return top.flatMap((name) => {
    const inner = readdirSync(ROOT, { withFileTypes: true }).find((entry) => entry.name === name);
    if (inner?.isDirectory() !== true) return [name];
    return readdirSync(path.join(ROOT, name), { recursive: true, withFileTypes: true })
      .filter((entry) => entry.isFile())
      .map((entry) => path.relative(ROOT, path.join(entry.parentPath, entry.name)));
  });
}

/** @returns {string[]} absolute paths, sorted */
export function trackedFiles() {
  const list = spawnSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], {
    cwd: ROOT,
    encoding: "utf8",
  });
  const names = list.status === 0 ? list.stdout.split("\0").filter((name) => name !== "") : walked();
  return [...new Set(names)]
    .map((name) => path.join(ROOT, name))
    .filter((file) => existsSync(file))
    .sort();
}
