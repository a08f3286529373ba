/** `npm run references`: runs the general simulator on the reference networks and keeps netlists and results. */
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { bundled } from "../harness/bundled.mjs";

const HERE = path.dirname(fileURLToPath(import.meta.url));

/** @type {typeof import("./write.ts")} */
const { write } = await bundled(path.join(HERE, "write.ts"));
for (const line of write(path.join(HERE, "kept"), path.resolve(HERE, "../../demo-projects"))) console.log(line);
