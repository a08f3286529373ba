/**
 * The table test of a check, strict on purpose. Besides the verdicts it refuses: an outcome or message never
 * exercised, a text place left unfilled, a verdict that changes when lists are shuffled, everything is renamed or
 * a splice, busbar, connector or closed contact is drawn into the wires, a changed input, a remedy that does not
 * clear its finding or adds a worse one, two equal cases, and a check without its page.
 */
import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { analyse } from "../../core/circuit/analyse.ts";
import type { Analysis } from "../../core/circuit/analysis.ts";
import { SEVERITIES } from "../../core/checks/define.ts";
import type { Check, EarlierNotChecked, Failure, Place, Redrawing, Severity } from "../../core/checks/define.ts";
import { placeId } from "../../core/checks/finding.ts";
import type { Finding } from "../../core/checks/finding.ts";
import { runCheck, runChecks } from "../../core/checks/run.ts";
import type { CheckOutcome } from "../../core/checks/run.ts";
import { fill, Names } from "../../core/checks/text.ts";
import { overlap } from "../../core/geometry/boxes.ts";
import { placedViews } from "../../core/layout/placed-view.ts";
import type { Project } from "../../core/project/document.ts";
import { insertEverywhere, renameEverything, shuffle } from "./redraw.ts";
import type { Redrawn } from "./redraw.ts";

interface Case {
  readonly name: string;
  readonly drawing: Project;
}

export interface FailingCase extends Case {
  /** First place of the finding: "F1:1", "F1", "W3" or a sheet's name. Every finding of the check in this drawing must be listed. */
  readonly at: string | readonly string[];
  readonly message: string;
  readonly severity: Severity;
  /** SI; compared within 1 %. */
  readonly value?: number;
  readonly limit?: number;
  /** Ids of the remedies offered. */
  readonly remedies?: readonly string[];
  /** Redrawings that this one case does not withstand, with the reason. */
  readonly except?: Partial<Record<Redrawing, string>>;
}

export interface PassingCase extends Case {
  /** Places that must be among the passes; none = at least one pass anywhere. */
  readonly at?: string | readonly string[];
}

export interface NotCheckedCase extends Case {
  readonly at: string | readonly string[];
  readonly reason: string;
  /** Fields to fill in, e.g. "F1.interrupting", "W3.length". */
  readonly missing: readonly string[];
}

export interface CheckTable {
  readonly fails: readonly FailingCase[];
  readonly passes: readonly PassingCase[];
  readonly notChecked?: readonly NotCheckedCase[];
  readonly doesNotApply?: readonly Case[];
  /** For a check with a second look: what other checks could not check. */
  readonly earlier?: readonly Check[];
}

const LEAST_FAILING = 3;
const LEAST_PASSING = 3;

/** What is wrong with the check and its table before any drawing is solved. Exported so that the harness itself is tested. */
export function tableProblems(check: Check, table: CheckTable, pageExists: (id: string) => boolean): string[] {
  const problems: string[] = [];
  const cases = [...table.fails, ...table.passes, ...(table.notChecked ?? []), ...(table.doesNotApply ?? [])];
  if (table.fails.length < LEAST_FAILING)
    problems.push(`needs ${LEAST_FAILING} failing drawings, has ${table.fails.length}`);
  if (table.passes.length < LEAST_PASSING)
    problems.push(`needs ${LEAST_PASSING} passing drawings, has ${table.passes.length}`);
  if ((table.notChecked ?? []).length === 0 && check.without.notChecked === undefined)
    problems.push("no case for not checked, and no reason why there is none");
  if ((table.doesNotApply ?? []).length === 0 && check.without.doesNotApply === undefined)
    problems.push("no case for does not apply, and no reason why there is none");
  if ((table.notChecked ?? []).length > 0 && check.without.notChecked !== undefined)
    problems.push("says it is never not checked, but has a case");
  if ((table.doesNotApply ?? []).length > 0 && check.without.doesNotApply !== undefined)
    problems.push("says it always applies, but has a case where it does not");
  for (const message of Object.keys(check.messages))
    if (!table.fails.some((c) => c.message === message)) problems.push(`message "${message}" is never exercised`);
  for (const reason of Object.keys(check.reasons))
    if (!(table.notChecked ?? []).some((c) => c.reason === reason))
      problems.push(`reason "${reason}" is never exercised`);
  for (const severity of check.severities)
    if (!table.fails.some((c) => c.severity === severity)) problems.push(`severity ${severity} is never exercised`);
  const names = new Set<string>();
  const drawings = new Map<string, string>();
  for (const { name, drawing } of cases) {
    if (names.has(name)) problems.push(`two cases are named "${name}"`);
    names.add(name);
    const text = JSON.stringify(drawing);
    const same = drawings.get(text);
    if (same !== undefined && !table.notChecked?.some((c) => c.name === name))
      problems.push(`"${name}" is the same drawing as "${same}"`);
    drawings.set(text, name);
  }
  if (!pageExists(check.id))
    problems.push(`no page assets/check-pages/${check.id}.md (write it with: npm run check-pages)`);
  return problems;
}

function asList(at: string | readonly string[]): readonly string[] {
  return typeof at === "string" ? [at] : at;
}

/** "F1:1" of a place; wires by number alone. */
function show(place: Place | undefined, names: Names): string {
  if (place === undefined) return "nowhere";
  return "wire" in place ? names.wire(place.wire) : names.place(place);
}

function deepFreeze<T>(value: T): T {
  if (typeof value === "object" && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value);
    for (const key of Object.keys(value)) deepFreeze((value as Record<string, unknown>)[key]);
  }
  return value;
}

function earlierOf(table: CheckTable, analysis: Analysis): EarlierNotChecked[] {
  return (table.earlier ?? []).flatMap((check) =>
    runCheck(check, analysis).notChecked.map((entry) => ({ check: check.id, entry })),
  );
}

/** Runs the check on a frozen drawing; a check that writes to its input or breaks fails here. */
function outcomeOf(
  check: Check,
  table: CheckTable,
  drawing: Project,
): { readonly outcome: CheckOutcome; readonly names: Names; readonly analysis: Analysis } {
  const analysis = analyse(deepFreeze(drawing));
  const outcome = runCheck(check, analysis, earlierOf(table, analysis));
  expect(outcome.broke, "the check broke").toBeNull();
  return { outcome, names: new Names(drawing), analysis };
}

/** Every text of a failure is filled, has no {place} left and ends as a sentence. */
function expectWords(check: Check, failure: Failure, names: Names): void {
  const message = check.messages[failure.message];
  expect(message, `message "${failure.message}"`).toBeDefined();
  if (message === undefined) return;
  for (const text of [message.title, message.why, message.mend]) {
    const filled = fill(text, failure.facts, names);
    expect(filled).not.toMatch(/[{}]|undefined|NaN|Infinity/);
    expect(filled).toMatch(/\.$/);
  }
}

/** The verdict of a drawing, in terms of the original ids: message, severity and first place, sorted. */
export function verdict(
  outcome: CheckOutcome,
  origin: ReadonlyMap<string, string>,
  known: ReadonlySet<string>,
): string[] {
  return [
    ...new Set(
      outcome.failures.map((failure) => {
        const first = failure.where[0];
        const id = first === undefined ? "" : placeId(first);
        const base = first !== undefined && "part" in first ? first.part : id;
        const mapped = origin.get(base);
        const at = mapped ?? (known.has(base) ? id : "?");
        return `${failure.message} ${failure.severity} ${at}`;
      }),
    ),
  ].sort();
}

function expectSameVerdict(check: Check, table: CheckTable, drawing: Project, redrawn: Redrawn, what: string): void {
  const known = new Set([
    ...drawing.parts.map((part) => part.id),
    ...drawing.wires.map((wire) => wire.id),
    ...drawing.sheets.map((sheet) => sheet.id),
  ]);
  const before = verdict(outcomeOf(check, table, drawing).outcome, new Map(), known);
  const after = verdict(outcomeOf(check, table, redrawn.project).outcome, redrawn.origin, known);
  expect(after, `verdict after: ${what}`).toEqual(before);
}

const REDRAWINGS: readonly Redrawing[] = ["splice", "busbar", "connector", "contact", "rename"];

function redraw(drawing: Project, redrawing: Redrawing): Redrawn {
  return redrawing === "rename" ? renameEverything(drawing) : insertEverywhere(drawing, redrawing);
}

/** Findings of all checks by severity, those folded under others as well: "supply-reversed at T1:B+". */
function findingsOf(analysis: Analysis): ReadonlyMap<Severity, readonly string[]> {
  const names = new Names(analysis.network.project);
  const findings = runChecks(analysis).findings.flatMap(function withFolded(finding): readonly Finding[] {
    return [finding, ...finding.folded.flatMap(withFolded)];
  });
  return new Map(
    SEVERITIES.map((severity) => [
      severity,
      findings
        .filter(({ failure }) => failure.severity === severity)
        .map(({ check, failure }) => `${check.id} at ${show(failure.where[0], names)}`),
    ]),
  );
}

/** Pairs of symbols whose boxes overlap on a sheet. */
function overlapping(project: Project): readonly string[] {
  return project.sheets.flatMap(({ id }) => {
    const views = placedViews(project, id);
    return views.flatMap((one, index) =>
      views
        .slice(index + 1)
        .filter((other) => overlap(one.box, other.box))
        .map((other) => `${one.part.designation} and ${other.part.designation}`),
    );
  });
}

/** Each remedy is one edit after which its finding is gone, nothing worse has come and nothing new overlaps. */
function expectRemedies(check: Check, table: CheckTable, drawing: Project): void {
  const { outcome, analysis } = outcomeOf(check, table, drawing);
  for (const failure of outcome.failures) {
    for (const remedy of failure.remedies ?? []) {
      const mended = remedy.apply(drawing);
      const after = outcomeOf(check, table, mended);
      const overlapped = new Set(overlapping(drawing));
      const overlaps = overlapping(mended).filter((pair) => !overlapped.has(pair));
      expect(overlaps, `"${remedy.label}" puts nothing on top of each other`).toEqual([]);
      const same = (other: Failure): boolean =>
        other.message === failure.message &&
        other.where[0] !== undefined &&
        failure.where[0] !== undefined &&
        placeId(other.where[0]) === placeId(failure.where[0]);
      expect(after.outcome.failures.some(same), `"${remedy.label}" clears its finding`).toBe(false);
      const before = findingsOf(analysis);
      const now = findingsOf(after.analysis);
      for (const severity of SEVERITIES.slice(0, SEVERITIES.indexOf(failure.severity) + 1)) {
        const known = before.get(severity) ?? [];
        const found = now.get(severity) ?? [];
        const added = found.filter((each) => !known.includes(each));
        const what = `"${remedy.label}" adds no ${severity}: ${added.join(", ")}`;
        expect(found.length, what).toBeLessThanOrEqual(known.length);
      }
    }
  }
}

function failingCase(check: Check, table: CheckTable, c: FailingCase): void {
  const { outcome, names } = outcomeOf(check, table, c.drawing);
  const at = outcome.failures.map((failure) => show(failure.where[0], names)).sort();
  expect(at, "places of the findings").toEqual([...asList(c.at)].sort());
  for (const failure of outcome.failures) {
    expect(failure.message).toBe(c.message);
    expect(failure.severity).toBe(c.severity);
    expect(check.severities).toContain(failure.severity);
    expectWords(check, failure, names);
    if (c.value !== undefined)
      expect(Math.abs((failure.value ?? Number.NaN) - c.value)).toBeLessThanOrEqual(Math.abs(c.value) * 0.01 + 1e-12);
    if (c.limit !== undefined)
      expect(Math.abs((failure.limit ?? Number.NaN) - c.limit)).toBeLessThanOrEqual(Math.abs(c.limit) * 0.01 + 1e-12);
    expect((failure.remedies ?? []).map((remedy) => remedy.id)).toEqual(
      c.remedies ?? (failure.remedies ?? []).map((remedy) => remedy.id),
    );
  }
}

/** Declares the table test of one check. */
export function checkTable(check: Check, table: CheckTable): void {
  describe(check.id, () => {
    test("the table is complete", () => {
      const page = (id: string): boolean => existsSync(new URL(`../../assets/check-pages/${id}.md`, import.meta.url));
      expect(tableProblems(check, table, page)).toEqual([]);
    });
    for (const c of table.fails) {
      test(`fails: ${c.name}`, () => failingCase(check, table, c));
      test(`fails, redrawn: ${c.name}`, () => {
        for (const seed of [7, 1234])
          expectSameVerdict(check, table, c.drawing, shuffle(c.drawing, seed), `lists shuffled (${seed})`);
        for (const redrawing of REDRAWINGS) {
          if (check.withstands[redrawing] !== true || c.except?.[redrawing] !== undefined) continue;
          expectSameVerdict(check, table, c.drawing, redraw(c.drawing, redrawing), redrawing);
        }
      });
      test(`fails, mended: ${c.name}`, () => expectRemedies(check, table, c.drawing));
    }
    for (const c of table.passes) {
      test(`passes: ${c.name}`, () => {
        const { outcome, names } = outcomeOf(check, table, c.drawing);
        expect(outcome.failures.map((failure) => `${failure.message} at ${show(failure.where[0], names)}`)).toEqual([]);
        const passed = outcome.passed.map((place) => show(place, names));
        expect(passed.length, "something passes").toBeGreaterThan(0);
        for (const place of c.at === undefined ? [] : asList(c.at)) expect(passed).toContain(place);
      });
    }
    for (const c of table.notChecked ?? []) {
      test(`not checked: ${c.name}`, () => {
        const { outcome, names } = outcomeOf(check, table, c.drawing);
        expect(outcome.failures.map((failure) => failure.message)).toEqual([]);
        const entries = outcome.notChecked.filter((entry) => entry.reason === c.reason);
        expect(entries.map((entry) => show(entry.where[0], names)).sort()).toEqual([...asList(c.at)].sort());
        expect(
          [...new Set(entries.flatMap((entry) => entry.missing.map((field) => names.missing(field))))].sort(),
        ).toEqual([...c.missing].sort());
        for (const entry of entries)
          expect(fill(check.reasons[c.reason] ?? "{}", entry.facts ?? {}, names)).toMatch(/^[^{}]+\.$/);
      });
    }
    for (const c of table.doesNotApply ?? []) {
      test(`does not apply: ${c.name}`, () => {
        const { outcome } = outcomeOf(check, table, c.drawing);
        expect(outcome.failures).toEqual([]);
        expect(outcome.passed).toEqual([]);
        expect(outcome.notChecked).toEqual([]);
      });
    }
  });
}
