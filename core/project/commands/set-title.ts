import type { TitleBlock } from "../document.ts";
import { defineCommand } from "./define.ts";

export type TitleFields = { readonly [Field in keyof TitleBlock]?: TitleBlock[Field] | undefined };

/** Fills in the title block; an undefined field is cleared. */
export const setTitle = defineCommand<TitleFields>({
  id: "set-title",
  label: (fields) => `Set ${Object.keys(fields).join(", ")} in the title block`,
  change(draft, fields) {
    for (const field of Object.keys(fields) as (keyof TitleBlock)[]) {
      const value = fields[field];
      if (value === undefined) delete draft.title[field];
      else draft.title[field] = value;
    }
  },
});
