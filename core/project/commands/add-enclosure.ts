import type { Enclosure } from "../document.ts";
import { defineCommand, newId } from "./define.ts";
import { requireReference } from "./references.ts";

/** Adds an enclosure. Gives its id. */
export const addEnclosure = defineCommand<Omit<Enclosure, "id">, string>({
  id: "add-enclosure",
  label: ({ name }) => `Add enclosure ${name}`,
  change(draft, given, { before }) {
    requireReference(before, "z", given.zone);
    const id = newId(draft, "e");
    draft.enclosures.push({ ...given, id });
    return id;
  },
});
