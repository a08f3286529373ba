/**
 * Troubles reported from the field, and wirings reported to work, each drawn as a project file in this folder. What
 * `expected.json` says of a drawing is what the checks find in it, no less and no more; only notices need not be listed.
 */
import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { CHECKS } from "../../core/checks/catalogue.ts";
import type { Place, Severity } from "../../core/checks/define.ts";
import type { Finding } from "../../core/checks/finding.ts";
import { runChecks } from "../../core/checks/run.ts";
import { Names } from "../../core/checks/text.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import type { Project } from "../../core/project/document.ts";
import { readProject } from "../../core/project/read.ts";
import { writeProject } from "../../core/project/write.ts";
import { mend } from "./mend.ts";
import type { Edit } from "./mend.ts";

interface ExpectedFinding {
  readonly check: string;
  readonly severity: Severity;
  /** Where the pen points: "Q1", "T1:B+", "W12". */
  readonly where: string;
  /** Ids that must be folded under it, as consequences of the same cause. */
  readonly folded?: readonly string[];
  /** It stands by itself only until this check is there to be its root. */
  readonly until?: string;
}

interface Case {
  readonly tells: string;
  readonly findings: readonly ExpectedFinding[];
  /** Edits after which nothing above a notice is left. */
  readonly mended?: readonly Edit[];
  /** Ids that the drawing calls for as well and that are in no catalogue so far. */
  readonly notBuiltYet?: readonly string[];
}

const folder = new URL("./", import.meta.url);
const EXPECTED = JSON.parse(readFileSync(new URL("expected.json", folder), "utf8")) as Readonly<Record<string, Case>>;
const FILES = readdirSync(folder)
  .filter((name) => name.endsWith(".loomwright"))
  .map((name) => name.slice(0, -".loomwright".length));
const BUILT = new Set(CHECKS.map(({ id }) => id));

const textOf = (name: string): string => readFileSync(new URL(`${name}.loomwright`, folder), "utf8");

function open(name: string): Project {
  const result = readProject(textOf(name));
  if (!result.ok) throw new Error(result.problems.join(" "));
  return result.project;
}

interface Found {
  readonly line: string;
  readonly folded: ReadonlySet<string>;
}

const lineOf = (severity: string, check: string, where: string): string => `${severity} ${check} at ${where}`;

function found({ check, severity, failure, folded }: Finding, names: Names): Found {
  const first: Place | undefined = failure.where[0];
  const where = first === undefined ? "" : names.place(first).replace(/^wire /, "");
  return { line: lineOf(severity, check.id, where), folded: new Set(folded.map((each) => each.check.id)) };
}

test("every drawing stands in the table, and every row of the table has its drawing", () => {
  expect(FILES.length).toBeGreaterThan(0);
  expect([...FILES].sort()).toEqual(Object.keys(EXPECTED).sort());
});

describe.each(FILES)("%s", (name) => {
  const row = EXPECTED[name] ?? { tells: "", findings: [] };

  test("is written as the program writes it", () => {
    expect(writeProject(open(name))).toBe(textOf(name));
  });

  test("is found as expected", () => {
    const project = open(name);
    const names = new Names(project);
    const findings = runChecks(analyse(project)).findings.map((finding) => found(finding, names));
    const wanted = row.findings.map((each) => ({ ...each, line: lineOf(each.severity, each.check, each.where) }));
    const lines = findings.map(({ line }) => line);
    expect(wanted.map(({ line }) => line).filter((line) => !lines.includes(line))).toEqual([]);
    const named = new Set(wanted.map(({ line }) => line));
    expect(lines.filter((line) => !line.startsWith("NOTICE ") && !named.has(line))).toEqual([]);
    for (const { line, folded = [] } of wanted) {
      const under = findings.find((finding) => finding.line === line)?.folded;
      expect(folded.filter((id) => under?.has(id) !== true)).toEqual([]);
    }
  });

  const { mended } = row;
  if (mended !== undefined) {
    test("is sound once mended", () => {
      const project = mend(open(name), mended);
      const names = new Names(project);
      const left = runChecks(analyse(project)).findings.map((finding) => found(finding, names).line);
      expect(left.filter((line) => !line.startsWith("NOTICE "))).toEqual([]);
    });
  }

  test("waits for no check that is there by now", () => {
    const waiting = [...(row.notBuiltYet ?? []), ...row.findings.flatMap(({ until }) => until ?? [])];
    expect(waiting.filter((id) => BUILT.has(id))).toEqual([]);
    expect(row.findings.map(({ check }) => check).filter((id) => !BUILT.has(id))).toEqual([]);
  });
});
