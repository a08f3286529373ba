import { defineCommand, entryAt, indexOf } from "./define.ts";

/** Removes a zone. Parts, enclosures and wires in it then state no zone. */
export const removeZone = defineCommand<{ readonly zone: string }>({
  id: "remove-zone",
  label: () => "Remove a zone",
  change(draft, { zone }, { before }) {
    draft.zones.splice(indexOf(before, "z", zone), 1);
    before.parts.forEach((part, index) => {
      if (part.zone === zone) delete entryAt(draft.parts, index).zone;
    });
    before.enclosures.forEach((enclosure, index) => {
      if (enclosure.zone === zone) delete entryAt(draft.enclosures, index).zone;
    });
    before.wires.forEach((wire, index) => {
      if (wire.zones?.includes(zone) !== true) return;
      const target = entryAt(draft.wires, index);
      target.zones = (target.zones ?? []).filter((id) => id !== zone);
    });
  },
});
