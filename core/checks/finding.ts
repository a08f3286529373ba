/** Findings as the margin, the command line and the papers show them: the check's failure plus words, key and folding. */
import type { Check, Failure, MissingField, Place, Severity, Source } from "./define.ts";

export interface Finding {
  /** Check + sorted ids of its places + variant: survives renaming, moving and re-solving. */
  readonly key: string;
  readonly check: Check;
  readonly failure: Failure;
  /** The check's own severity, or the worst of what is folded under it. */
  readonly severity: Severity;
  readonly title: string;
  readonly why: string;
  readonly mend: string;
  readonly source: Source;
  readonly folded: readonly Finding[];
  /** Hash of the facts the finding stands on (three significant digits): an accepted finding returns when it changes. */
  readonly hash: string;
  readonly accepted: { readonly who: string; readonly when: string; readonly why: string } | null;
}

export interface NotCheckedItem {
  readonly check: string;
  readonly where: readonly Place[];
  readonly missing: readonly MissingField[];
  readonly why: string;
}

export interface Counts {
  readonly DANGER: number;
  readonly WARNING: number;
  readonly CAUTION: number;
  readonly NOTICE: number;
  readonly accepted: number;
  readonly notChecked: number;
  readonly passed: number;
  readonly doesNotApply: number;
}

/** How often a check came to each outcome; what is folded or accepted counts as found. */
export interface CheckTally {
  readonly check: Check;
  readonly found: number;
  readonly notChecked: number;
  readonly passed: number;
  readonly doesNotApply: number;
}

export interface CheckRun {
  readonly findings: readonly Finding[];
  readonly notChecked: readonly NotCheckedItem[];
  readonly counts: Counts;
  /** Every check that was run, in the catalogue's order. */
  readonly tallies: readonly CheckTally[];
}

/** Ids of a place, for keys and for telling whether two findings touch. */
export function placeId(place: Place): string {
  if ("part" in place) return place.terminal === undefined ? place.part : `${place.part}:${place.terminal}`;
  if ("wire" in place) return place.wire;
  return place.sheet;
}

export function findingKey(check: string, failure: Failure): string {
  const ids = [...new Set(failure.where.map(placeId))].sort();
  return [check, ...ids, ...(failure.variant === undefined ? [] : [`~${failure.variant}`])].join(" ");
}

/** FNV-1a over the facts, numbers rounded to three significant digits so that noise does not bring a finding back. */
export function factsHash(failure: Failure): string {
  const rounded = (value: unknown): unknown =>
    typeof value === "number" ? Number(value.toPrecision(3)) : Array.isArray(value) ? value.map(rounded) : value;
  const text = JSON.stringify(
    [failure.message, failure.severity, failure.facts, failure.value, failure.limit],
    (_, value: unknown) => rounded(value),
  );
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) {
    hash ^= text.charCodeAt(i);
    hash = Math.imul(hash, 0x01000193);
  }
  return (hash >>> 0).toString(16).padStart(8, "0");
}
