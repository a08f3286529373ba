/** What is typed or pasted, turned into edits: what each cell makes of its text, and what it cannot take. */
import type { EditorStore } from "../../window/editor-store.ts";
import { copiedText, typedValue } from "./column.ts";
import type { Column } from "./column.ts";
import { carryOut } from "./edits.ts";
import type { Edit } from "./edits.ts";

export interface Writing {
  /** Id of the part or wire. */
  readonly row: string;
  readonly column: Column;
  readonly text: string;
}

/** One entry to undo, whatever the number of cells. Gives a sentence for each cell that keeps what it held. */
export function writeCells(
  store: EditorStore,
  writings: readonly Writing[],
  nameOf: (row: string) => string,
): string[] {
  const edits: Edit[] = [];
  const refused: string[] = [];
  for (const { row, column, text } of writings) {
    const cell = column.cell(row);
    // A block that is pasted back where it came from brings its fixed columns along.
    if (text.trim() === copiedText(cell)) continue;
    const where = `${nameOf(row)}, ${column.title.toLowerCase()}`;
    if (cell === undefined) {
      if (text.trim() !== "") refused.push(`${where}: it has no such field. Put "${text.trim()}" elsewhere.`);
      continue;
    }
    if (column.edit === undefined) {
      refused.push(`${where}: this column only tells what is drawn. Change it on the sheet.`);
      continue;
    }
    const edit = column.edit(row, typedValue(text));
    if ("refused" in edit) refused.push(edit.refused);
    else edits.push(edit);
  }
  return [...refused, ...carryOut(store, edits, crypto.randomUUID())];
}
