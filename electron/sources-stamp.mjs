/** What a built thing was built from, as one hash: if it differs from the one kept beside the thing, it is stale. */
import { createHash } from "node:crypto";
import * as fs from "node:fs";
import * as path from "node:path";

/** @param {string} place @returns {string[]} the file itself, or every file below the folder */
function filesAt(place) {
  if (!fs.existsSync(place)) return [];
  if (fs.statSync(place).isFile()) return [place];
  return fs.readdirSync(place, { recursive: true, withFileTypes: true }).flatMap((entry) => {
    return entry.isFile() ? [path.join(entry.parentPath, entry.name)] : [];
  });
}

/**
 * @param {string} root
 * @param {readonly string[]} places files and folders, from the root
 * @returns {string} which files there are, how long and from when: a removed file counts as a change, too
 */
export function sourcesStamp(root, places) {
  const hash = createHash("sha256");
  for (const file of places.flatMap((place) => filesAt(path.join(root, place))).sort()) {
    // An editor's own short-lived file may be gone by now.
    const facts = fs.statSync(file, { throwIfNoEntry: false });
    if (facts !== undefined) hash.update(`${file}\0${facts.size}\0${facts.mtimeMs}\n`);
  }
  return hash.digest("hex");
}
