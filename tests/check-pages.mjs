// Writes the page of every check with its two pictures into assets/check-pages (npm run check-pages): the text from the
// check's metadata, the pictures from its table of drawings.
import { mkdir, readdir, rm, writeFile } from "node:fs/promises";
import path from "node:path";
import { fileURLToPath } from "node:url";
import { loadPictures } from "./check-pictures/load.mjs";
import { checkPageFiles } from "./check-pictures/page-files.mjs";

const folder = path.join(path.dirname(path.dirname(fileURLToPath(import.meta.url))), "assets", "check-pages");
const files = checkPageFiles(await loadPictures("check-pages"));
await mkdir(folder, { recursive: true });
for (const file of await readdir(folder)) if (!files.has(file)) await rm(path.join(folder, file));
for (const [file, text] of files) await writeFile(path.join(folder, file), text);
console.log(`${[...files.keys()].filter((file) => file.endsWith(".md")).length} pages written.`);
