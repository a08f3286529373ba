import type { Zone } from "../document.ts";
import { normaliseQuantity, settled } from "../normalise.ts";
import { defineCommand, entryAt, indexOf, Refused } from "./define.ts";

export interface SetZone {
  readonly zone: string;
  /** `ambient` undefined = not stated. */
  readonly fields: { readonly kind?: Zone["kind"]; readonly ambient?: string | null | undefined };
}

/** States what a zone is and how hot it gets. */
export const setZone = defineCommand<SetZone>({
  id: "set-zone",
  label: ({ zone }, before) => {
    const old = before.zones.find(({ id }) => id === zone);
    return `Describe zone ${old?.name ?? old?.kind ?? ""}`;
  },
  change(draft, { zone, fields }, { before }) {
    const index = indexOf(before, "z", zone);
    const { kind, name } = entryAt(before.zones, index);
    const target = entryAt(draft.zones, index);
    if (fields.kind !== undefined) target.kind = fields.kind;
    if (!("ambient" in fields)) return;
    const { ambient } = fields;
    if (ambient === undefined) delete target.ambient;
    else {
      target.ambient = settled(normaliseQuantity("temperature", ambient), ambient, "ambient", (field, why) => {
        throw new Refused(`Zone ${name ?? kind}, ${field}: ${why}`);
      });
    }
  },
});
