/** Which two drawings of a check's table make its pictures, and which of their parts are shown. */
import { runCheck } from "../../core/checks/run.ts";
import type { Check, EarlierNotChecked, Failure, Place } from "../../core/checks/define.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import type { Analysis } from "../../core/circuit/analysis.ts";
import { kindOf } from "../../core/parts/catalogue.ts";
import type { Project } from "../../core/project/document.ts";
import type { CheckTable } from "../harness/check-table.ts";
import { differences, keyed } from "./differences.ts";
import type { Differences, Keyed } from "./differences.ts";
import { OWN_DRAWINGS } from "./own-drawings.ts";

/** What may be said of a check's pictures where the choice by rule makes a poor one. */
export interface Choice {
  /** Names of the cases in the table. */
  readonly wrong?: string;
  readonly right?: string;
  /** Designations of all parts shown, or of those to show besides. */
  readonly shows?: readonly string[];
  readonly also?: readonly string[];
  readonly without?: readonly string[];
  /** Where the pen points, if not at the first places of the findings: "Q1", "Q1:line", a wire as "F1:1 - G1:+". */
  readonly at?: readonly string[];
  /** Fields written beside their part or wire on both pictures, "Q1.suppression"; none: those that differ. */
  readonly states?: readonly string[];
  /** Views, too, from which wires lead only to parts that are left out. */
  readonly everyView?: true;
  /** The title block instead of parts. */
  readonly titleBlock?: true;
}

export interface Pair {
  readonly wrong: Keyed;
  readonly right: Keyed;
  readonly analysis: { readonly wrong: Analysis; readonly right: Analysis };
  readonly failures: readonly Failure[];
  readonly differ: Differences;
  readonly names: { readonly wrong: string; readonly right: string };
}

interface Case {
  readonly name: string;
  readonly drawing: Project;
}

const weight = ({ parts, wires, others }: Differences): number => parts.size + wires.size + others;

/** The failing and the passing case that differ least; of several the smaller and the earlier one. */
function choosePair(table: CheckTable, choice: Choice): readonly [Case, Case] {
  const named = <T extends { readonly name: string }>(cases: readonly T[], name: string | undefined): readonly T[] => {
    if (name === undefined) return cases;
    const found = cases.filter((each) => each.name === name);
    if (found.length === 0) throw new Error(`there is no case "${name}": it stands in tests/check-pictures/choices.ts`);
    return found;
  };
  let best: readonly [Case, Case] | undefined;
  let least = Infinity;
  const passes = named(table.passes, choice.right).map((each) => ({ each, of: keyed(each.drawing) }));
  named(table.fails, choice.wrong).forEach((wrong, index) => {
    const of = keyed(wrong.drawing);
    passes.forEach((right, place) => {
      const size = of.parts.size + right.of.parts.size;
      const price = weight(differences(of, right.of)) * 2 + size * 0.4 + index + place * 0.5;
      if (price >= least) return;
      least = price;
      best = [wrong, right.each];
    });
  });
  if (best === undefined) throw new Error("the table has no failing or no passing case");
  return best;
}

/** Draws nothing yet: solves both drawings, and refuses a wrong one that passes or a right one that fails. */
export function solvePair(check: Check, table: CheckTable, choice: Choice): Pair {
  const own = OWN_DRAWINGS[check.id];
  const [failing, passing] = own === undefined ? choosePair(table, choice) : [own.wrong, own.right];
  const run = (project: Project) => {
    const analysis = analyse(project);
    const earlier = (table.earlier ?? []).flatMap((other): readonly EarlierNotChecked[] =>
      runCheck(other, analysis).notChecked.map((entry) => ({ check: other.id, entry })),
    );
    return { analysis, outcome: runCheck(check, analysis, earlier) };
  };
  const wrong = run(failing.drawing);
  const right = run(passing.drawing);
  if (wrong.outcome.failures.length === 0) throw new Error(`${check.id}: "${failing.name}" has no finding to show`);
  if (right.outcome.failures.length > 0) throw new Error(`${check.id}: "${passing.name}" is not right`);
  const [a, b] = [keyed(failing.drawing), keyed(passing.drawing)];
  return {
    wrong: a,
    right: b,
    analysis: { wrong: wrong.analysis, right: right.analysis },
    failures: wrong.outcome.failures,
    differ: differences(a, b),
    names: { wrong: failing.name, right: passing.name },
  };
}

/** No more parts than these fit a small picture. */
const MOST_PARTS = 7;
/** Places of a finding beyond these are left to its words. */
const MOST_PLACES = 4;

/** Keys of the parts shown: what the finding names, what differs, what joins them, a supply, neighbours while there is room. */
export function shownParts({ wrong, right, failures, differ }: Pair, choice: Choice): ReadonlySet<string> {
  if (choice.shows !== undefined) return new Set(choice.shows);
  const near = neighbours([wrong, right]);
  const shown = new Set<string>();
  for (const place of failures.flatMap(({ where }) => where.slice(0, MOST_PLACES)).slice(0, MOST_PLACES))
    for (const key of partsAt(wrong, place)) shown.add(key);
  for (const key of differ.parts) if (shown.size < MOST_PARTS) shown.add(key);
  for (const key of differ.wires)
    for (const of of [wrong, right])
      for (const part of partsAt(of, { wire: of.wires.get(key)?.id ?? "" }))
        if (shown.size < MOST_PARTS) shown.add(part);
  for (const key of choice.also ?? []) shown.add(key);
  const join = (to: (key: string) => boolean): void => {
    for (const key of pathTo(near, shown, to)) if (shown.size < MOST_PARTS) shown.add(key);
  };
  for (const key of [...shown])
    if (!touches(near, key, shown))
      for (const between of pathTo(near, new Set([key]), (other) => other !== key && shown.has(other)))
        if (shown.size < MOST_PARTS) shown.add(between);
  const isSource = (key: string): boolean => {
    const part = wrong.parts.get(key) ?? right.parts.get(key);
    return part !== undefined && kindOf(part.kind)?.group === "sources";
  };
  if (![...shown].some(isSource)) join(isSource);
  for (const key of choice.without ?? []) shown.delete(key);
  return shown;
}

const touches = (near: ReadonlyMap<string, ReadonlySet<string>>, key: string, shown: ReadonlySet<string>): boolean =>
  shown.size === 1 || [...(near.get(key) ?? [])].some((other) => shown.has(other));

function partsAt(of: Keyed, place: Place): readonly string[] {
  const ids =
    "part" in place
      ? [place.part]
      : "wire" in place
        ? (of.project.wires.find(({ id }) => id === place.wire)?.ends ?? []).flatMap((end) =>
            end === null ? [] : [end[0]],
          )
        : [];
  return ids.flatMap((id) => of.partKeys.get(id) ?? []);
}

function neighbours(all: readonly Keyed[]): ReadonlyMap<string, ReadonlySet<string>> {
  const near = new Map<string, Set<string>>();
  for (const of of all)
    for (const { ends } of of.project.wires) {
      const [a, b] = ends.map((end) => (end === null ? undefined : of.partKeys.get(end[0])));
      if (a === undefined || b === undefined || a === b) continue;
      near.set(a, (near.get(a) ?? new Set()).add(b));
      near.set(b, (near.get(b) ?? new Set()).add(a));
    }
  return near;
}

/** The parts on the shortest way along wires from any of `from` to a part that is wanted, that one included. */
function pathTo(
  near: ReadonlyMap<string, ReadonlySet<string>>,
  from: ReadonlySet<string>,
  wanted: (key: string) => boolean,
): readonly string[] {
  const before = new Map<string, string | undefined>([...from].map((key) => [key, undefined]));
  const queue = [...from];
  for (let key = queue.shift(); key !== undefined; key = queue.shift())
    for (const next of near.get(key) ?? []) {
      if (before.has(next)) continue;
      before.set(next, key);
      if (!wanted(next)) {
        queue.push(next);
        continue;
      }
      const path: string[] = [];
      for (let at: string | undefined = next; at !== undefined && !from.has(at); at = before.get(at)) path.push(at);
      return path;
    }
  return [];
}
