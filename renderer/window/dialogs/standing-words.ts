/** How a check stands on the drawing, in words: "2 found, 3 not checked, 14 passed". */
import type { Standing } from "../analysis/protocol.ts";

/** undefined: the check has not answered yet. */
export function standingWords(standing: Standing | undefined): string {
  if (standing === undefined) return "being looked at";
  const { found, notChecked, passed } = standing;
  const told = [
    ...(found > 0 ? [`${String(found)} found`] : []),
    ...(notChecked > 0 ? [`${String(notChecked)} not checked`] : []),
    ...(passed > 0 ? [`${String(passed)} passed`] : []),
  ];
  return told.length === 0 ? "does not apply" : told.join(", ");
}

export type StandingKind = "found" | "not-checked" | "passed" | "none";

/** What of it a reader must see first. */
export function standingKind(standing: Standing | undefined): StandingKind {
  if (standing === undefined) return "none";
  if (standing.found > 0) return "found";
  if (standing.notChecked > 0) return "not-checked";
  return standing.passed > 0 ? "passed" : "none";
}

/** How many checks came to each of these, worst first, for the head of the list. */
export function standingSummary(standings: readonly (Standing | undefined)[]): string {
  const count = (kind: StandingKind): number =>
    standings.filter((standing) => standing !== undefined && standingKind(standing) === kind).length;
  const waiting = standings.filter((standing) => standing === undefined).length;
  return [
    `${String(count("found"))} with findings`,
    `${String(count("not-checked"))} with something not checked`,
    `${String(count("passed"))} passed`,
    `${String(count("none"))} ${count("none") === 1 ? "does" : "do"} not apply`,
    ...(waiting === 0 ? [] : [`${String(waiting)} still being looked at`]),
  ].join(", ");
}
