/** check FILE: findings, what was not checked, and counts; with --report all of it as a paper as well. */
import * as path from "node:path";
import type { CheckRun, Finding } from "../../../core/checks/finding.ts";
import { checkJson, published } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { findingsReport } from "../../../core/documents/findings-report.ts";
import { reportHtml } from "../../../core/documents/report-html.ts";
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { toSarif } from "../../../core/exchange/sarif.ts";
import { checkReport } from "../check-report.ts";
import { readText, sameFile, writeWhole } from "../files.ts";
import { openAnalysis, stateOf } from "../open-project.ts";
import { Refusal } from "../refusal.ts";
import { json } from "../verb.ts";
import type { Verb } from "../verb.ts";
import { TYPEFACE, TYPEFACE_BOLD } from "../typeface.ts";
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

/** Refuses, before any work is done, what would lose a drawing or say less than it seems to. */
function reportWanted(name: string, out: string | undefined, state: string | undefined): string | undefined {
  if (out === undefined) return undefined;
  if (sameFile(name, out)) throw new Refusal(`${out}: it holds the drawing. Name another file after --report.`);
  if (state !== undefined) throw new Refusal("A report tells of every state. Leave out --state, or --report.");
  return out;
}

function writeReport(name: string, out: string, analysis: Analysis, run: CheckRun): void {
  const made = new Date().toISOString().slice(0, 10);
  const report = findingsReport(analysis, run, { file: path.basename(name), made, programVersion: VERSION });
  const { format, base64: regular } = TYPEFACE ?? {};
  const typeface = format === undefined || regular === undefined ? undefined : { format, regular };
  const bold = TYPEFACE_BOLD === undefined ? {} : { bold: TYPEFACE_BOLD };
  writeWhole(out, reportHtml(report, typeface && { ...typeface, ...bold }));
}

export const check: Verb = {
  name: "check",
  does: "findings with reasons, what could not be checked, counts",
  accepts: { files: ["FILE"], options: { state: "NAME", report: "OUT.html" }, switches: ["json", "sarif"] },
  run(given) {
    if (given.has("json") && given.has("sarif")) throw new Refusal("Choose one of --json and --sarif.");
    const [name = ""] = given.files;
    const state = given.option("state");
    const report = reportWanted(name, given.option("report"), state);
    const analysis = openAnalysis(name);
    if (state !== undefined) stateOf(analysis, state);
    const whole = runChecks(analysis);
    const run = state === undefined ? whole : within(whole, state);
    const { project } = analysis.network;
    const { DANGER, WARNING, CAUTION } = run.counts;
    if (report !== undefined) writeReport(name, report, analysis, run);
    const text = (): string => {
      if (given.has("json")) return json(published(checkJson(project, analysis, run)));
      if (!given.has("sarif")) {
        const said = checkReport(name, project, analysis, run);
        return report === undefined ? said : `${said}\nThe report is in ${report}.`;
      }
      const file = name.split(path.sep).join("/");
      return json(toSarif(checkJson(project, analysis, run), { file, programVersion: VERSION, text: readText(name) }));
    };
    return { text: text(), exit: DANGER + WARNING + CAUTION > 0 ? 1 : 0 };
  },
};
