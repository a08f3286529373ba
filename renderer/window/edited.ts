/** What an edit that was worked out elsewhere added or changed, so that the person sees it: to be selected, and on which sheet. */
import type { Project, SheetId } from "../../core/project/document.ts";
import type { Selection } from "./selection.ts";

interface Entry {
  readonly id: string;
}

/** Entries that are new; where none is, those that are not what they were. Edits keep the identity of what they leave. */
function touched<Item extends Entry>(before: readonly Item[], after: readonly Item[]) {
  const known = new Map(before.map((item) => [item.id, item]));
  return {
    added: after.filter(({ id }) => !known.has(id)),
    changed: after.filter((item) => known.has(item.id) && known.get(item.id) !== item),
  };
}

const ids = (entries: readonly Entry[]): readonly string[] => entries.map(({ id }) => id);

/**
 * New parts with the wires that came with them; without any the new wires; without any of these the parts and wires that
 * changed. `sheets`: those on which the first of it stands; none where only things were taken away.
 */
export function editedIn(
  before: Project,
  after: Project,
): { readonly selection: Selection; readonly sheets: readonly SheetId[] } {
  const parts = touched(before.parts, after.parts);
  const wires = touched(before.wires, after.wires);
  const isNew = parts.added.length + wires.added.length > 0;
  const shown = isNew ? { parts: parts.added, wires: wires.added } : { parts: parts.changed, wires: wires.changed };
  const ends = shown.wires.flatMap((wire) => wire.ends.flatMap((end) => (end === null ? [] : [end[0]])));
  const standing = new Map(after.parts.map((part) => [part.id, part]));
  const first = shown.parts[0] ?? standing.get(ends[0] ?? "");
  return {
    selection: { parts: ids(shown.parts), wires: ids(shown.wires) },
    sheets: first?.views.map(({ sheet }) => sheet) ?? [],
  };
}
