/** Writing a project file: the same document always gives the same bytes, a part or wire a line, so that a comparison of two versions reads like a list of changes. */
import type { Project } from "./document.ts";
import { compareNatural } from "./designation.ts";
import { FIELDS } from "./schema.ts";

type Fields = Readonly<Record<string, unknown>>;

const isObject = (value: unknown): value is Fields =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** The names of an object in the order of the schema; names that people gave in natural order. */
function inOrder(value: Fields, place: string): readonly string[] {
  const present = Object.keys(value).filter((key) => value[key] !== undefined);
  const order = FIELDS[place];
  if (order === undefined) return present.sort(compareNatural);
  return present.sort((a, b) => order.indexOf(a) - order.indexOf(b));
}

/** One line of JSON. `place` is the path of names without list indexes. */
function inline(value: unknown, place: string): string {
  if (Array.isArray(value)) return `[${value.map((entry) => inline(entry, place)).join(",")}]`;
  if (!isObject(value)) return JSON.stringify(value);
  const fields = inOrder(value, place).map((key) => {
    const within = place === "" ? key : `${place}.${key}`;
    return `${JSON.stringify(key)}:${inline(value[key], within)}`;
  });
  return `{${fields.join(",")}}`;
}

/** The text of a `.loomwright` file: JSON, in UTF-8 once encoded, with a line feed at its end. */
export function writeProject(project: Project): string {
  const fields = inOrder({ ...project }, "").map((key) => {
    const value: unknown = project[key as keyof Project];
    const name = JSON.stringify(key);
    if (!Array.isArray(value) || value.length === 0 || key === "extra") return `${name}:${inline(value, key)}`;
    return `${name}:[\n${value.map((entry) => inline(entry, key)).join(",\n")}\n]`;
  });
  return `{\n${fields.join(",\n")}\n}\n`;
}
