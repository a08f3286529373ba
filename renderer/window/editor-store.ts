/**
 * The window's state: the document with its history, what is selected and shown, and the newest analysis. Every
 * edit goes through a command of core/project; every change reaches the analysis worker as patches. No React here.
 */
import type { Patch } from "immer";
import { createStore } from "zustand/vanilla";
import type { StoreApi } from "zustand/vanilla";
import type { StateName } from "../../core/parts/condition.ts";
import { KINDS } from "../../core/parts/catalogue.ts";
import { carryOut } from "../../core/project/commands/carry-out.ts";
import { Refused } from "../../core/project/commands/define.ts";
import type { Command } from "../../core/project/commands/define.ts";
import type { Project, SheetId, WireEnd } from "../../core/project/document.ts";
import { perform, redo, startHistory, undo } from "../../core/project/history.ts";
import type { History, HistoryEntry } from "../../core/project/history.ts";
import type { FileRef } from "../../core/host/host.ts";
import type { TransitionName } from "../../core/circuit/transition/transition.ts";
import type { Second } from "../../core/quantity/kinds.ts";
import { editedIn } from "./edited.ts";
import { NOTHING } from "./selection.ts";
import type { Selection } from "./selection.ts";
import type { CheckedView, SolvedView, StateView, TransitionView } from "./analysis/protocol.ts";

export const STAGES = ["plan", "draw", "check", "build", "energise"] as const;
export type Stage = (typeof STAGES)[number];

export interface Editor {
  readonly history: History;
  readonly file: FileRef | null;
  readonly fileName: string;
  /**
   * The edit after which the document was last opened or saved; undoing back to it leaves nothing to save. null = as
   * opened; "never" = what was opened stands in no file yet (recovered work).
   */
  readonly saved: HistoryEntry | null | "never";
  readonly sheet: SheetId;
  readonly stage: Stage;
  readonly selection: Selection;
  /** Key of the finding that is opened in the margin. */
  readonly finding: string | null;
  /** Operating state that the drawing shows; null = none, the plain drawing. */
  readonly stateName: StateName | null;
  /** The transition that is open above the strip, and the moment of it that is looked at. */
  /** The controls of the state that shows are open to be set by hand. */
  readonly byHand: boolean;
  readonly inTime: { readonly name: TransitionName; readonly time: Second } | null;
  readonly transition: TransitionView | null;
  /** The list of single faults is open in the margin, and which of them the drawing shows. */
  readonly faults: { readonly shown: string | null } | null;
  /** Shown instead of the named state: a moment of a transition, a state with a fault in it. */
  readonly beside: StateView | null;
  /** Terminal under the pointer or the keyboard focus. */
  readonly hovered: WireEnd | null;
  /** Parts list instead of the sheet. */
  readonly table: boolean;
  readonly solved: SolvedView | null;
  readonly checked: CheckedView | null;
  /** The analysis is at work on a newer revision than it last told of. */
  readonly working: boolean;
  /** One sentence for the foot of the window: why an edit was refused, what was saved. */
  readonly notice: string | null;
}

/** Whether there is something to save. */
export const isDirty = ({ history, saved }: Editor): boolean => (history.past.at(-1) ?? null) !== saved;

/** What the store tells the analysis: a document opened, or patches applied. */
export interface DocumentListener {
  opened(project: Project): void;
  edited(project: Project, patches: readonly Patch[]): void;
  /** A remedy of a finding is wanted. */
  mend(finding: string, remedy: string): void;
}

export class EditorStore {
  readonly api: StoreApi<Editor>;
  readonly #listener: DocumentListener;

  constructor(project: Project, listener: DocumentListener) {
    this.#listener = listener;
    this.api = createStore<Editor>(() => fresh(project, null, "Untitled"));
  }

  get now(): Editor {
    return this.api.getState();
  }

  get project(): Project {
    return this.now.history.present;
  }

  get dirty(): boolean {
    return isDirty(this.now);
  }

  open(project: Project, file: FileRef | null, fileName: string, saved: null | "never" = null): void {
    this.api.setState({ ...fresh(project, file, fileName), saved }, true);
    this.#listener.opened(this.project);
  }

  /** `saved` is the last edit that the written file holds: there may be newer ones by the time it is written. */
  markSaved(file: FileRef | null, fileName: string, saved = this.now.history.past.at(-1) ?? null): void {
    this.api.setState({ saved, file, fileName });
  }

  /** Carries out a command; commands of one `gesture` undo together. A refusal becomes a notice and gives undefined. */
  perform<Arguments, Result>(
    command: Command<Arguments, Result>,
    given: Arguments,
    gesture?: string,
  ): Result | undefined {
    try {
      const { history, patches, result } = perform(this.now.history, command, given, KINDS, gesture);
      if (patches.length > 0) this.#changed(history, patches);
      return result;
    } catch (cause) {
      if (!(cause instanceof Refused)) throw cause;
      this.api.setState({ notice: cause.message });
      return undefined;
    }
  }

  undo(): void {
    const entry = this.now.history.past.at(-1);
    if (entry === undefined) return;
    this.#changed(undo(this.now.history), entry.inverse);
    this.api.setState({ notice: `Undone: ${entry.label}.` });
  }

  redo(): void {
    const entry = this.now.history.future[0];
    if (entry === undefined) return;
    this.#changed(redo(this.now.history), entry.patches);
    this.api.setState({ notice: `Done again: ${entry.label}.` });
  }

  set(change: Partial<Omit<Editor, "history" | "saved" | "solved" | "checked">>): void {
    this.api.setState(change);
  }

  select(selection: Partial<Selection>): void {
    this.api.setState({ selection: { ...NOTHING, ...selection } });
  }

  solved(view: SolvedView): void {
    const names = view.states.map(({ name }) => name);
    const kept = this.now.stateName !== null && names.includes(this.now.stateName);
    this.api.setState({ solved: view, ...(kept ? {} : { stateName: null }) });
  }

  checked(view: CheckedView): void {
    this.api.setState(view.whole ? { checked: view, working: false } : { checked: view });
  }

  /** Asks for a remedy of a finding; it arrives as `mended`, one edit that undo takes back. */
  mend(finding: string, remedy: string): void {
    this.#listener.mend(finding, remedy);
  }

  /** What came of it is selected, and its sheet shown. */
  mended(label: string, patches: readonly Patch[]): void {
    const before = this.project;
    this.perform(carryOut, { label, patches });
    if (this.project === before) return;
    const { selection, sheets } = editedIn(before, this.project);
    const [first] = sheets;
    const sheet = first === undefined || sheets.includes(this.now.sheet) ? this.now.sheet : first;
    this.api.setState({ selection, sheet, notice: `Done: ${label}. Undo takes it back.` });
  }

  broke(text: string): void {
    this.api.setState({
      working: false,
      notice: `The drawing could not be analysed (${text}); nothing counts as checked.`,
    });
  }

  #changed(history: History, patches: readonly Patch[]): void {
    const project = history.present;
    const { selection, sheet } = this.now;
    const parts = new Set(project.parts.map(({ id }) => id));
    const wires = new Set(project.wires.map(({ id }) => id));
    const gone = selection.parts.some((id) => !parts.has(id)) || selection.wires.some((id) => !wires.has(id));
    this.api.setState({
      history,
      working: true,
      notice: null,
      ...(gone
        ? {
            selection: {
              parts: selection.parts.filter((id) => parts.has(id)),
              wires: selection.wires.filter((id) => wires.has(id)),
            },
          }
        : {}),
      ...(project.sheets.some(({ id }) => id === sheet) ? {} : { sheet: project.sheets[0]?.id ?? "" }),
    });
    this.#listener.edited(project, patches);
  }
}

function fresh(project: Project, file: FileRef | null, fileName: string): Editor {
  const history = startHistory(project);
  return {
    history,
    file,
    fileName,
    saved: null,
    sheet: project.sheets[0]?.id ?? "",
    stage: "draw",
    selection: NOTHING,
    finding: null,
    stateName: null,
    byHand: false,
    inTime: null,
    transition: null,
    faults: null,
    beside: null,
    hovered: null,
    table: false,
    solved: null,
    checked: null,
    working: true,
    notice: null,
  };
}
