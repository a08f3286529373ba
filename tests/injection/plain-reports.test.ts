/**
 * Whole reports as a person reads them: every reported trouble, every demo, half-finished drawings, and several
 * mistakes at once. Nothing is told twice, no figure has more digits than people read, every field to fill in exists.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import type { MissingField } from "../../core/checks/define.ts";
import { placeId } from "../../core/checks/finding.ts";
import type { CheckRun, Finding } from "../../core/checks/finding.ts";
import { runChecks } from "../../core/checks/run.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import type { Network } from "../../core/network/network.ts";
import type { Project } from "../../core/project/document.ts";
import { readProject } from "../../core/project/read.ts";
import { demos } from "../demos/demo-files.ts";
import { drawing } from "../harness/drawing.ts";
import { MISTAKES } from "./measure.ts";
import { generated } from "./vehicles.ts";

const CASES = new URL("../cases/", import.meta.url);

function caseDrawings(): readonly (readonly [name: string, project: Project])[] {
  return readdirSync(CASES)
    .filter((name) => name.endsWith(".loomwright"))
    .map((name) => {
      const read = readProject(readFileSync(new URL(name, CASES), "utf8"));
      if (!read.ok) throw new Error(read.problems.join(" "));
      return [name, read.project];
    });
}

/** Without the figures that people fill in last. */
const sketched = (project: Project): Project => ({
  ...project,
  parts: project.parts.map((part) => ({ ...part, parameters: {} })),
  wires: project.wires.map(({ id, number, ends, routes }) => ({
    id,
    number,
    ends,
    ...(routes === undefined ? {} : { routes }),
  })),
});

/** Pack, fuse and controller only, as somebody draws first. */
function firstHour(): Project {
  const sketch = drawing().part("F1", "fuse").part("T1", "dc-controller");
  for (let block = 1; block <= 8; block += 1) sketch.part(`G${block}`, "battery-block", { chemistry: "flooded-lead" });
  for (let block = 1; block < 8; block += 1) sketch.wire(`G${block}:+`, `G${block + 1}:-`);
  return sketch.wires({}, "G8:+ - F1:1", "F1:2 - T1:B+", "G1:- - T1:B-").build();
}

/** Parts put on the sheet and not wired yet. */
function onlyParts(): Project {
  const sketch = drawing();
  for (let block = 1; block <= 8; block += 1) sketch.part(`G${block}`, "battery-block");
  for (const [designation, kind] of [
    ["F1", "fuse"],
    ["Q1", "contactor"],
    ["T1", "dc-controller"],
    ["M1", "motor-series"],
    ["S1", "key-switch"],
  ] as const)
    sketch.part(designation, kind);
  return sketch.build();
}

interface Told {
  readonly network: Network;
  readonly run: CheckRun;
}

function told(project: Project): Told {
  const analysis = analyse(project);
  return { network: analysis.network, run: runChecks(analysis) };
}

/** A title without designations, numbers and units: what two of them have in common is their sense. */
const senseOf = (title: string): ReadonlySet<string> =>
  new Set((title.match(/\b[a-z][a-z-]{3,}\b/g) ?? []).filter((word) => !/^\d/.test(word)));

/** Share of the words of the shorter title that the longer one has too. */
function alike(a: string, b: string): number {
  const [one, other] = [senseOf(a), senseOf(b)];
  const both = [...one].filter((word) => other.has(word)).length;
  return both / Math.max(1, Math.min(one.size, other.size));
}

const NEARLY = 0.8;
const placesOf = ({ failure }: Finding): string => [...new Set(failure.where.map(placeId))].sort().join(" ");

/** Findings told side by side at the same places with nearly the same title. */
function twice({ run: { findings } }: Told): readonly string[] {
  return findings.flatMap((one, index) =>
    findings
      .slice(index + 1)
      .filter((other) => placesOf(one) === placesOf(other) && alike(one.title, other.title) >= NEARLY)
      // Of the same things, but other fields or figures of theirs.
      .filter(({ check }) => !["data-missing", "limits-unstated"].includes(check.id))
      .map((other) => `${one.title} <> ${other.title}`),
  );
}

/** Figures with a unit that have more than three digits that count, and are none of those that people know so. */
function overlong({ run }: Told): readonly string[] {
  const texts = run.findings.flatMap((finding) =>
    [finding, ...finding.folded].map(({ title, why, mend }) => `${title} ${why} ${mend}`),
  );
  return texts.filter((text) => {
    const figures = [
      ...text.matchAll(/(?<![\w.])(\d+(?:\.\d+)?) (V|A|mA|m|mm|s|ms|J|mJ|W|ohm|mohm|kohm|%|days|hours)\b/g),
    ];
    return figures.some(([, figure = "", unit = ""]) => {
      const digits = figure.replace(".", "").replace(/^0+/, "");
      const counting = figure.includes(".") ? digits.length : digits.replace(/0+$/, "").length;
      if (counting <= 3 || (counting === 4 && ((unit === "V" && Number(figure) >= 100) || unit === "m"))) return false;
      // Two figures that would read alike are told with one digit more.
      const short = Number(Number(figure).toPrecision(3));
      return !figures.some(([, other = ""]) => other !== figure && Number(Number(other).toPrecision(3)) === short);
    });
  });
}

const OF_ANY_PART = ["zone", "enclosure", "face", "panel", "covers"];

/** Fields that nobody could fill in. */
function nowhere({ network, run }: Told): readonly string[] {
  const exists = (field: MissingField): boolean => {
    if (!("part" in field)) return true;
    const kind = network.partById.get(field.part)?.kind;
    const terminals = network.partById.get(field.part)?.terminals.map(({ id }) => `finish-${id}`) ?? [];
    return (
      kind !== undefined &&
      (field.parameter in kind.parameters || [...OF_ANY_PART, ...terminals].includes(field.parameter))
    );
  };
  return run.notChecked.flatMap(({ check, missing }) =>
    missing.filter((field) => !exists(field)).map((field) => `${check}: ${JSON.stringify(field)}`),
  );
}

/** A file's ids are for the program. */
const bareIds = ({ run }: Told): readonly string[] =>
  run.findings.map(({ title, mend }) => `${title} ${mend}`).filter((text) => /(?<![\w:.])[pwsz]\d+\b/.test(text));

function expectPlain(project: Project): void {
  const report = told(project);
  expect(twice(report), "told twice").toEqual([]);
  expect(overlong(report), "digits").toEqual([]);
  expect(nowhere(report), "fields that do not exist").toEqual([]);
  expect(bareIds(report), "ids of the file").toEqual([]);
}

const tug = demos.find(({ name }) => name === "yard-tug-48v")?.project;
const pickup = demos.find(({ name }) => name === "farm-pickup-96v")?.project;

/** Mistakes of different kinds together, as a beginner makes them. */
const TOGETHER = 6;
const SEVERAL = Array.from({ length: Math.floor(MISTAKES.length / TOGETHER) }, (_, turn) => {
  const stride = Math.floor(MISTAKES.length / TOGETHER);
  const mistakes = Array.from({ length: TOGETHER }, (__, each) => MISTAKES[turn + each * stride]).filter(
    (mistake) => mistake !== undefined,
  );
  return [mistakes.map(({ id }) => id).join(", "), mistakes] as const;
});

/** Several vehicles a test, on a machine that has other things to do. */
const TIME = 60_000;

describe("reports are plain", { timeout: TIME }, () => {
  test.each(caseDrawings())("%s", (_, project) => expectPlain(project));
  test.each(demos.map(({ name, project }) => [name, project] as const))("%s", (_, project) => expectPlain(project));
  test.each(SEVERAL)("after several mistakes at once: %s", (_, mistakes) => {
    const vehicle = generated(5).project;
    const wrong = mistakes.reduce((project, mistake) => mistake.sites(project)[0]?.make() ?? project, tug ?? vehicle);
    expect(wrong).not.toBe(tug);
    expectPlain(wrong);
  });
});

describe("what is looked for", () => {
  const report = told(firstHour());
  const [first] = report.run.findings;
  if (first === undefined) throw new Error("no finding in a first drawing");
  const saying = (...findings: readonly Partial<Finding>[]): Told => ({
    ...report,
    run: { ...report.run, findings: findings.map((words) => ({ ...first, ...words })) },
  });
  test("is seen where it is", () => {
    expect(twice(saying({}, {}))).toHaveLength(1);
    expect(overlong(saying({ title: "The stud is 39.04 mm away and carries 12.57 A." }))).toHaveLength(1);
    expect(bareIds(saying({ title: "Look at w12." }))).toHaveLength(1);
    const [item] = report.run.notChecked;
    if (item === undefined) throw new Error("all checked in a first drawing");
    const missing = [{ part: "p2", parameter: "colour-of-the-lid" }];
    expect(nowhere({ ...report, run: { ...report.run, notChecked: [{ ...item, missing }] } })).toHaveLength(1);
  });
  test("is not seen where it is not", () => {
    expect(twice(saying({ title: "The lug does not fit." }, { title: "Nothing opens the supply." }))).toEqual([]);
    expect(overlong(saying({ title: "It gets 117.6 V, carries 2360 A and is 1.016 m long." }))).toEqual([]);
    expect(overlong(saying({ title: "It carries 152.3 A, and 152 A are allowed." }))).toEqual([]);
  });
});

describe("half-finished drawings", { timeout: TIME }, () => {
  const SKETCHES: readonly (readonly [name: string, project: Project, most: number])[] = [
    ["pack, fuse and controller only", firstHour(), 12],
    ["parts that are not wired yet", onlyParts(), 10],
    ["a whole vehicle without a figure", sketched(pickup ?? generated(3).project), 45],
  ];
  test.each(SKETCHES)("%s: plain, and not too many findings to begin with", (_, project, most) => {
    expectPlain(project);
    const { findings } = told(project).run;
    expect(findings.length).toBeGreaterThan(0);
    expect(findings.length).toBeLessThanOrEqual(most);
  });
});
