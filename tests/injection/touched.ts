/** Where a mistake was made: what stands otherwise in the drawing with it than in the one without. */
import type { Project, Wire } from "../../core/project/document.ts";

const endsOf = ({ ends }: Wire): readonly string[] => ends.flatMap((end) => end?.[0] ?? []);

/** What is in one list and not, or not the same, in the other: edits keep the identity of what they leave alone. */
function unlike<Item extends { readonly id: string }>(one: readonly Item[], other: readonly Item[]): readonly Item[] {
  const same = new Map(other.map((item) => [item.id, item]));
  return one.filter((item) => same.get(item.id) !== item);
}

/** Ids of the parts and wires that were changed, added or taken away, with the wires on such parts and the parts at the ends of such wires. */
export function touched(sound: Project, mistaken: Project): ReadonlySet<string> {
  const wires = [...unlike(sound.wires, mistaken.wires), ...unlike(mistaken.wires, sound.wires)];
  const parts = [...unlike(sound.parts, mistaken.parts), ...unlike(mistaken.parts, sound.parts)];
  const boxes = new Set(unlike(mistaken.enclosures, sound.enclosures).map(({ id }) => id));
  const inside = sound.parts.filter(({ enclosure }) => enclosure !== undefined && boxes.has(enclosure));
  const sheets = sound.title === mistaken.title ? [] : sound.sheets;
  const changed = new Set(parts.map(({ id }) => id));
  const onThem = mistaken.wires.filter((wire) => endsOf(wire).some((id) => changed.has(id)));
  return new Set([
    ...[...parts, ...inside, ...wires, ...onThem, ...sheets].map(({ id }) => id),
    ...wires.flatMap(endsOf),
  ]);
}
