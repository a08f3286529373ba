/** faults FILE: what each single fault leads to, worst first. */
import { faultsJson } from "../../../core/studies/single-faults-json.ts";
import { singleFaultStudy } from "../../../core/studies/single-faults.ts";
import { faultsReport } from "../faults-report.ts";
import { openAnalysis } from "../open-project.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";

export const faults: Verb = {
  name: "faults",
  does: "what each single fault leads to, worst first, and which nothing shows",
  accepts: { files: ["FILE"], switches: ["json"] },
  run(given) {
    const [name = ""] = given.files;
    const analysis = openAnalysis(name);
    const study = singleFaultStudy(analysis);
    return {
      text: given.has("json") ? json(faultsJson(analysis, study)) : faultsReport(name, analysis, study),
      exit: 0,
    };
  },
};
