/**
 * What a remedy has to hold: one edit after which its finding is gone (folded under another it is still there), which
 * brings no finding as bad or worse, puts no symbol on another, is taken back whole by one undo, and leaves a
 * document that is saved and read again as it is.
 */
import { isDeepStrictEqual } from "node:util";
import { CHECKS } from "../../core/checks/catalogue.ts";
import { SEVERITIES } from "../../core/checks/define.ts";
import type { Failure, Remedy, Severity } from "../../core/checks/define.ts";
import { placeId } from "../../core/checks/finding.ts";
import type { Finding } from "../../core/checks/finding.ts";
import { conclude, runCheck } from "../../core/checks/run.ts";
import { Names } from "../../core/checks/text.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import { overlap } from "../../core/geometry/boxes.ts";
import { placedViews } from "../../core/layout/placed-view.ts";
import { KINDS } from "../../core/parts/catalogue.ts";
import { carryOut } from "../../core/project/commands/carry-out.ts";
import { patchesBetween } from "../../core/project/difference.ts";
import type { Project } from "../../core/project/document.ts";
import { perform, startHistory, undo } from "../../core/project/history.ts";
import { readProject } from "../../core/project/read.ts";
import { writeProject } from "../../core/project/write.ts";
import { touched } from "../injection/touched.ts";

/** A drawing with what its checks say of it. */
export interface Checked {
  readonly project: Project;
  /** As told to the person: what folds under another is not offered a remedy. */
  readonly told: readonly Finding[];
  /** Those folded as well. */
  readonly all: readonly Finding[];
  /** Check and first place of what passed. */
  readonly passed: ReadonlySet<string>;
  readonly overlaps: ReadonlySet<string>;
}

export function checked(project: Project): Checked {
  const analysis = analyse(project);
  const outcomes = CHECKS.filter(({ runLast }) => runLast === undefined).map((check) => runCheck(check, analysis));
  const told = conclude(analysis, outcomes).findings;
  const all = told.flatMap(function withFolded(finding): readonly Finding[] {
    return [finding, ...finding.folded.flatMap(withFolded)];
  });
  const passed = outcomes.flatMap(({ check, passed: places }) =>
    places.map((place) => `${check.id} ${placeId(place)}`),
  );
  return { project, told, all, passed: new Set(passed), overlaps: overlapping(project) };
}

function overlapping(project: Project): ReadonlySet<string> {
  const pairs = project.sheets.flatMap(({ id }) => {
    const views = placedViews(project, id);
    return views.flatMap((one, index) =>
      views
        .slice(index + 1)
        .filter((other) => overlap(one.box, other.box))
        .map((other) => `${one.part.designation} and ${other.part.designation}`),
    );
  });
  return new Set(pairs);
}

const firstOf = ({ where: [first] }: Failure): string => (first === undefined ? "" : placeId(first));

const atPlace = ({ check, failure }: Finding): string => `${check.id} ${firstOf(failure)}`;

const rank = (severity: Severity): number => SEVERITIES.indexOf(severity);

const placesOf = ({ failure }: Finding): readonly string[] => failure.where.map(placeId);

/** What a new part or wire does not state yet is asked for: it is no trouble that the edit brought. */
const ASKS: readonly string[] = ["data-missing", "limits-unstated"];

/**
 * Findings as bad as the mended one or worse that its edit brought. A finding that names something the edit changed or
 * added, or whose check had passed at that place, is the edit's doing. Any other was hidden before: the trouble that
 * is now mended kept its check from looking, and the drawing had it all along. Nor is a trouble new that was told
 * before with another place first (of two fuses ahead of a thin wire the nearer is named), one for one.
 */
function brought(before: Checked, after: Checked, mended: Finding): readonly Finding[] {
  const changed = touched(before.project, after.project);
  const limit = mended.failure.severity;
  const keys = new Set(after.all.map(({ key }) => key));
  const gone = new Set(before.all.filter(({ key }) => key !== mended.key && !keys.has(key)));
  const wasTold = (finding: Finding): boolean => {
    const places = placesOf(finding);
    const same = [...gone].find(
      (other) =>
        other.check.id === finding.check.id &&
        other.failure.message === finding.failure.message &&
        rank(other.failure.severity) <= rank(finding.failure.severity) &&
        placesOf(other).some((place) => places.includes(place)),
    );
    return same !== undefined && gone.delete(same);
  };
  const known = new Map<string, number>();
  for (const finding of before.all) {
    const key = atPlace(finding);
    known.set(key, Math.min(known.get(key) ?? Infinity, rank(finding.failure.severity)));
  }
  return after.all.filter((finding) => {
    const { failure } = finding;
    const key = atPlace(finding);
    if (ASKS.includes(finding.check.id)) return false;
    if (rank(failure.severity) > rank(limit) || (known.get(key) ?? Infinity) <= rank(failure.severity)) return false;
    const names = [...failure.where, ...(failure.touches ?? [])];
    const isNamed = names.some((place) => changed.has("part" in place ? place.part : placeId(place)));
    return (isNamed || before.passed.has(key)) && !wasTold(finding);
  });
}

/** What a remedy of a finding breaks of its promise; nothing where it holds it. */
export function breaches(before: Checked, finding: Finding, remedy: Remedy): readonly string[] {
  const { project } = before;
  let mended: Project;
  try {
    mended = remedy.apply(project);
  } catch (reason) {
    return [`is refused: ${reason instanceof Error ? reason.message : String(reason)}`];
  }
  const told: string[] = [];
  const patches = patchesBetween(project, mended);
  if (patches.length === 0) told.push("changes nothing");
  const { history } = perform(startHistory(project), carryOut, { label: remedy.label, patches }, KINDS);
  if (!isDeepStrictEqual(history.present, mended)) told.push("arrives as another edit than it was made");
  const undone = undo(history);
  if (undone.past.length > 0 || !isDeepStrictEqual({ ...undone.present, lastIds: project.lastIds }, project))
    told.push("is not taken back by one undo");
  const read = readProject(writeProject(mended));
  if (!read.ok) told.push(`cannot be read again: ${read.problems.join(" ")}`);
  else if (writeProject(read.project) !== writeProject(mended)) told.push("reads otherwise than it was saved");
  const after = checked(mended);
  const names = new Names(mended);
  const overlaps = [...after.overlaps].filter((pair) => !before.overlaps.has(pair));
  if (overlaps.length > 0) told.push(`puts symbols on each other: ${overlaps.join(", ")}`);
  const others = new Set(before.all.flatMap(({ key }) => (key === finding.key ? [] : [key])));
  const isSame = ({ key, check, failure }: Finding): boolean =>
    check.id === finding.check.id &&
    failure.message === finding.failure.message &&
    firstOf(failure) === firstOf(finding.failure) &&
    !others.has(key);
  if (after.all.some(isSame)) told.push("leaves its finding where it was");
  for (const each of brought(before, after, finding)) {
    const [first] = each.failure.where;
    const at = first === undefined ? "" : "wire" in first ? names.wire(first.wire) : names.place(first);
    told.push(`brings ${each.failure.severity} ${each.check.id} (${each.failure.message}) at ${at}`);
  }
  return told;
}
