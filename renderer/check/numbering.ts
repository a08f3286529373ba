/** Findings by what is selected, and the names of checks. Their numbers come from core/documents/numbering.ts. */
import type { Note } from "../../core/documents/numbering.ts";
import type { CheckedView } from "../window/analysis/protocol.ts";
import type { Selection } from "../window/selection.ts";

/** Notes that name something of the selection. */
export function notesAt(notes: readonly Note[], { parts, wires }: Selection): readonly Note[] {
  const chosen = new Set([...parts, ...wires]);
  return notes.filter(({ finding }) => finding.where.some((place) => "id" in place && chosen.has(place.id)));
}

export type CheckName = (id: string) => string;

/** A check by its title, "Supply the wrong way round". */
export const checkName =
  (checked: CheckedView | null): CheckName =>
  (id) =>
    checked?.titles[id] ?? id;

/** The first two checks by their titles, and how many more there are. */
export function checkNames(ids: readonly string[], name: CheckName): string {
  const [first = "", second, ...more] = ids.map(name);
  if (second === undefined) return first;
  return more.length === 0 ? `${first}; ${second}` : `${first}; ${second}; and ${String(more.length)} more`;
}
