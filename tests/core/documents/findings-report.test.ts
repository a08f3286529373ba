/** The report's data, read back against the document that `check --json` prints, and its places against the frame. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import { checkJson } from "../../../core/checks/report-json.ts";
import type { CheckDocument } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { analyse } from "../../../core/circuit/analyse.ts";
import { findingsReport } from "../../../core/documents/findings-report.ts";
import type { FindingsReport, ReportFinding } from "../../../core/documents/findings-report.ts";
import { missingGroups } from "../../../core/documents/missing-groups.ts";
import type { Project } from "../../../core/project/document.ts";
import { readProject } from "../../../core/project/read.ts";
import { parseQuantity } from "../../../core/quantity/parse.ts";
import { demos } from "../../demos/demo-files.ts";

const ORIGIN = { file: "pickup.loomwright", made: "2026-11-25", programVersion: "0.1.0" };

const pickup = demos.find(({ name }) => name === "farm-pickup-96v-faulty")?.project;
if (pickup === undefined) throw new Error("There is no such demo.");

/** Every second wire loses what is stated of it, and the first finding that it then has is accepted. */
function spoilt(project: Project): Project {
  const wires = project.wires.map(({ size: _size, length: _length, insulation: _insulation, ...wire }, index) =>
    index % 2 === 0 ? wire : (project.wires[index] ?? wire),
  );
  const [first] = runChecks(analyse({ ...project, wires })).findings;
  if (first === undefined) throw new Error("Nothing is found in it.");
  const accepted = [{ key: first.key, hash: first.hash, who: "A. Fitter", when: "2026-11-20", why: "On the bench" }];
  return { ...project, wires, accepted };
}

interface Made {
  readonly project: Project;
  readonly document: CheckDocument;
  readonly report: FindingsReport;
}

function made(project: Project): Made {
  const analysis = analyse(project);
  const run = runChecks(analysis);
  return { project, document: checkJson(project, analysis, run), report: findingsReport(analysis, run, ORIGIN) };
}

function caseDrawing(name: string): Project {
  const read = readProject(readFileSync(new URL(`../../cases/${name}.loomwright`, import.meta.url), "utf8"));
  if (!read.ok) throw new Error(read.problems.join(" "));
  return read.project;
}

const DRAWINGS = [
  ["a demo with mistakes", made(pickup)],
  ["a demo with data missing and a finding accepted", made(spoilt(pickup))],
  ["a car on 400 V", made(caseDrawing("29-one-barrier-at-400-v"))],
] as const;

describe.each(DRAWINGS)("the report of %s", (_name, { project, document, report }) => {
  it("holds every finding of the document, numbered in its order, accepted ones apart and without number", () => {
    const told = (finding: ReportFinding): unknown => [
      finding.id,
      finding.severity,
      finding.title,
      finding.why,
      finding.mend,
    ];
    const wanted = (open: boolean): unknown =>
      document.findings
        .filter(({ accepted }) => (accepted === null) === open)
        .map(({ id, severity, title, why, mend }) => [id, severity, title, why, mend]);
    expect(report.findings.map(told)).toEqual(wanted(true));
    expect(report.accepted.map(told)).toEqual(wanted(false));
    expect(report.findings.map(({ number }) => number)).toEqual(report.findings.map((_, index) => index + 1));
    expect(report.accepted.map(({ number }) => number)).toEqual(report.accepted.map(() => null));
  });

  it("tells of each finding its places, consequences, source and acceptance as the document does", () => {
    for (const finding of [...report.findings, ...report.accepted]) {
      const json = document.findings.find(({ id }) => id === finding.id);
      if (json === undefined) throw new Error(finding.id);
      expect(finding.where).toHaveLength(json.where.length);
      expect(finding.follows.map(({ check, severity }) => [check, severity])).toEqual(
        json.folded.map(({ check, severity }) => [check, severity]),
      );
      expect(finding.source).toContain(json.source.text);
      expect(finding.accepted).toEqual(json.accepted);
      expect(finding.states === "").toBe(json.states.length === 0);
    }
  });

  it("prints figures that can be typed in again and come to the document's, to three digits", () => {
    const kinds = {
      V: "voltage",
      A: "current",
      ohm: "resistance",
      W: "power",
      J: "energy",
      s: "time",
      m: "length",
    } as const;
    let figures = 0;
    for (const { id, value, limit } of report.findings) {
      const json = document.findings.find((each) => each.id === id);
      const kind = kinds[json?.unit as keyof typeof kinds];
      for (const [text, number] of [
        [value, json?.value],
        [limit, json?.limit],
      ] as const) {
        expect(text === null).toBe(number === null || number === undefined);
        if (text === null || typeof number !== "number" || kind === undefined || number === 0) continue;
        const read = parseQuantity(text, kind);
        expect(read.ok && read.value / number, text).toBeCloseTo(1, 1.7);
        figures += 1;
      }
    }
    expect(figures).toBeGreaterThan(0);
  });

  it("loses nothing of what was not checked", () => {
    const groups = missingGroups(project, document.notChecked);
    const titles = new Map(CHECKS.map(({ id, title }) => [id, title]));
    const told = report.notChecked.flatMap(({ title, items }) =>
      items.flatMap(({ thing, checks }) => checks.map((check) => `${title} ${thing} ${check}`)),
    );
    for (const { title, items } of groups.groups)
      for (const { thing, checks } of items)
        for (const check of checks) expect(told).toContain(`${title} ${thing} ${titles.get(check) ?? ""}`);
    // Each item of the document is either there by its fields or by its reason.
    const reasons = report.unfounded.map(({ why }) => why);
    for (const { check, fields, why } of document.notChecked) {
      if (fields.length === 0) expect(reasons).toContain(why);
      else expect(told.some((line) => line.endsWith(titles.get(check) ?? "none"))).toBe(true);
    }
  });

  it("counts every check, and the checks add up to the document's counts", () => {
    const sum = (of: "passed" | "doesNotApply" | "notChecked" | "found"): number =>
      report.tallies.reduce((total, tally) => total + tally[of], 0);
    expect(report.tallies.map(({ check }) => check)).toEqual(CHECKS.map(({ id }) => id));
    expect([sum("passed"), sum("doesNotApply"), sum("notChecked")]).toEqual([
      document.counts.passed,
      document.counts.doesNotApply,
      document.counts.notChecked,
    ]);
    expect(sum("found")).toBe(document.findings.length + document.findings.flatMap(({ folded }) => folded).length);
    expect(report.counts).toEqual(document.counts);
  });
});

describe("places", () => {
  const { report, document } = made(pickup);

  // ISO 5457: fields of 50 mm counted from the middle of the paper, columns from the left, rows from the top without I and O.
  it("name sheet and zone as the frame has them", () => {
    const block = pickup.parts.find(({ designation }) => designation === "G6");
    const view = block?.views[0];
    if (view === undefined) throw new Error("G6 stands on no sheet.");
    const sheet = pickup.sheets.findIndex(({ id }) => id === view.sheet);
    const column = Math.floor((view.x - 420 / 2) / 50) + 5;
    const row = "ABCDEF"[Math.floor((view.y - 297 / 2) / 50) + 3] ?? "";
    const [first] = report.findings[0]?.where ?? [];
    expect(first?.name).toBe("G6");
    expect(first?.at).toEqual([{ sheet: sheet + 1, zone: `${row}${String(column)}` }]);
  });

  it("bear the numbers of their findings on the sheets, each finding somewhere", () => {
    const marked = new Set(report.sheets.flatMap(({ marks }) => marks.flatMap(({ numbers }) => numbers)));
    const placed = report.findings.filter(({ where }) => where.some(({ at }) => at.length > 0));
    for (const { number } of placed) expect(marked).toContain(number);
    expect(placed.length).toBeGreaterThan(5);
    for (const { drawn, marks } of report.sheets)
      for (const { at } of marks) {
        expect(at.x > 0 && at.x < drawn.width).toBe(true);
        expect(at.y > 0 && at.y < drawn.height).toBe(true);
      }
    expect(Math.max(...marked)).toBeLessThanOrEqual(document.findings.length);
  });
});

it("the same drawing, day and version make the same report", () => {
  const once = made(pickup).report;
  expect(JSON.stringify(made(pickup).report)).toBe(JSON.stringify(once));
  expect(once.verdict).toMatch(/^\d+ findings stand open, the worst a DANGER\. Nothing is to be energised/);
});
