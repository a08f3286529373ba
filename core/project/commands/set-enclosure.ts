import type { Enclosure } from "../document.ts";
import { defineCommand, entryAt, indexOf } from "./define.ts";
import { requireReference } from "./references.ts";

/** Everything of an enclosure but its id and name; undefined = not stated. */
export type EnclosureFields = {
  readonly [Field in Exclude<keyof Enclosure, "id" | "name">]?: Enclosure[Field] | undefined;
};

export interface SetEnclosure {
  readonly enclosure: string;
  readonly fields: EnclosureFields;
}

/** Fills in, changes or clears what an enclosure states. */
export const setEnclosure = defineCommand<SetEnclosure>({
  id: "set-enclosure",
  label: ({ enclosure }, before) =>
    `Describe enclosure ${before.enclosures.find(({ id }) => id === enclosure)?.name ?? ""}`,
  change(draft, { enclosure, fields }, { before }) {
    requireReference(before, "z", fields.zone);
    const target = entryAt(draft.enclosures, indexOf(before, "e", enclosure));
    for (const field of Object.keys(fields) as (keyof EnclosureFields)[]) {
      if (fields[field] === undefined) delete target[field];
      else Object.assign(target, { [field]: fields[field] });
    }
  },
});
