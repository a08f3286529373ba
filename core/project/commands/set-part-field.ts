import { castDraft } from "immer";
import type { Part } from "../document.ts";
import { defineCommand, draftPart, entryAt, indexOf } from "./define.ts";
import { requireReference } from "./references.ts";
import { requireTerminal } from "./terminals.ts";

/** A part's place in the vehicle, its covers and note; undefined = not stated. */
export type PartFields = {
  readonly [Field in "zone" | "enclosure" | "panel" | "covers" | "face" | "note"]?: Part[Field] | undefined;
};

export interface SetPartField {
  readonly changes: readonly { readonly part: string; readonly fields: PartFields }[];
}

/** Fills in, changes or clears what a part states beside its parameters. */
export const setPartField = defineCommand<SetPartField>({
  id: "set-part-field",
  label: ({ changes }, before) => {
    const name = before.parts.find(({ id }) => id === changes[0]?.part)?.designation ?? "";
    return changes.length === 1 ? `Describe ${name}` : `Describe ${changes.length} parts`;
  },
  change(draft, { changes }, { before, kinds }) {
    for (const { part: id, fields } of changes) {
      const old = entryAt(before.parts, indexOf(before, "p", id));
      requireReference(before, "z", fields.zone);
      requireReference(before, "e", fields.enclosure);
      for (const terminal of [...(fields.covers ?? []), ...Object.keys(fields.face ?? {})]) {
        requireTerminal(before, [id, terminal], kinds);
      }
      const target = draftPart(draft, id, before);
      for (const field of Object.keys(fields) as (keyof PartFields)[]) {
        if (fields[field] === undefined) delete target[field];
        else if (JSON.stringify(old[field]) !== JSON.stringify(fields[field])) {
          Object.assign(target, { [field]: castDraft(fields[field]) });
        }
      }
    }
  },
});
