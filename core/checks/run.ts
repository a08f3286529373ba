/** Runs checks over an analysis, words what they report, folds and orders it. A check that breaks is "not checked", never a pass. */
import type { Analysis } from "../circuit/analysis.ts";
import { CHECKS } from "./catalogue.ts";
import { SEVERITIES } from "./define.ts";
import type { Check, EarlierNotChecked, Failure, NotChecked, Place, Report } from "./define.ts";
import { factsHash, findingKey } from "./finding.ts";
import type { CheckRun, CheckTally, Finding, NotCheckedItem } from "./finding.ts";
import { fold } from "./fold.ts";
import { fill, Names } from "./text.ts";
import { plainStates } from "./words/plain-states.ts";

export interface CheckOutcome {
  readonly check: Check;
  readonly failures: readonly Failure[];
  readonly passed: readonly Place[];
  readonly notChecked: readonly NotChecked[];
  readonly doesNotApply: readonly Place[];
  /** What the check threw, if it broke. */
  readonly broke: string | null;
}

/** Runs one check and collects its four outcomes, unworded. */
export function runCheck(check: Check, analysis: Analysis, earlier: readonly EarlierNotChecked[] = []): CheckOutcome {
  const failures: Failure[] = [];
  const passed: Place[] = [];
  const notChecked: NotChecked[] = [];
  const doesNotApply: Place[] = [];
  const report: Report = {
    fails: (failure) => failures.push(failure),
    passes: (...where) => passed.push(...where),
    notChecked: (entry) => notChecked.push(entry),
    doesNotApply: (...where) => doesNotApply.push(...where),
  };
  let broke: string | null = null;
  try {
    check.run(analysis, report);
    check.runLast?.(analysis, earlier, report);
  } catch (reason) {
    broke = reason instanceof Error ? reason.message : String(reason);
  }
  // What a broken check had passed before it broke is no verdict.
  return { check, failures, passed: broke === null ? passed : [], notChecked, doesNotApply, broke };
}

function word(outcome: CheckOutcome, failure: Failure, analysis: Analysis, names: Names): Finding {
  const message = outcome.check.messages[failure.message];
  if (message === undefined) throw new Error(`${outcome.check.id} has no message "${failure.message}"`);
  const key = findingKey(outcome.check.id, failure);
  const hash = factsHash(failure);
  const accepted = analysis.network.project.accepted.find((entry) => entry.key === key && entry.hash === hash);
  return {
    key,
    hash,
    check: outcome.check,
    failure: failure.states === undefined ? failure : { ...failure, states: plainStates(failure.states) },
    severity: failure.severity,
    title: fill(message.title, failure.facts, names),
    why: fill(message.why, failure.facts, names),
    mend: fill(message.mend, failure.facts, names),
    source: failure.source ?? outcome.check.source,
    folded: [],
    accepted: accepted === undefined ? null : { who: accepted.who, when: accepted.when, why: accepted.why },
  };
}

function wordNotChecked(outcome: CheckOutcome, names: Names): NotCheckedItem[] {
  const items = outcome.notChecked.map((entry): NotCheckedItem => {
    const reason = outcome.check.reasons[entry.reason];
    if (reason === undefined) throw new Error(`${outcome.check.id} has no reason "${entry.reason}"`);
    return {
      check: outcome.check.id,
      where: entry.where,
      missing: entry.missing,
      why: fill(reason, entry.facts ?? {}, names),
    };
  });
  if (outcome.broke !== null) {
    items.push({
      check: outcome.check.id,
      where: [],
      missing: [],
      why: `The check stopped on this drawing (${outcome.broke}); nothing it covers counts as checked.`,
    });
  }
  return items;
}

/** Severity first, then the catalogue's order (what to mend first), then places in natural order. */
function inOrder(findings: readonly Finding[], names: Names, checks: readonly Check[]): Finding[] {
  const rank = new Map(checks.map((check, index) => [check.id, index]));
  const first = (finding: Finding): string => {
    const place = finding.failure.where[0];
    return place === undefined ? "" : names.place(place);
  };
  const natural = new Intl.Collator("en", { numeric: true });
  return [...findings].sort(
    (a, b) =>
      SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity) ||
      (rank.get(a.check.id) ?? 0) - (rank.get(b.check.id) ?? 0) ||
      natural.compare(first(a), first(b)) ||
      (a.key < b.key ? -1 : a.key > b.key ? 1 : 0),
  );
}

/** All checks of the catalogue (or some of them) over one analysis. */
export function runChecks(analysis: Analysis, checks: readonly Check[] = CHECKS): CheckRun {
  const outcomes = checks.filter((check) => check.runLast === undefined).map((check) => runCheck(check, analysis));
  return conclude(analysis, outcomes, checks);
}

/**
 * Words, folds and orders what the checks reported, after those with a second look have had theirs. Split from
 * `runChecks` so that a worker can pause between two checks.
 */
export function conclude(
  analysis: Analysis,
  first: readonly CheckOutcome[],
  checks: readonly Check[] = CHECKS,
): CheckRun {
  const names = new Names(
    analysis.network.project,
    analysis.states.map(({ name }) => name),
  );
  const earlier = first.flatMap((outcome) => outcome.notChecked.map((entry) => ({ check: outcome.check.id, entry })));
  const last = checks.filter((check) => check.runLast !== undefined);
  const outcomes = [...first, ...last.map((check) => runCheck(check, analysis, earlier))];
  const worded = outcomes.flatMap((outcome) =>
    outcome.failures.map((failure) => word(outcome, failure, analysis, names)),
  );
  const findings = inOrder(fold(inOrder(worded, names, checks)), names, checks);
  const notChecked = outcomes.flatMap((outcome) => wordNotChecked(outcome, names));
  const open = findings.filter((finding) => finding.accepted === null);
  const count = (severity: string): number => open.filter((finding) => finding.severity === severity).length;
  return {
    findings,
    notChecked,
    counts: {
      DANGER: count("DANGER"),
      WARNING: count("WARNING"),
      CAUTION: count("CAUTION"),
      NOTICE: count("NOTICE"),
      accepted: findings.length - open.length,
      notChecked: notChecked.length,
      passed: outcomes.reduce((sum, outcome) => sum + outcome.passed.length, 0),
      doesNotApply: outcomes.reduce((sum, outcome) => sum + outcome.doesNotApply.length, 0),
    },
    tallies: tally(outcomes, checks),
  };
}

/** A check that broke counts as once not checked, as in the list of what was not. */
function tally(outcomes: readonly CheckOutcome[], checks: readonly Check[]): readonly CheckTally[] {
  const byId = new Map(outcomes.map((outcome) => [outcome.check.id, outcome]));
  return checks.flatMap((check) => {
    const outcome = byId.get(check.id);
    if (outcome === undefined) return [];
    const { failures, passed, notChecked, doesNotApply, broke } = outcome;
    return [
      {
        check,
        found: failures.length,
        notChecked: notChecked.length + (broke === null ? 0 : 1),
        passed: passed.length,
        doesNotApply: doesNotApply.length,
      },
    ];
  });
}
