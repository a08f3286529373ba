import { castDraft } from "immer";
import type { Project, Wire } from "../document.ts";
import { normaliseWire } from "../normalise.ts";
import { defineCommand, draftWire, entryAt, indexOf, Refused } from "./define.ts";
import { requireReference } from "./references.ts";

/** Everything of a wire but its id, number and ends; undefined = not stated. */
export type WireFields = {
  readonly [Field in Exclude<keyof Wire, "id" | "number" | "ends" | "extra">]?: Wire[Field] | undefined;
};

/** Throws Refused if the wire names a cable, zone or sheet that is not there. */
export function requireWireReferences(project: Project, wire: Wire): void {
  requireReference(project, "c", wire.cable);
  for (const zone of wire.zones ?? []) requireReference(project, "z", zone);
  const sheets = (wire.routes ?? []).map(({ sheet }) => sheet);
  for (const sheet of sheets) requireReference(project, "s", sheet);
  if (new Set(sheets).size < sheets.length) {
    throw new Refused(`Wire ${wire.number}: it has two routes on one sheet. Give it one on each.`);
  }
}

export interface SetWireField {
  readonly changes: readonly { readonly wire: string; readonly fields: WireFields }[];
}

/** Fills in, changes or clears fields of wires: one cell or a whole column of the table. */
export const setWireField = defineCommand<SetWireField>({
  id: "set-wire-field",
  label: ({ changes }, before) => {
    const [first] = changes;
    const number = before.wires.find(({ id }) => id === first?.wire)?.number ?? "";
    const fields = Object.keys(first?.fields ?? {}).join(", ");
    return changes.length === 1 ? `Set ${fields} of wire ${number}` : `Set ${fields} of ${changes.length} wires`;
  },
  change(draft, { changes }, { before }) {
    for (const { wire: id, fields } of changes) {
      const old = entryAt(before.wires, indexOf(before, "w", id));
      const stated = Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined));
      const wire = normaliseWire({ ...old, ...stated }, (field, why) => {
        throw new Refused(`Wire ${old.number}, ${field}: ${why}`);
      });
      requireWireReferences(before, wire);
      const target = draftWire(draft, id, before);
      for (const field of Object.keys(fields) as (keyof WireFields)[]) {
        if (fields[field] === undefined) delete target[field];
        else if (JSON.stringify(old[field]) !== JSON.stringify(wire[field])) {
          Object.assign(target, { [field]: castDraft(wire[field]) });
        }
      }
    }
  },
});
