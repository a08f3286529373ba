import type { Cable } from "../document.ts";
import { defineCommand, newId } from "./define.ts";

/** Adds a cable, whose cores are wires. Gives its id. */
export const addCable = defineCommand<Omit<Cable, "id">, string>({
  id: "add-cable",
  label: ({ name }) => `Add cable ${name}`,
  change(draft, given) {
    const id = newId(draft, "c");
    draft.cables.push({ ...given, id });
    return id;
  },
});
