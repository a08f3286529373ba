/** check FILE: findings, what was not checked, and counts. */
import type { CheckRun, Finding } from "../../../core/checks/finding.ts";
import { checkJson } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { checkReport } from "../check-report.ts";
import { openAnalysis, stateOf } from "../open-project.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";

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
  accepts: { files: ["FILE"], options: { state: "NAME" }, switches: ["json"], notBuilt: ["sarif"] },
  run(given) {
    const [name = ""] = given.files;
    const analysis = openAnalysis(name);
    const state = given.option("state");
    if (state !== undefined) stateOf(analysis, state);
    const whole = runChecks(analysis);
    const run = state === undefined ? whole : within(whole, state);
    const { project } = analysis.network;
    const { DANGER, WARNING, CAUTION } = run.counts;
    const text = given.has("json")
      ? json(checkJson(project, analysis, run))
      : checkReport(name, project, analysis, run);
    return { text, exit: DANGER + WARNING + CAUTION > 0 ? 1 : 0 };
  },
};
