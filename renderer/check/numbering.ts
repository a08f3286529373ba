/** Findings with the numbers that they bear in the margin and on the sheet. */
import type { CheckDocument, JsonFinding } from "../../core/checks/report-json.ts";
import type { CheckedView } from "../window/analysis/protocol.ts";
import type { Selection } from "../window/editor-store.ts";
import { placeKey } from "./places.ts";

export interface Note {
  readonly number: number;
  readonly finding: JsonFinding;
}

/** Those that count, in the order in which they are best mended; accepted ones bear no number. */
export const notesOf = (document: CheckDocument | null): readonly Note[] =>
  (document?.findings ?? [])
    .filter(({ accepted }) => accepted === null)
    .map((finding, index) => ({ number: index + 1, finding }));

/** Notes that name something of the selection. */
export function notesAt(notes: readonly Note[], { parts, wires }: Selection): readonly Note[] {
  const chosen = new Set([...parts, ...wires]);
  return notes.filter(({ finding }) => finding.where.some((place) => "id" in place && chosen.has(place.id)));
}

export interface Numbered {
  readonly key: string;
  readonly notes: readonly Note[];
}

/** A finding with more places than this shows its number at the first of them alone, until it is opened. */
const MOST_PLACES = 12;

/** The numbers that stand at each place: a place that two findings name bears both. */
export function numbersByPlace(notes: readonly Note[], open: string | null): readonly Numbered[] {
  const places = new Map<string, Note[]>();
  for (const note of notes) {
    const keys = [...new Set(note.finding.where.map(placeKey))];
    for (const key of keys.length > MOST_PLACES && note.finding.id !== open ? keys.slice(0, 1) : keys) {
      const there = places.get(key);
      if (there === undefined) places.set(key, [note]);
      else there.push(note);
    }
  }
  return [...places].map(([key, at]) => ({ key, notes: at }));
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
