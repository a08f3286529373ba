/**
 * One round of checks after an edit. Checks whose answer is likely to change (a person works at one place for a while)
 * come first, then the quick ones; until a check has had its turn its answer of the round before stands, less what it said of things that are gone.
 */
import type { Analysis } from "../../../core/circuit/analysis.ts";
import { CHECKS } from "../../../core/checks/catalogue.ts";
import type { Check, Place } from "../../../core/checks/define.ts";
import { runCheck } from "../../../core/checks/run.ts";
import type { CheckOutcome } from "../../../core/checks/run.ts";
import { stillStands } from "../../../core/checks/still-stands.ts";
import type { Project } from "../../../core/project/document.ts";

const FIRST_LOOK = CHECKS.filter((check) => check.runLast === undefined);

interface Earlier {
  readonly outcome: CheckOutcome;
  /** The document that it answers for. */
  readonly project: Project;
  /** How long it took, ms. */
  readonly took: number;
  /** It answered otherwise than the time before. */
  readonly changed: boolean;
}

export class CheckMemory {
  readonly #earlier = new Map<string, Earlier>();
  /** Answers before those, newest first: undoing an edit brings them back. */
  readonly #past = new Map<string, readonly Earlier[]>();

  forget(): void {
    this.#earlier.clear();
    this.#past.clear();
  }

  /** Every check has answered before, if for another revision. */
  get complete(): boolean {
    return this.#earlier.size === FIRST_LOOK.length;
  }

  /** Checks in the order of their turn. */
  order(): readonly Check[] {
    const rank = ({ id }: Check): number => {
      const earlier = this.#earlier.get(id);
      if (earlier === undefined) return 0;
      const { took, changed, outcome } = earlier;
      return changed ? took / EAGER : took + (outcome.failures.length > 0 ? 0 : QUIET);
    };
    return [...FIRST_LOOK].sort((a, b) => rank(a) - rank(b));
  }

  /** Takes an answer that it gave to an earlier document and that holds of this one. "otherwise": not its latest answer. */
  recall(check: Check, project: Project): "latest" | "otherwise" | undefined {
    const latest = this.#earlier.get(check.id);
    if (latest === undefined) return undefined;
    if (stillStands(check, latest.project, project)) return "latest";
    const past = this.#past.get(check.id) ?? [];
    const found = past.find((each) => stillStands(check, each.project, project));
    if (found === undefined) return undefined;
    this.#earlier.set(check.id, { ...found, changed: true });
    this.#past.set(check.id, [latest, ...past.filter((each) => each !== found)]);
    return "otherwise";
  }

  /** Runs the check; true if it answers otherwise than before. */
  run(check: Check, analysis: Analysis, clock: () => number): boolean {
    const begun = clock();
    const outcome = runCheck(check, analysis);
    const before = this.#earlier.get(check.id);
    const took = clock() - begun;
    const changed = before === undefined || answer(before.outcome) !== answer(outcome);
    const { project } = analysis.network;
    if (before !== undefined) {
      this.#past.set(check.id, [before, ...(this.#past.get(check.id) ?? [])].slice(0, REMEMBERED - 1));
    }
    this.#earlier.set(check.id, { outcome, project, took, changed: before !== undefined && changed });
    return changed;
  }

  /** What is known so far of this document, in the catalogue's order. */
  outcomes(project: Project): readonly CheckOutcome[] {
    const there = new Set([...project.parts, ...project.wires, ...project.sheets].map(({ id }) => id));
    return FIRST_LOOK.flatMap(({ id }) => {
      const outcome = this.#earlier.get(id)?.outcome;
      return outcome === undefined ? [] : [still(outcome, there)];
    });
  }
}

/** So many documents are remembered with what was found in them. */
export const REMEMBERED = 3;

/** A check that answered otherwise the last time comes as early as if it took only this part of its time. */
const EAGER = 8;

/** A check that found nothing the last time comes as much later as if it took this much longer, ms. */
const QUIET = 4;

const idOf = (place: Place): string => ("part" in place ? place.part : "wire" in place ? place.wire : place.sheet);

function still(outcome: CheckOutcome, there: ReadonlySet<string>): CheckOutcome {
  const stands = ({ where }: { readonly where: readonly Place[] }): boolean =>
    where.every((place) => there.has(idOf(place)));
  const { failures, notChecked } = outcome;
  if (failures.every(stands) && notChecked.every(stands)) return outcome;
  return { ...outcome, failures: failures.filter(stands), notChecked: notChecked.filter(stands) };
}

/** What a person reads of it; remedies are functions, which JSON leaves out. */
const answer = ({ failures, notChecked, broke }: CheckOutcome): string => JSON.stringify([failures, notChecked, broke]);
