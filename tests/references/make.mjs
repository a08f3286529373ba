/** `npm run references`: runs the general simulator on the reference networks and keeps netlists and results. */
import * as path from "node:path";
import { fileURLToPath } from "node:url";
import { bundled } from "../harness/bundled.mjs";

const HERE = path.dirname(fileURLToPath(import.meta.url));

/** @type {typeof import("./write.ts")} */
const { write } = await bundled(path.join(HERE, "write.ts"));
for (const line of write(path.join(HERE, "kept"), path.resolve(HERE, "../../demo-projects"))) console.log(line);

/** @type {typeof import("./transients/write.ts")} */
const inTime = await bundled(path.join(HERE, "transients", "write.ts"));
for (const line of inTime.write(path.join(HERE, "transients", "kept"))) console.log(line);
