/** diagnose FILE: which single faults explain what somebody measured. */
import { diagnose as explanations } from "../../../core/studies/diagnose.ts";
import { diagnoseJson } from "../../../core/studies/diagnose-json.ts";
import { projectReadings, readReadings } from "../../../core/studies/diagnose-readings.ts";
import { diagnoseReport } from "../diagnose-report.ts";
import { readText } from "../files.ts";
import { openAnalysis } from "../open-project.ts";
import { Refusal } from "../refusal.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";

export const diagnose: Verb = {
  name: "diagnose",
  does: "faults that explain readings taken with a meter, ranked (without --readings: those in the project)",
  accepts: { files: ["FILE"], options: { readings: "FILE.json" }, switches: ["json"] },
  run(given) {
    const [name = ""] = given.files;
    const analysis = openAnalysis(name);
    const file = given.option("readings");
    if (file === undefined && analysis.network.project.readings.length === 0) {
      throw new Refusal(`${name} holds no readings. Hand some in: loomwright diagnose FILE --readings FILE.json`);
    }
    const read = file === undefined ? projectReadings(analysis) : readReadings(readText(file), analysis);
    if (!read.ok) throw new Refusal(`${file ?? name}: ${read.problem}`);
    const told = explanations(analysis, read.sets);
    const count = read.sets.reduce((sum, { volts }) => sum + volts.length, 0);
    return {
      text: given.has("json")
        ? json(diagnoseJson(analysis, count, told))
        : diagnoseReport(name, analysis, read.sets, told),
      exit: 0,
    };
  },
};
