import type { Sheet } from "../document.ts";
import { defineCommand, newId } from "./define.ts";

/** Adds an empty sheet at the end. Gives its id. */
export const addSheet = defineCommand<Omit<Sheet, "id">, string>({
  id: "add-sheet",
  label: ({ name }) => `Add sheet ${name}`,
  change(draft, given) {
    const id = newId(draft, "s");
    draft.sheets.push({ ...given, id });
    return id;
  },
});
