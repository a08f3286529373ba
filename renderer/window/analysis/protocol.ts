/**
 * What the window and its analysis worker say to each other. The worker holds its own copy of the document: the
 * whole of it on opening, afterwards patches. Everything carries the document's revision; answers to an older one
 * are dropped.
 */
import type { CheckDocument } from "../../../core/checks/report-json.ts";
import type { Project } from "../../../core/project/document.ts";
import type { TransitionName } from "../../../core/circuit/transition/transition.ts";
import type { ReportOrigin } from "../../../core/documents/findings-report.ts";
import type { ReportTypeface } from "../../../core/documents/report-style.ts";
import type { RunDocument } from "../../../core/documents/run-json.ts";
import type { WorkedSection } from "../../../core/documents/worked-out/worked-out.ts";
import type { DiagnoseDocument } from "../../../core/studies/diagnose-json.ts";
import type { FaultsDocument } from "../../../core/studies/single-faults-json.ts";
import type { Patch } from "immer";

/** A remedy is code that stays with the worker; what it would change comes back as patches. */
export interface MendRequest {
  readonly say: "mend";
  readonly revision: number;
  readonly finding: string;
  readonly remedy: string;
}

export type ToWorker =
  | MendRequest
  | { readonly say: "open"; readonly revision: number; readonly project: Project }
  | { readonly say: "edit"; readonly from: number; readonly revision: number; readonly patches: readonly Patch[] }
  | { readonly say: "ask"; readonly revision: number; readonly id: number; readonly question: Question };

/** What is worked out only when somebody wants to see it. */
export type Question =
  | { readonly about: "transition"; readonly name: TransitionName }
  /** The drawing at one moment of a transition. */
  | { readonly about: "moment"; readonly name: TransitionName; readonly time: number }
  /** Every single fault and what it leads to. */
  | { readonly about: "faults" }
  /** The drawing in a state with one of them in it. */
  | { readonly about: "fault"; readonly key: string; readonly state: string }
  /** What the studies say of a part or wire. */
  | { readonly about: "studies"; readonly part: string }
  | { readonly about: "studies"; readonly wire: string }
  /** Which single faults explain the readings kept in the project. */
  | { readonly about: "readings" }
  | ReportQuestion;

/** The findings report, made once every check has answered for the document as it stands. */
export interface ReportQuestion {
  readonly about: "report";
  readonly origin: ReportOrigin;
  readonly typeface: ReportTypeface;
}

interface Answers {
  readonly transition: TransitionView;
  readonly moment: StateView;
  readonly faults: FaultsDocument;
  readonly fault: StateView;
  readonly studies: readonly WorkedSection[];
  readonly readings: ReadingsView;
  /** A whole HTML file. */
  readonly report: string;
}
export type AnswerTo<Asked extends Question> = Answers[Asked["about"]];
export type Answer = Answers[Question["about"]];

/** `problem`: why the readings cannot be held against the drawing, in one sentence. */
export type ReadingsView = { readonly problem: string } | { readonly document: DiagnoseDocument };

/** A figure over the times of a transition, worth a curve of its own. */
export interface Curve {
  readonly label: string;
  readonly unit: "V" | "A";
  /** By time of the document; null = no figure. */
  readonly values: readonly (number | null)[];
  /** Shown before anybody has chosen. */
  readonly first: boolean;
}

export interface TransitionView {
  readonly document: RunDocument;
  readonly curves: readonly Curve[];
}

/** Potential of a terminal in a state: what its line looks like. */
export const POTENTIALS = ["dead", "auxiliary", "traction", "chassis", "floating"] as const;
export type Potential = (typeof POTENTIALS)[number];

/** A contact by its part and the terminals that it joins: "p3:line-load". */
export const contactKey = (part: string, { a, b }: { readonly a: string; readonly b: string }): string =>
  `${part}:${a}-${b}`;

export interface StateView {
  readonly name: string;
  /** By terminal: volts to chassis; NaN where nothing holds it. */
  readonly volts: Float64Array;
  /** By terminal: index into POTENTIALS. */
  readonly potential: Uint8Array;
  /** By wire: amperes from its first end to its second; NaN for a wire that is no branch. */
  readonly amps: Float64Array;
  /** Contacts that are closed, by contactKey. */
  readonly closed: readonly string[];
  /** How many nets are live in traction and in the 12 V circuit. */
  readonly live: { readonly traction: number; readonly auxiliary: number };
  /** "T2: cannot start on this feed", and parts that find no rest. */
  readonly remarks: readonly { readonly part: string; readonly remark: string }[];
}

export interface NetView {
  readonly name: string;
  readonly terminals: readonly string[];
}

export interface SolvedView {
  readonly revision: number;
  /** "p1:+" */
  readonly terminals: readonly string[];
  readonly netOfTerminal: Int32Array;
  readonly nets: readonly NetView[];
  readonly wires: readonly string[];
  /** Terminal at the traction pack's lowest pole; -1 without a pack. */
  readonly packNegative: number;
  /** Wires of nets that belong to a traction source in some state. */
  readonly tractionWires: readonly string[];
  readonly states: readonly StateView[];
  /** Transitions in time that the drawing has the controls for. */
  readonly transitions: readonly TransitionName[];
}

export interface CheckedView {
  readonly revision: number;
  /** False while some checks still answer for the revision before. */
  readonly whole: boolean;
  readonly document: CheckDocument;
  /** Titles of the checks that it names, by id: the window does not carry the checks. */
  readonly titles: Readonly<Record<string, string>>;
  /** How often each check that was run came to each outcome, by its id. */
  readonly tallies: Readonly<Record<string, Standing>>;
}

/** What a check has to say of the drawing, in numbers; what is folded or accepted counts as found. */
export interface Standing {
  readonly found: number;
  readonly notChecked: number;
  readonly passed: number;
  readonly doesNotApply: number;
}

export type FromWorker =
  | { readonly say: "solved"; readonly view: SolvedView }
  | { readonly say: "checked"; readonly view: CheckedView }
  /** undefined: the drawing has changed meanwhile, or has no such thing. */
  | { readonly say: "answer"; readonly id: number; readonly answer: Answer | undefined }
  /** What the remedy that was asked for changes, on the document of this revision. */
  | { readonly say: "mended"; readonly revision: number; readonly label: string; readonly patches: readonly Patch[] }
  /** Why the remedy cannot be carried out, in one sentence. */
  | { readonly say: "unmended"; readonly revision: number; readonly text: string }
  /** The worker lost count of the patches and needs the whole document. */
  | { readonly say: "lost"; readonly revision: number }
  | { readonly say: "broke"; readonly revision: number; readonly text: string };
