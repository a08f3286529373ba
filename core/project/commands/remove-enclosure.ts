import { defineCommand, entryAt, indexOf } from "./define.ts";

/** Removes an enclosure. Parts in it then state none. */
export const removeEnclosure = defineCommand<{ readonly enclosure: string }>({
  id: "remove-enclosure",
  label: () => "Remove an enclosure",
  change(draft, { enclosure }, { before }) {
    draft.enclosures.splice(indexOf(before, "e", enclosure), 1);
    before.parts.forEach((part, index) => {
      if (part.enclosure === enclosure) delete entryAt(draft.parts, index).enclosure;
    });
  },
});
