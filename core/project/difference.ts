/** What changed from one document to another, as the patches that lead there. */
import type { Patch } from "immer";
import type { Project } from "./document.ts";

type Key = string | number;
type Fields = Readonly<Record<string, unknown>>;

const isFields = (value: unknown): value is Fields => typeof value === "object" && value !== null;

/** The same in content; branches that share their identity are not looked into. */
function same(a: unknown, b: unknown): boolean {
  if (Object.is(a, b)) return true;
  if (!isFields(a) || !isFields(b) || Array.isArray(a) !== Array.isArray(b)) return false;
  const [left, right] = [Object.keys(a), Object.keys(b)];
  return left.length === right.length && left.every((key) => key in b && same(a[key], b[key]));
}

/** Patches that make `after` of `before`, to be applied in order by `applyPatches`. None where nothing differs. */
export function patchesBetween(before: Project, after: Project): readonly Patch[] {
  const patches: Patch[] = [];
  compare(before, after, [], patches);
  return patches;
}

function compare(before: unknown, after: unknown, path: readonly Key[], patches: Patch[]): void {
  if (same(before, after)) return;
  if (Array.isArray(before) && Array.isArray(after)) compareLists(before, after, path, patches);
  else if (isFields(before) && isFields(after) && !Array.isArray(before) && !Array.isArray(after))
    compareFields(before, after, path, patches);
  else patches.push({ op: "replace", path: [...path], value: after });
}

function compareFields(before: Fields, after: Fields, path: readonly Key[], patches: Patch[]): void {
  for (const key of Object.keys(before)) if (!(key in after)) patches.push({ op: "remove", path: [...path, key] });
  for (const [key, value] of Object.entries(after)) {
    if (key in before) compare(before[key], value, [...path, key], patches);
    else patches.push({ op: "add", path: [...path, key], value });
  }
}

const idOf = (entry: unknown): unknown => (isFields(entry) ? entry["id"] : undefined);

/** Entries are the same thing where they have the same id, or, without ids, the same content. */
const corresponds = (a: unknown, b: unknown): boolean => (idOf(a) === undefined ? same(a, b) : idOf(a) === idOf(b));

/** Beginning and end that correspond are kept; what lies between is taken out and put in. */
function compareLists(
  before: readonly unknown[],
  after: readonly unknown[],
  path: readonly Key[],
  patches: Patch[],
): void {
  const shorter = Math.min(before.length, after.length);
  const aligned = before.length === after.length;
  let head = 0;
  while (head < shorter && (aligned || corresponds(before[head], after[head]))) head += 1;
  let tail = 0;
  while (tail < shorter - head && corresponds(before[before.length - 1 - tail], after[after.length - 1 - tail]))
    tail += 1;
  for (let index = before.length - tail - 1; index >= head; index -= 1)
    patches.push({ op: "remove", path: [...path, index] });
  for (let index = head; index < after.length - tail; index += 1)
    patches.push({ op: "add", path: [...path, index], value: after[index] });
  for (let index = 0; index < after.length; index += 1) {
    if (index >= head && index < after.length - tail) continue;
    const old = index < head ? before[index] : before[index - after.length + before.length];
    compare(old, after[index], [...path, index], patches);
  }
}
