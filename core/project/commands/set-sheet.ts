import type { Sheet } from "../document.ts";
import { defineCommand, entryAt, indexOf } from "./define.ts";

export interface SetSheet {
  readonly sheet: string;
  readonly fields: Partial<Pick<Sheet, "paper" | "orientation">>;
}

/** Puts a sheet on another paper. What is placed on it stays where it is, also beyond a smaller paper's edge. */
export const setSheet = defineCommand<SetSheet>({
  id: "set-sheet",
  label: ({ sheet }, before) => `Change the paper of sheet ${before.sheets.find(({ id }) => id === sheet)?.name ?? ""}`,
  change(draft, { sheet, fields }, { before }) {
    Object.assign(entryAt(draft.sheets, indexOf(before, "s", sheet)), fields);
  },
});
