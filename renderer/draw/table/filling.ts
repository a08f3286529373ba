/** Walking through what the checks lack, one field after another: each in its cell, or in the margin where it has none. */
import type { CheckDocument } from "../../../core/checks/report-json.ts";
import type { Project } from "../../../core/project/document.ts";
import { partById } from "../../../core/project/lookup.ts";
import { missingGroups } from "../../check/missing-groups.ts";
import type { MissingAt } from "../../check/missing-groups.ts";
import type { EditorStore } from "../../window/editor-store.ts";
import { fieldWish } from "../facts/ask-for-field.ts";
import { columnsOf } from "./arrange.ts";
import { rowsNow, tableOf } from "./table-store.ts";
import type { CellName } from "./table-store.ts";

export interface Missing extends MissingAt {
  readonly title: string;
}

/** Each field once, in the order of the walk. */
export function missingFields(project: Project, checked: CheckDocument | null): readonly Missing[] {
  return missingGroups(project, checked).groups.flatMap(({ title, items }) =>
    items.map((item) => ({ ...item, title })),
  );
}

const missingNow = ({ project, now }: EditorStore): readonly Missing[] =>
  missingFields(project, now.checked?.document ?? null);

/** Opens the table at the first field that a check waits for. */
export function startFilling(store: EditorStore): void {
  store.set({ table: true });
  const missing = missingNow(store);
  if (missing.length > 0) come(store, missing, 0);
}

/** To the field after or before; past the end it begins again. One that has been stated meanwhile has left the list. */
export function stepFilling(store: EditorStore, by: 1 | -1): void {
  const missing = missingNow(store);
  const { filling } = tableOf(store).now;
  if (missing.length === 0 || filling === null) return;
  const at = missing.findIndex(({ key }) => key === filling.key);
  const wanted = at === -1 ? (by === 1 ? filling.index : filling.index - 1) : at + by;
  come(store, missing, (wanted + missing.length) % missing.length);
}

export function stopFilling(store: EditorStore): void {
  tableOf(store).set({ filling: null });
}

function come(store: EditorStore, missing: readonly Missing[], index: number): void {
  const item = missing[index];
  if (item === undefined) return;
  const table = tableOf(store);
  table.set({ filling: { key: item.key, index } });
  store.set({ finding: null });
  const cell = cellFor(store.project, item);
  if (cell !== undefined) return showCell(store, cell);
  store.select(item.select);
  fieldWish(store).setState({ field: item.field });
}

/** The cell of a missing field; undefined for the fields of the drawing itself, which stand in the margin. */
export function cellFor(project: Project, { select, field }: MissingAt): CellName | undefined {
  const [part] = select.parts ?? [];
  const [wire] = select.wires ?? [];
  if (part !== undefined) {
    const kind = partById(project, part)?.kind ?? null;
    const has = columnsOf(project, { tab: "parts", kind }).some(({ id }) => id === field);
    return has ? { row: part, column: field } : undefined;
  }
  if (wire === undefined) return undefined;
  const found = project.wires.find(({ id }) => id === wire);
  const pair = field === "lugs" || field === "boots" || field === "torque" ? found?.[field] : undefined;
  // Of the two ends the one that states nothing.
  const column = pair !== undefined && pair[0] !== null ? `${field} B` : field;
  const has = columnsOf(project, { tab: "wires", kind: null }).some(({ id }) => id === column);
  return has ? { row: wire, column } : undefined;
}

/** Brings a cell into the table, past whatever filter hides it. */
function showCell(store: EditorStore, cell: CellName): void {
  const table = tableOf(store);
  const { project } = store;
  const part = partById(project, cell.row ?? "");
  const tab = part === undefined ? "wires" : "parts";
  if (table.now.tab !== tab) table.arrange({ tab, kind: null });
  const there =
    rowsNow(table.now, project[tab]).includes(cell.row ?? "") &&
    columnsOf(project, table.now).some(({ id }) => id === cell.column);
  if (!there) table.arrange({ kind: part?.kind ?? null, find: "", lack: "any" });
  table.go(cell);
}
