/** Which answers of a check hold on after an edit without asking again. */
import type { Part, Project, Wire } from "../project/document.ts";
import type { Check } from "./define.ts";

/** What no check on the circuit reads of the document: where things stand on sheets, and the paper round the drawing. */
const LAYOUT_OF_PROJECT: ReadonlySet<string> = new Set<keyof Project>([
  "title",
  "sheets",
  "accepted",
  "readings",
  "progress",
  "revisions",
  "presets",
  "lastIds",
  "extra",
]);
const LAYOUT_OF_PART: ReadonlySet<string> = new Set<keyof Part>(["views", "note", "extra"]);
const LAYOUT_OF_WIRE: ReadonlySet<string> = new Set<keyof Wire>(["routes", "note", "extra"]);

/** Does what the check said of one document hold of the other? What kept its identity in an edit is not looked into. */
export function stillStands({ reads }: Check, before: Project, after: Project): boolean {
  return before === after || (reads === "states" && isMovedOnly(before, after));
}

const compared = new WeakMap<Project, WeakMap<Project, boolean>>();

function isMovedOnly(before: Project, after: Project): boolean {
  const known = compared.get(before) ?? new WeakMap<Project, boolean>();
  compared.set(before, known);
  let moved = known.get(after);
  if (moved === undefined) {
    moved =
      alike(before, after, LAYOUT_OF_PROJECT, ["parts", "wires"]) &&
      eachAlike(before.parts, after.parts, LAYOUT_OF_PART) &&
      eachAlike(before.wires, after.wires, LAYOUT_OF_WIRE);
    known.set(after, moved);
  }
  return moved;
}

function eachAlike<Item extends object>(
  before: readonly Item[],
  after: readonly Item[],
  aside: ReadonlySet<string>,
): boolean {
  return before.length === after.length && before.every((item, index) => alike(item, after[index]!, aside));
}

/** Every field the same, `aside` and `later` not looked at. */
function alike<Item extends object>(
  before: Item,
  after: Item,
  aside: ReadonlySet<string>,
  later: readonly string[] = [],
): boolean {
  if (before === after) return true;
  for (const name of new Set([...Object.keys(before), ...Object.keys(after)]) as Set<string & keyof Item>) {
    if (aside.has(name) || later.includes(name)) continue;
    if (before[name] !== after[name] && !equal(before[name], after[name])) return false;
  }
  return true;
}

/** What an undone edit brings back is equal and no longer the same. */
function equal(one: unknown, other: unknown): boolean {
  return typeof one === "object" && typeof other === "object" && JSON.stringify(one) === JSON.stringify(other);
}
