/**
 * Many cells written as one gesture. Each kind of edit goes in as one command with its whole list; only where that
 * is refused do they go in singly, so that one bad cell keeps none of the others out.
 */
import type { Command } from "../../../core/project/commands/define.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import type { Rename } from "../../../core/project/commands/rename.ts";
import { setParameter } from "../../../core/project/commands/set-parameter.ts";
import type { SetParameter } from "../../../core/project/commands/set-parameter.ts";
import { setPartField } from "../../../core/project/commands/set-part-field.ts";
import type { PartFields, SetPartField } from "../../../core/project/commands/set-part-field.ts";
import { setWireField } from "../../../core/project/commands/set-wire-field.ts";
import type { SetWireField, WireFields } from "../../../core/project/commands/set-wire-field.ts";
import type { Wire } from "../../../core/project/document.ts";
import type { EditorStore } from "../../window/editor-store.ts";

export interface Refusal {
  /** One sentence with place and remedy. */
  readonly refused: string;
}

export type Edit =
  | { readonly set: "name"; readonly given: Rename }
  | { readonly set: "parameter"; readonly change: SetParameter["changes"][number] }
  | { readonly set: "part"; readonly part: string; readonly fields: PartFields }
  /** From the wire as the cells before have left it: its ends and its insulation are fields of several cells. */
  | { readonly set: "wire"; readonly wire: string; readonly fields: (wire: Wire) => WireFields };

/** Carries them out; gives a sentence for each that was refused. Those of one `gesture` undo together. */
export function carryOut(store: EditorStore, edits: readonly Edit[], gesture: string): string[] {
  const names = edits.flatMap((edit) => (edit.set === "name" ? [edit.given] : []));
  const parameters = edits.flatMap((edit) => (edit.set === "parameter" ? [edit.change] : []));
  const parts = edits.flatMap((edit) => (edit.set === "part" ? [{ part: edit.part, fields: edit.fields }] : []));
  const wires = edits.flatMap((edit) => (edit.set === "wire" ? [edit] : []));
  const allOrEach = <Change>(changes: readonly Change[], attempt: (some: readonly Change[]) => string[]): string[] => {
    if (changes.length === 0) return [];
    const refused = attempt(changes);
    return refused.length === 0 || changes.length === 1 ? refused : changes.flatMap((change) => attempt([change]));
  };
  return [
    ...names.flatMap((given) => attempt(store, rename, given, gesture)),
    ...allOrEach(parameters, (changes) => attempt<SetParameter, void>(store, setParameter, { changes }, gesture)),
    ...allOrEach(parts, (changes) => attempt<SetPartField, void>(store, setPartField, { changes }, gesture)),
    ...allOrEach(wires, (some) =>
      attempt<SetWireField, void>(store, setWireField, { changes: folded(store, some) }, gesture),
    ),
  ];
}

/** One change for each wire, whatever the number of its cells. */
function folded(store: EditorStore, edits: readonly (Edit & { set: "wire" })[]): SetWireField["changes"] {
  const fields = new Map<string, WireFields>();
  const wires = new Map(store.project.wires.map((wire) => [wire.id, wire]));
  for (const edit of edits) {
    const wire = wires.get(edit.wire);
    if (wire === undefined) continue;
    const change = edit.fields(wire);
    // As it will stand; `undefined` = cleared, which the pure type has no word for.
    wires.set(edit.wire, { ...wire, ...change } as Wire);
    fields.set(edit.wire, { ...fields.get(edit.wire), ...change });
  }
  return [...fields].map(([wire, change]) => ({ wire, fields: change }));
}

function attempt<Arguments, Result>(
  store: EditorStore,
  command: Command<Arguments, Result>,
  given: Arguments,
  gesture: string,
): string[] {
  store.set({ notice: null });
  store.perform(command, given, gesture);
  const { notice } = store.now;
  if (notice === null) return [];
  // It stands below the table, beside the cells that it is about.
  store.set({ notice: null });
  return [notice];
}
