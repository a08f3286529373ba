/**
 * The shape of a check and of what it reports. A check reads the analysis (or single fields of the document),
 * never names; it reports message ids and facts; words are filled in last, by text.ts.
 */
import type { Analysis } from "../circuit/analysis.ts";
import type { Project } from "../project/document.ts";
import type { Dimension } from "../quantity/kinds.ts";
import type { MissingField } from "../studies/missing-field.ts";
import type { Place } from "../studies/place.ts";

export type { MissingField, Place };

export type Severity = "DANGER" | "WARNING" | "CAUTION" | "NOTICE";
export const SEVERITIES: readonly Severity[] = ["DANGER", "WARNING", "CAUTION", "NOTICE"];

export type Group =
  | "connections"
  | "polarity"
  | "shorts"
  | "overcurrent"
  | "switching"
  | "precharge"
  | "coils"
  | "voltages"
  | "shock"
  | "conductors"
  | "controls"
  | "charging"
  | "drawing";

/** What fills a place in a text. A bare string is printed as it is (a class letter, a date); never a sentence. */
export type Fact =
  | string
  | { readonly value: number; readonly dimension: Dimension | "resistance-per-volt" }
  | { readonly place: Place }
  | { readonly places: readonly Place[] }
  | { readonly states: readonly string[] };
export type Facts = Readonly<Record<string, Fact>>;

/** Three sentences with {places}: what is so (figure and limit), why it hurts, what to do. */
export interface Message {
  readonly title: string;
  readonly why: string;
  readonly mend: string;
}

export interface Source {
  readonly text: string;
  readonly known: "seen" | "memory" | "calc" | "none";
}

/** An edit that mends the finding: a pure function on the document, offered with one click, undone with one. */
export interface Remedy {
  readonly id: string;
  readonly label: string;
  readonly apply: (project: Project) => Project;
}

export interface Failure {
  readonly message: string;
  readonly facts: Facts;
  readonly severity: Severity;
  /** First place = where the pen points. */
  readonly where: readonly Place[];
  readonly states?: readonly string[];
  readonly value?: number;
  readonly limit?: number;
  readonly unit?: string;
  readonly source?: Source;
  /** Tells two findings of one check at one place apart. */
  readonly variant?: string;
  readonly remedies?: readonly Remedy[];
  /** More places that this finding is about, for folding only: a finding folds under a root that touches one of its places. */
  readonly touches?: readonly Place[];
  /** Roots of this finding alone, beside those of its check. */
  readonly foldsUnder?: readonly string[];
  /** Findings of one check with the same cause are mended together: the first is told, the others fold under it. */
  readonly cause?: string;
}

export interface NotChecked {
  readonly where: readonly Place[];
  /** Key of `reasons`. */
  readonly reason: string;
  readonly facts?: Facts;
  readonly missing: readonly MissingField[];
}

export interface Report {
  fails(failure: Failure): void;
  passes(...where: Place[]): void;
  notChecked(entry: NotChecked): void;
  doesNotApply(...where: Place[]): void;
}

export type Redrawing = "splice" | "busbar" | "connector" | "contact" | "rename";

export interface Check {
  readonly id: string;
  readonly group: Group;
  /** Its name in plain words, e.g. "Supply the wrong way round". */
  readonly title: string;
  /** Two to four sentences: what it looks at, in which states, and what it cannot see. */
  readonly about: string;
  readonly severities: readonly Severity[];
  readonly source: Source;
  /** "document": single fields of the document; "states": the solved circuit, never the bare wire graph. */
  readonly reads: "document" | "states";
  /** The verdict survives these redrawings of a failing case; a text says why not. */
  readonly withstands: Readonly<Record<Redrawing, true | string>>;
  /** Outcomes that cannot occur, with the reason. `fails` and `passes` always occur. */
  readonly without: { readonly notChecked?: string; readonly doesNotApply?: string };
  readonly messages: Readonly<Record<string, Message>>;
  /** Reasons for "not checked": one sentence each, with {places}. */
  readonly reasons: Readonly<Record<string, string>>;
  /** Checks whose finding, touching one of this finding's places, is the root cause of this one. */
  readonly foldsUnder?: readonly string[];
  run(analysis: Analysis, report: Report): void;
  /** A second look after every other check has run: for the one check that reports what the others lacked. */
  runLast?(analysis: Analysis, earlier: readonly EarlierNotChecked[], report: Report): void;
}

/** What another check could not check. */
export interface EarlierNotChecked {
  readonly check: string;
  readonly entry: NotChecked;
}

export function defineCheck(check: Check): Check {
  return check;
}
