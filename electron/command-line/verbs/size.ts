/** size FILE: the conductor and the fuse that each wire needs, and why. */
import { openAnalysis } from "../open-project.ts";
import { sizeJson } from "../size-json.ts";
import { sizeReport } from "../size-report.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";

export const size: Verb = {
  name: "size",
  does: "proposed conductor and fuse for each wire, and what decides",
  accepts: { files: ["FILE"], options: {}, switches: ["json"] },
  run(given) {
    const [name = ""] = given.files;
    const sizes = sizeJson(openAnalysis(name));
    return { text: given.has("json") ? json(sizes) : sizeReport(name, sizes), exit: 0 };
  },
};
