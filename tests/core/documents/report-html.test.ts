/** The written report: one file that asks for nothing and runs nothing, whatever the drawing holds. */
import { describe, expect, it } from "vitest";
import { checkJson } from "../../../core/checks/report-json.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { analyse } from "../../../core/circuit/analyse.ts";
import { findingsReport } from "../../../core/documents/findings-report.ts";
import { reportHtml } from "../../../core/documents/report-html.ts";
import { escapeXml } from "../../../core/drawing/svg.ts";
import type { Project } from "../../../core/project/document.ts";
import { demos } from "../../demos/demo-files.ts";

const origin = { file: "tug.loomwright", made: "2026-11-25", programVersion: "0.1.0" };
const faulty = demos.find(({ name }) => name === "yard-tug-48v-faulty")?.project;
const sound = demos.find(({ name }) => name === "yard-tug-48v")?.project;
if (faulty === undefined || sound === undefined) throw new Error("A demo is gone.");

function written(project: Project) {
  const analysis = analyse(project);
  const run = runChecks(analysis);
  const report = findingsReport(analysis, run, origin);
  return { document: checkJson(project, analysis, run), report, html: reportHtml(report) };
}

/** Without drawings and style: what a person reads. */
const prose = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>/g, "")
    .replace(/<svg[\s\S]*?<\/svg>/g, "")
    .replace(/<[^>]*>/g, " ");

describe.each([
  ["with mistakes", faulty],
  ["without any", sound],
])("of a drawing %s", (_name, project) => {
  const { document, report, html } = written(project);

  it("is one file that runs nothing and asks for nothing", () => {
    expect(html).not.toMatch(/<script|javascript:|\son\w+=/i);
    expect(html).not.toMatch(/(src|href)\s*=\s*"(?!#)/);
    expect(html).not.toMatch(/url\((?!data:)|@import/);
    expect(html).toContain("default-src 'none'");
    expect(reportHtml(report)).toBe(html);
  });

  it("holds every finding, every check and every sheet, and no place left unfilled", () => {
    for (const { id, title, why, mend } of document.findings) {
      expect(html).toContain(`data-finding="${escapeXml(id)}"`);
      for (const sentence of [title, why, mend]) expect(html).toContain(escapeXml(sentence));
    }
    for (const { check, title } of report.tallies)
      expect(html).toContain(`data-check="${check}"><th scope="row">${escapeXml(title)}`);
    for (const { why } of report.unfounded) expect(html).toContain(escapeXml(why));
    expect(html.match(/<svg /g)).toHaveLength(project.sheets.length);
    expect(prose(html)).not.toMatch(/\{\w+\}|undefined|NaN|\[object|\bnull\b/);
  });

  it("gives each id once, and each reference leads somewhere", () => {
    const ids = [...html.matchAll(/\sid="([^"]*)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
    for (const [, of = ""] of html.matchAll(/aria-labelledby="([^"]*)"/g))
      for (const id of of.split(" ")) expect(ids).toContain(id);
    for (const [, id] of html.matchAll(/href="#([^"]*)"/g)) expect(ids).toContain(id);
  });
});

it("says of a drawing without findings what was looked at, and that it proves nothing", () => {
  const { html, document } = written(sound);
  expect(document.findings).toEqual([]);
  expect(html).toContain("Nothing found. Checks passed");
  expect(html).toContain("A drawing that passes is not proof of safety.");
});

it("names what waits for a value that is missing, with its place", () => {
  const [fuse] = sound.parts.filter(({ kind }) => kind === "fuse");
  if (fuse === undefined) throw new Error("There is no fuse.");
  const { interrupting: _, ...parameters } = fuse.parameters;
  const parts = sound.parts.map((part) => (part === fuse ? { ...part, parameters } : part));
  const { html, document } = written({ ...sound, parts });
  expect(document.notChecked.length).toBeGreaterThan(0);
  expect(html).toMatch(new RegExp(`Interrupting rating</span></h3>[\\s\\S]*?<td>${fuse.designation} \\(`));
});

it("tells who accepted a finding, when and why", () => {
  const [first] = runChecks(analyse(faulty)).findings;
  if (first === undefined) throw new Error("Nothing is found.");
  const accepted = [{ key: first.key, hash: first.hash, who: "A. Fitter", when: "2026-11-20", why: "On the bench" }];
  const { html } = written({ ...faulty, accepted });
  expect(html).toContain("<dt>Accepted</dt><dd>A. Fitter, 2026-11-20: On the bench</dd>");
  expect(html).toContain('id="finding-1"');
  expect(html).not.toContain(`id="finding-1" data-finding="${escapeXml(first.key)}"`);
});

it("prints hostile names as they are written and lets none of them out of its place", () => {
  const hostile = `</style><script>alert("1")</script> \\ "*/`;
  const project: Project = {
    ...faulty,
    title: { ...faulty.title, vehicle: hostile, revision: hostile },
    sheets: faulty.sheets.map((sheet) => ({ ...sheet, name: hostile })),
  };
  const { html } = written(project);
  expect(html).not.toMatch(/<script/i);
  expect(html.match(/<\/style>/g)).toHaveLength(1);
  expect(html).toContain(escapeXml(hostile));
});

it("carries the typeface when it is given one, and refuses what is none", () => {
  const { report } = written(sound);
  const html = reportHtml(report, { format: "woff2", regular: "AAAA", bold: "BBBB" });
  expect(html).toContain("font-weight:bold;src:url(data:font/woff2;base64,BBBB)");
  expect(() => reportHtml(report, { format: "woff2", regular: "'); x" })).toThrow(RangeError);
});

it("cuts a name that is too long for the running title, and nowhere else", () => {
  const vehicle = "The grey one with the crane ".repeat(8).trim();
  const { html } = written({ ...sound, title: { ...sound.title, vehicle } });
  expect(html).toContain(`<td>${vehicle}</td>`);
  const [, running = ""] = /@top-left \{ content: "([^"]*)"/.exec(html) ?? [];
  expect(running).toMatch(/^Findings report\\3a /);
  expect(running.length).toBeLessThan(90);
});

it("says of an empty drawing that nothing was looked at, not that nothing was found", () => {
  const { html } = written({ ...sound, parts: [], wires: [], netNames: [] });
  expect(html).toContain("Nothing is drawn yet, so nothing was looked at.");
  expect(html).not.toContain("Nothing found.");
});
