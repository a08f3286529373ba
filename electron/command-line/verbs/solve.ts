/** solve FILE --state NAME: volts of each net, amperes of each wire. */
import { openAnalysis, stateOf } from "../open-project.ts";
import { solveJson } from "../solve-json.ts";
import { solveReport } from "../solve-report.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";

export const solve: Verb = {
  name: "solve",
  does: "volts of each net and amperes of each wire in one operating state",
  accepts: { files: ["FILE"], options: { state: "NAME" }, needed: ["state"], switches: ["json"] },
  run(given) {
    const [name = ""] = given.files;
    const analysis = openAnalysis(name);
    const solved = solveJson(analysis, stateOf(analysis, given.needed("state")));
    return { text: given.has("json") ? json(solved) : solveReport(name, analysis.network, solved), exit: 0 };
  },
};
