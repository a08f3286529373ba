/** The files of the project: what version control knows or would take, i.e. not what .gitignore names. */
import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import * as path from "node:path";
import { ROOT } from "./stage.mjs";

/** @returns {string[]} absolute paths, sorted */
export function trackedFiles() {
  const list = spawnSync("git", ["ls-files", "-z", "--cached", "--others", "--exclude-standard"], {
    cwd: ROOT,
    encoding: "utf8",
  });
  if (list.status !== 0) throw new Error("git could not list the files of this checkout");
  const names = new Set(list.stdout.split("\0").filter((name) => name !== ""));
  return [...names]
    .map((name) => path.join(ROOT, name))
    .filter((file) => existsSync(file))
    .sort();
}
