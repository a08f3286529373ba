/** check FILE: findings, what was not checked, and counts. */
import * as path from "node:path";
import type { CheckRun, Finding } from "../../../core/checks/finding.ts";
import { checkJson, published } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { toSarif } from "../../../core/exchange/sarif.ts";
import { checkReport } from "../check-report.ts";
import { readText } from "../files.ts";
import { openAnalysis, stateOf } from "../open-project.ts";
import { Refusal } from "../refusal.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";
import { VERSION } from "../version.ts";

/** Only what occurs in one state; a finding that belongs to no state (a field of the drawing) always does. */
function within(run: CheckRun, state: string): CheckRun {
  const occurs = ({ failure }: Finding): boolean =>
    failure.states === undefined || failure.states.length === 0 || failure.states.includes(state);
  const findings = run.findings.filter(occurs);
  const open = findings.filter((item) => item.accepted === null);
  const count = (severity: string): number => open.filter((item) => item.severity === severity).length;
  return {
    ...run,
    findings,
    counts: {
      ...run.counts,
      DANGER: count("DANGER"),
      WARNING: count("WARNING"),
      CAUTION: count("CAUTION"),
      NOTICE: count("NOTICE"),
      accepted: findings.length - open.length,
    },
  };
}

export const check: Verb = {
  name: "check",
  does: "findings with reasons, what could not be checked, counts",
  accepts: { files: ["FILE"], options: { state: "NAME" }, switches: ["json", "sarif"] },
  run(given) {
    if (given.has("json") && given.has("sarif")) throw new Refusal("Choose one of --json and --sarif.");
    const [name = ""] = given.files;
    const analysis = openAnalysis(name);
    const state = given.option("state");
    if (state !== undefined) stateOf(analysis, state);
    const whole = runChecks(analysis);
    const run = state === undefined ? whole : within(whole, state);
    const { project } = analysis.network;
    const { DANGER, WARNING, CAUTION } = run.counts;
    const text = (): string => {
      if (given.has("json")) return json(published(checkJson(project, analysis, run)));
      if (!given.has("sarif")) return checkReport(name, project, analysis, run);
      const file = name.split(path.sep).join("/");
      return json(toSarif(checkJson(project, analysis, run), { file, programVersion: VERSION, text: readText(name) }));
    };
    return { text: text(), exit: DANGER + WARNING + CAUTION > 0 ? 1 : 0 };
  },
};
