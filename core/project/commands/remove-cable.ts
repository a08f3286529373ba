import { defineCommand, entryAt, indexOf } from "./define.ts";

/** Removes a cable. Its cores stay as single wires. */
export const removeCable = defineCommand<{ readonly cable: string }>({
  id: "remove-cable",
  label: () => "Remove a cable",
  change(draft, { cable }, { before }) {
    draft.cables.splice(indexOf(before, "c", cable), 1);
    before.wires.forEach((wire, index) => {
      if (wire.cable !== cable) return;
      const target = entryAt(draft.wires, index);
      delete target.cable;
      delete target.core;
    });
  },
});
