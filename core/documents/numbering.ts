/** The numbers that findings bear in the margin, on the sheet and in the report: the same everywhere. */
import type { CheckDocument, JsonFinding, JsonPlace } from "../checks/report-json.ts";

export interface Note {
  readonly number: number;
  readonly finding: JsonFinding;
}

/** Those that count, in the order in which they are best mended; accepted ones bear no number. */
export const notesOf = (document: CheckDocument | null): readonly Note[] =>
  (document?.findings ?? [])
    .filter(({ accepted }) => accepted === null)
    .map((finding, index) => ({ number: index + 1, finding }));

/** Equal for equal places: "p12", "p12:+", "w3", "sheet Power". */
export const placeKey = (place: JsonPlace): string =>
  "sheet" in place ? `sheet ${place.sheet}` : "terminal" in place ? `${place.id}:${place.terminal}` : place.id;

export interface Numbered {
  readonly key: string;
  readonly notes: readonly Note[];
}

/** A finding with more places than this shows its number at the first of them alone, until it is opened. */
const MOST_PLACES = 12;

/** The numbers that stand at each place: a place that two findings name bears both. `open`: the finding opened. */
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

/** More numbers at one place would cover what they are about; the rest are counted beside them. */
export const MOST_NUMBERS = 3;
