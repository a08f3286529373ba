/** Reading a project file: text in, document or plain sentences out. */
import { KINDS } from "../parts/catalogue.ts";
import { tooLarge } from "./bytes.ts";
import { checkContent } from "./content.ts";
import type { Project } from "./document.ts";
import { LIMITS } from "./limits.ts";
import type { Kinds } from "./lookup.ts";
import { migrate, MIGRATIONS } from "./migrations/chain.ts";
import type { Migration } from "./migrations/chain.ts";
import { choiceOf } from "./nearest.ts";
import { placeName, valueAt } from "./places.ts";
import { Problems, shown } from "./problems.ts";
import { scanJson } from "./scan.ts";
import type { JsonFault } from "./scan.ts";
import { FIELDS, projectSchema } from "./schema.ts";
import { verifyProject } from "./verify.ts";

export type ReadResult =
  | { readonly ok: true; readonly project: Project; readonly notes: readonly string[] }
  | { readonly ok: false; readonly problems: readonly string[] };

const EXTENSIBLE: readonly string[] = ["", "parts", "wires"];

function faultSentence(fault: JsonFault): string {
  switch (fault.fault) {
    case "ends-early":
      return (
        `The file ends in the middle of its text, in line ${fault.line}: the end of it is missing. ` +
        `Take the last good copy of the file.`
      );
    case "too-deep":
      return (
        `Line ${fault.line}: braces and brackets stand more than ${LIMITS.nesting} deep within one another. ` +
        `A project needs fewer; take the inner ones out.`
      );
    case "too-many":
      return (
        `The file holds more than ${LIMITS.values.toLocaleString("en-GB")} values. ` +
        `Split the drawing, or take out what does not belong to it.`
      );
    case "name-twice":
      return `Line ${fault.line}: the name "${shown(fault.name)}" stands twice in one pair of braces. Take one of the two out.`;
    case "grammar":
      return `Line ${fault.line}, column ${fault.column}: ${fault.expected} must stand here. Mend this place, or take the last good copy of the file.`;
  }
}

/** What is wrong with the shape, as sentences. */
function shapeProblems(document: unknown, issues: readonly Issue[], problems: Problems): void {
  for (const issue of issues) {
    if (issue.code === "unrecognized_keys") {
      for (const key of issue.keys ?? []) problems.add(() => unknownField(document, issue.path, key));
    } else problems.add(() => shapeSentence(document, issue));
  }
}

function unknownField(document: unknown, path: Issue["path"], key: string): string {
  const pattern = path.filter((step) => typeof step !== "number").join(".");
  const known = FIELDS[pattern];
  const remedy = known === undefined ? "" : ` ${choiceOf(key, known)}`;
  const move = EXTENSIBLE.includes(pattern) ? ', or move it into "extra"' : "";
  return `${placeName(document, path)}: there is no field "${shown(key)}".${remedy} Otherwise take it out${move}.`;
}

function shapeSentence(document: unknown, { path, message }: Issue): string {
  const place = placeName(document, path);
  if (valueAt(document, path) === undefined) return `${place}: this is missing; it ${message}.`;
  return `${place}: ${message.startsWith("must") ? "this" : "it"} ${message}.`;
}

interface Issue {
  readonly code: string;
  readonly path: readonly PropertyKey[];
  readonly message: string;
  readonly keys?: readonly string[];
}

/** A list that is far too long is refused before its entries are looked at. */
function crowded(document: Readonly<Record<string, unknown>>, problems: Problems): void {
  for (const [list, most] of [
    ["parts", LIMITS.parts],
    ["wires", LIMITS.wires],
  ] as const) {
    const entries = document[list];
    if (Array.isArray(entries) && entries.length > most) {
      problems.add(
        `The project has ${entries.length.toLocaleString("en-GB")} ${list}; at most ${most.toLocaleString("en-GB")} are allowed. ` +
          `Split the drawing into several projects.`,
      );
    }
  }
}

/**
 * Reads the text of a `.loomwright` file. Quantities come out in normal form, lists that were left out come out
 * empty. Problems are single sentences that name place and remedy, the most important first; never throws.
 * @param kinds the part kinds that the file may use
 * @param migrations the steps from older versions
 */
export function readProject(
  text: string,
  kinds: Kinds = KINDS,
  migrations: readonly Migration[] = MIGRATIONS,
): ReadResult {
  const refuse = (...problems: readonly string[]): ReadResult => ({ ok: false, problems });
  const long = tooLarge(text.length);
  if (long !== undefined) return refuse(long);
  const json = text.startsWith("\uFEFF") ? text.slice(1) : text;
  if (json.trim() === "") return refuse("The file is empty. Choose another file, or take the last good copy.");
  if (!/^\s*\{/.test(json)) {
    return refuse('This is not a project file: one begins with {"format":"loomwright-project". Choose another file.');
  }
  const fault = scanJson(json, LIMITS.nesting, LIMITS.values);
  if (fault !== undefined) return refuse(faultSentence(fault));
  const raw = JSON.parse(json) as Readonly<Record<string, unknown>>;
  if (raw["format"] !== "loomwright-project") {
    return refuse('This is not a project file: its "format" must be "loomwright-project". Choose another file.');
  }
  const migrated = migrate(raw, migrations);
  if (!migrated.ok) return refuse(migrated.problem);

  const problems = new Problems();
  crowded(migrated.document, problems);
  if (!problems.none) return refuse(...problems.list());
  checkContent(migrated.document, problems);
  if (!problems.none) return refuse(...problems.list());
  const shaped = projectSchema.safeParse(migrated.document);
  if (!shaped.success) {
    shapeProblems(migrated.document, shaped.error.issues, problems);
    return refuse(...problems.list());
  }
  const verified = verifyProject(shaped.data, kinds);
  if (verified.problems.length > 0) return refuse(...verified.problems);
  return { ok: true, project: verified.project, notes: migrated.notes };
}
