import { describe, expect, test } from "vitest";
import { defineCheck } from "../../core/checks/define.ts";
import type { Check } from "../../core/checks/define.ts";
import { newProject } from "../../core/project/new-project.ts";
import { tableProblems } from "./check-table.ts";
import type { CheckTable } from "./check-table.ts";

const planted: Check = defineCheck({
  id: "planted",
  group: "drawing",
  title: "Planted",
  about: "Exists to be refused.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "common practice", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: { first: { title: "A.", why: "B.", mend: "C." }, second: { title: "A.", why: "B.", mend: "C." } },
  reasons: { lacking: "Something is lacking." },
  run: () => undefined,
});

const drawing = (revision: string): ReturnType<typeof newProject> => ({ ...newProject(), title: { revision } });

const complete: CheckTable = {
  fails: [
    { name: "f1", drawing: drawing("1"), at: "F1", message: "first", severity: "WARNING" },
    { name: "f2", drawing: drawing("2"), at: "F1", message: "second", severity: "NOTICE" },
    { name: "f3", drawing: drawing("3"), at: "F1", message: "first", severity: "WARNING" },
  ],
  passes: [
    { name: "p1", drawing: drawing("4") },
    { name: "p2", drawing: drawing("5") },
    { name: "p3", drawing: drawing("6") },
  ],
  notChecked: [{ name: "n1", drawing: drawing("7"), at: "F1", reason: "lacking", missing: ["F1.rating"] }],
  doesNotApply: [{ name: "d1", drawing: drawing("8") }],
};

const problems = (change: Partial<CheckTable>, check = planted, page = true): string =>
  tableProblems(check, { ...complete, ...change }, () => page).join("; ");

describe("the table harness refuses", () => {
  test("nothing when the table is complete", () => {
    expect(problems({})).toBe("");
  });
  test("too few failing or passing drawings", () => {
    expect(problems({ fails: complete.fails.slice(0, 2) })).toMatch(/needs 3 failing drawings, has 2/);
    expect(problems({ passes: [] })).toMatch(/needs 3 passing drawings, has 0/);
  });
  test("a missing outcome without a reason, and a reason beside a case", () => {
    expect(problems({ notChecked: [] })).toMatch(/no case for not checked/);
    expect(problems({ doesNotApply: [] })).toMatch(/no case for does not apply/);
    expect(problems({}, { ...planted, without: { doesNotApply: "always applies" } })).toMatch(
      /has a case where it does not/,
    );
  });
  test("a message, reason or severity never exercised", () => {
    const only = complete.fails.map((c) => ({ ...c, message: "first", severity: "WARNING" as const }));
    expect(problems({ fails: only })).toMatch(/message "second" is never exercised/);
    expect(problems({ fails: only })).toMatch(/severity NOTICE is never exercised/);
    expect(problems({}, { ...planted, reasons: { ...planted.reasons, other: "Other." } })).toMatch(
      /reason "other" is never exercised/,
    );
  });
  test("equal names, equal drawings and a check without its page", () => {
    expect(problems({ passes: [...complete.passes, { name: "p1", drawing: drawing("9") }] })).toMatch(
      /two cases are named "p1"/,
    );
    expect(problems({ passes: [...complete.passes, { name: "p4", drawing: drawing("4") }] })).toMatch(
      /is the same drawing as/,
    );
    expect(problems({}, planted, false)).toMatch(/no page assets\/check-pages\/planted\.md/);
  });
});
