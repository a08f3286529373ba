import type { WireEnd } from "../document.ts";
import { defineCommand, entryAt, indexOf } from "./define.ts";
import { loosenEnds } from "./terminals.ts";

export interface Delete {
  readonly parts?: readonly string[];
  readonly wires?: readonly string[];
}

/** Deletes parts and wires. A wire to a deleted part keeps its other end and becomes loose; with no end left it goes too. */
export const deleteEntries = defineCommand<Delete>({
  id: "delete",
  label: ({ parts = [], wires = [] }, before) => {
    const only = parts.length + wires.length === 1;
    const name =
      before.parts.find(({ id }) => id === parts[0])?.designation ??
      before.wires.find(({ id }) => id === wires[0])?.number;
    return only ? `Delete ${name ?? ""}` : `Delete ${parts.length + wires.length} parts and wires`;
  },
  change(draft, { parts = [], wires = [] }, { before }) {
    for (const id of parts) indexOf(before, "p", id);
    for (const id of wires) indexOf(before, "w", id);
    const goneParts = new Set(parts);
    const goneWires = new Set(wires);
    const gone = (end: WireEnd | null): boolean => end !== null && goneParts.has(end[0]);
    loosenEnds(draft, before, gone);
    before.states.forEach((state, at) => {
      for (const id of parts) if (Object.hasOwn(state.set, id)) delete entryAt(draft.states, at).set[id];
    });
    // From the end, so that the indexes of what is still to go stay right.
    for (let index = before.wires.length - 1; index >= 0; index -= 1) {
      const wire = entryAt(before.wires, index);
      const touched = wire.ends.some(gone);
      const nothingLeft = wire.ends.every((end) => end === null || gone(end));
      if (goneWires.has(wire.id) || (touched && nothingLeft)) draft.wires.splice(index, 1);
    }
    for (let index = before.parts.length - 1; index >= 0; index -= 1) {
      if (goneParts.has(entryAt(before.parts, index).id)) draft.parts.splice(index, 1);
    }
  },
});
