/**
 * What the table shows and where its cursor is. It outlives the table itself, so that a look at the sheet loses
 * nothing. Rows keep their places while cells are edited: they are arranged anew only when somebody asks for it.
 */
import { createStore } from "zustand/vanilla";
import type { StoreApi } from "zustand/vanilla";
import type { EditorStore } from "../../window/editor-store.ts";
import { askedIn } from "../facts/asked.ts";
import { arranged } from "./arrange.ts";
import type { Tab, Wanted } from "./arrange.ts";

export interface CellName {
  /** Id of the part or wire; null = the heading. */
  readonly row: string | null;
  readonly column: string;
}

export interface TableState extends Wanted {
  /** Rows in their order when they were last arranged. */
  readonly order: readonly string[];
  /** What there was then: anything newer stands below. */
  readonly known: ReadonlySet<string>;
  readonly active: CellName | null;
  /** The other corner of the block. */
  readonly anchor: CellName | null;
  /** Goes up each time the active cell is to get the keyboard. */
  readonly focus: number;
  /** Walking through what is missing: the field, and its place in the list when it was come to. */
  readonly filling: { readonly key: string; readonly index: number } | null;
  /** Sentences on what was not taken over. */
  readonly messages: readonly string[];
}

const FIRST: Wanted = { tab: "parts", kind: null, find: "", lack: "any", sorting: null };

export class TableStore {
  readonly api: StoreApi<TableState>;
  readonly editor: EditorStore;
  /** The wish for the keyboard (`focus`) that was fulfilled last. */
  focused = 0;
  /** What the table itself selected last, for the margin to tell of. */
  told = "";
  readonly #sorting = new Map<Tab, Wanted["sorting"]>();

  constructor(editor: EditorStore) {
    this.editor = editor;
    const fresh = (): TableState => ({
      ...this.#arrangement(FIRST),
      active: null,
      anchor: null,
      focus: this.focused,
      filling: null,
      messages: [],
    });
    this.api = createStore<TableState>(fresh);
    editor.api.subscribe(({ history }, before) => {
      const opened = history !== before.history && history.past.length === 0 && history.future.length === 0;
      if (opened) this.api.setState({ ...fresh() });
    });
  }

  get now(): TableState {
    return this.api.getState();
  }

  /** Shows other rows, or in another order. */
  arrange(change: Partial<Wanted> = {}): void {
    const { tab, kind, find, lack } = this.now;
    const turned = change.tab !== undefined && change.tab !== tab;
    const wanted: Wanted = {
      tab,
      kind,
      find: turned ? "" : find,
      lack,
      sorting: this.#sorting.get(change.tab ?? tab) ?? null,
      ...change,
    };
    this.#sorting.set(wanted.tab, wanted.sorting);
    this.api.setState({
      ...this.#arrangement(wanted),
      ...(turned ? { active: null, anchor: null, messages: [] } : {}),
    });
  }

  /** Once up, once down, then as drawn. */
  sortBy(column: string): void {
    const { sorting } = this.now;
    if (sorting?.column !== column) this.arrange({ sorting: { column, direction: "ascending" } });
    else this.arrange({ sorting: sorting.direction === "ascending" ? { column, direction: "descending" } : null });
  }

  /** Puts the cursor on a cell and gives it the keyboard; with `extend` the block's other corner stays. */
  go(active: CellName, extend = false): void {
    const { anchor, focus } = this.now;
    this.api.setState({ active, anchor: extend ? (anchor ?? active) : active, focus: focus + 1 });
  }

  block(anchor: CellName, active: CellName): void {
    this.api.setState({ anchor, active, focus: this.now.focus + 1 });
  }

  say(messages: readonly string[]): void {
    this.api.setState({ messages });
  }

  set(change: Partial<Pick<TableState, "filling" | "active" | "anchor">>): void {
    this.api.setState(change);
  }

  #arrangement(wanted: Wanted): Wanted & Pick<TableState, "order" | "known"> {
    const { project, now } = this.editor;
    return {
      ...wanted,
      order: arranged(project, askedIn(now.checked?.document ?? null), wanted),
      known: new Set(project[wanted.tab].map(({ id }) => id)),
    };
  }
}

/** The rows as they stand: those that are gone left out, new ones below. */
export function rowsNow({ order, known }: TableState, all: readonly { readonly id: string }[]): readonly string[] {
  const there = new Set(all.map(({ id }) => id));
  return [...order.filter((id) => there.has(id)), ...all.map(({ id }) => id).filter((id) => !known.has(id))];
}

const kept = new WeakMap<EditorStore, TableStore>();

export function tableOf(editor: EditorStore): TableStore {
  let table = kept.get(editor);
  if (table === undefined) kept.set(editor, (table = new TableStore(editor)));
  return table;
}
