/** Places of a project file in the user's words: "Wire W12, end B", "Part F1, parameter rating". */
import { shown } from "./problems.ts";

const LISTS: Readonly<Record<string, { readonly one: string; readonly names: readonly string[] }>> = {
  parts: { one: "Part", names: ["designation", "id"] },
  wires: { one: "Wire", names: ["number", "id"] },
  sheets: { one: "Sheet", names: ["name", "id"] },
  zones: { one: "Zone", names: ["id"] },
  enclosures: { one: "Enclosure", names: ["name", "id"] },
  cables: { one: "Cable", names: ["name", "id"] },
  netNames: { one: "Net name", names: ["name"] },
  states: { one: "State", names: ["name"] },
  accepted: { one: "Accepted finding", names: ["key"] },
  readings: { one: "Reading", names: [] },
  progress: { one: "Progress tick", names: [] },
  revisions: { one: "Revision", names: ["index"] },
  presets: { one: "Preset", names: ["name"] },
};
/** Fields of a wire that hold one entry an end. */
const BY_END: readonly string[] = ["ends", "lugs", "boots", "torque"];

export type Path = readonly PropertyKey[];

export function valueAt(document: unknown, path: Path): unknown {
  let value = document;
  for (const key of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
    value = (value as Record<PropertyKey, unknown>)[key];
  }
  return value;
}

/** The name of one entry of a list, e.g. "Wire W12"; by its number in the list if it has no name. */
export function entryName(list: string, index: number, entry: unknown): string {
  const words = LISTS[list] ?? { one: list, names: [] };
  for (const field of words.names) {
    const name = valueAt(entry, [field]);
    if (typeof name === "string" && name.trim() !== "") return `${words.one} ${shown(name)}`;
  }
  return `${words.one} number ${index + 1} of the list`;
}

function within(list: string, field: PropertyKey, rest: Path, value: unknown): string[] {
  const [next, ...deeper] = rest;
  if (BY_END.includes(String(field)) && list === "wires" && typeof next === "number") {
    const end = `end ${next === 0 ? "A" : "B"}`;
    return field === "ends" ? [end] : [String(field), end];
  }
  if (field === "parameters" && next !== undefined) return [`parameter ${shown(String(next))}`];
  if (field === "views" && typeof next === "number") {
    const view = valueAt(value, [next, "view"]);
    const name = typeof view === "string" ? `view ${shown(view)}` : `view number ${next + 1}`;
    return [name, ...deeper.map((key) => shown(String(key)))];
  }
  const plain = (key: PropertyKey): string => (typeof key === "number" ? `entry ${key + 1}` : shown(String(key)));
  return [plain(field), ...rest.map(plain)];
}

/** A path of the document in words; "The project" for the whole. */
export function placeName(document: unknown, path: Path): string {
  const [list, index, field, ...rest] = path;
  if (list === undefined) return "The project";
  if (list === "title") return ["Title block", ...path.slice(1).map((key) => shown(String(key)))].join(", ");
  if (typeof list !== "string" || !Object.hasOwn(LISTS, list) || typeof index !== "number") {
    return ["The project", ...path.map((key) => shown(String(key)))].join(", ");
  }
  const entry = valueAt(document, [list, index]);
  const name = entryName(list, index, entry);
  if (field === undefined) return name;
  return [name, ...within(list, field, rest, valueAt(entry, [field]))].join(", ");
}
