/** A wire list in two spreadsheets (wires, parts) becomes a drawing; or every line that cannot be read is named. */
import { placeParts } from "../layout/place.ts";
import { KINDS } from "../parts/catalogue.ts";
import type { Cable, Enclosure, Part, Project, Wire, WireEnd, Zone } from "../project/document.ts";
import { LIMITS } from "../project/limits.ts";
import { knownPart } from "../project/lookup.ts";
import type { Kinds } from "../project/lookup.ts";
import { choiceOf } from "../project/nearest.ts";
import { newProject } from "../project/new-project.ts";
import { normaliseParameters, normaliseWire } from "../project/normalise.ts";
import type { Normalised } from "../project/normalise.ts";
import { shown } from "../project/problems.ts";
import { DESIGNATION, ZONE_KINDS } from "../project/schema.ts";
import { readEnd, readInsulation, readMillimetres, readParameters, readYesNo } from "./cells.ts";
import { readTable } from "./table.ts";
import type { ListProblem, TableRow } from "./table.ts";
import { PART_COLUMNS, WIRE_COLUMNS } from "./wire-list-columns.ts";
import type { PartColumn, WireColumn } from "./wire-list-columns.ts";

export type WireListImport =
  | { readonly ok: true; readonly project: Project; readonly summary: string }
  | { readonly ok: false; readonly problems: readonly ListProblem[] };

/** What is named in the list for the first time is created: zones, enclosures, cables. */
class NamedThings {
  readonly zones: Zone[] = [];
  readonly enclosures: Enclosure[] = [];
  readonly cables: Cable[] = [];
  readonly #ids = new Map<string, string>();

  /** A zone kind (`battery-box`), or a name of the user's own. */
  zone(text: string): string {
    const kind = ZONE_KINDS.find((candidate) => candidate === text.toLowerCase().replace(/\s+/g, "-"));
    return this.#id(`zone ${kind ?? text}`, () => {
      const id = `z${this.zones.length + 1}`;
      this.zones.push(kind === undefined ? { id, kind: "other", name: text } : { id, kind });
      return id;
    });
  }

  enclosure(name: string): string {
    return this.#id(`enclosure ${name}`, () => {
      const id = `e${this.enclosures.length + 1}`;
      this.enclosures.push({ id, name });
      return id;
    });
  }

  cable(name: string): string {
    return this.#id(`cable ${name}`, () => {
      const id = `c${this.cables.length + 1}`;
      this.cables.push({ id, name });
      return id;
    });
  }

  #id(key: string, make: () => string): string {
    const id = this.#ids.get(key) ?? make();
    this.#ids.set(key, id);
    return id;
  }
}

/** The value of a cell that is not empty; a complaint names its column. */
function cellValue<Column extends string, T>(
  row: TableRow<Column>,
  column: Column,
  read: (text: string) => Normalised<T>,
): T | undefined {
  const text = row.cell(column);
  if (text === "") return undefined;
  const value = read(text);
  if (value.ok) return value.value;
  row.complain(`Column ${column}: ${value.why}`);
  return undefined;
}

interface ListedPart {
  readonly part: Part;
  /** Undefined where a value of the part cannot be read: which terminals it has is then anybody's guess. */
  readonly terminals: ReadonlySet<string> | undefined;
}

function readPart(row: TableRow<PartColumn>, id: string, things: NamedThings, kinds: Kinds): ListedPart {
  const designation = row.cell("designation");
  if (!DESIGNATION.test(designation)) {
    const what = designation === "" ? "the cell is empty" : `"${shown(designation)}" is none`;
    row.complain(`Column designation: ${what}. Write letters and a number, such as F1 or Q12a.`);
  }
  const kindName = row.cell("kind");
  const kind = kinds.get(kindName);
  if (kind === undefined) {
    const what = kindName === "" ? "the cell is empty" : `there is no kind of part called "${shown(kindName)}"`;
    row.complain(`Column kind: ${what}. ${choiceOf(kindName, kinds.keys())}`);
  }
  const typed = cellValue(row, "parameters", readParameters) ?? {};
  const x = cellValue(row, "x", readMillimetres);
  const y = cellValue(row, "y", readMillimetres);
  if ((row.cell("x") === "") !== (row.cell("y") === "")) {
    row.complain("Columns x and y: only one of the two is filled. Fill in both, or leave both empty.");
  }
  const zone = row.cell("zone");
  const enclosure = row.cell("enclosure");
  const part: Part = {
    id,
    designation,
    kind: kindName,
    parameters: typed,
    views: [],
    ...(zone === "" ? {} : { zone: things.zone(zone) }),
    ...(enclosure === "" ? {} : { enclosure: things.enclosure(enclosure) }),
    ...(x === undefined || y === undefined ? {} : { panel: { x, y } }),
  };
  const known = knownPart(part, kinds);
  if (known === undefined) return { part, terminals: undefined };
  let readable = true;
  const parameters = normaliseParameters(known.kind, typed, known.terminalIds, (field, why) => {
    row.complain(`Column parameters, ${field}: ${why}`);
    readable = false;
  });
  return { part: { ...part, parameters }, terminals: readable ? known.terminalIds : undefined };
}

function readWireEnd(
  row: TableRow<WireColumn>,
  column: "from" | "to",
  parts: ReadonlyMap<string, ListedPart>,
): WireEnd | null {
  const end = readEnd(row.cell(column));
  if (!end.ok) {
    row.complain(`Column ${column}: ${end.why}`);
    return null;
  }
  const { designation, terminal } = end.value;
  const listed = parts.get(designation);
  if (listed === undefined) {
    row.complain(
      `Column ${column}: there is no part ${shown(designation)} in the parts list. Add it there, or mend it here.`,
    );
    return null;
  }
  const { part, terminals } = listed;
  if (terminals !== undefined && !terminals.has(terminal)) {
    row.complain(
      `Column ${column}: ${designation} (${part.kind}) has no terminal ${shown(terminal)}. ${choiceOf(terminal, terminals)}`,
    );
  }
  return [part.id, terminal];
}

/** A pair for the two ends, or nothing where neither is stated. */
function pairOf<T>(field: string, a: T | undefined, b: T | undefined): Record<string, readonly [T | null, T | null]> {
  return a === undefined && b === undefined ? {} : { [field]: [a ?? null, b ?? null] };
}

function readWire(
  row: TableRow<WireColumn>,
  id: string,
  number: string,
  parts: ReadonlyMap<string, ListedPart>,
  things: NamedThings,
): Wire {
  const filled = (column: WireColumn, field: string): Record<string, string> =>
    row.cell(column) === "" ? {} : { [field]: row.cell(column) };
  const insulation = cellValue(row, "insulation", readInsulation);
  const sheath = cellValue(row, "sheath", readYesNo);
  const cable = row.cell("cable");
  const zones = row
    .cell("zone")
    .split(";")
    .map((name) => name.trim())
    .filter((name) => name !== "");
  const boots = pairOf("boots", cellValue(row, "boot-from", readYesNo), cellValue(row, "boot-to", readYesNo));
  const lug = (column: "lug-from" | "lug-to"): string | undefined => row.cell(column) || undefined;
  const wire: Wire = {
    id,
    number,
    ends: [readWireEnd(row, "from", parts), readWireEnd(row, "to", parts)],
    ...filled("size", "size"),
    ...filled("length", "length"),
    ...filled("colour", "colour"),
    ...(insulation === undefined ? {} : { insulation }),
    ...(cable === "" ? {} : { cable: things.cable(cable) }),
    ...filled("core", "core"),
    ...(sheath === undefined ? {} : { sheath }),
    ...pairOf("lugs", lug("lug-from"), lug("lug-to")),
    ...boots,
    ...(zones.length === 0 ? {} : { zones: [...new Set(zones.map((name) => things.zone(name)))] }),
    ...filled("conduit", "conduit"),
    ...filled("note", "note"),
  };
  return normaliseWire(wire, (field, why) => row.complain(`Column ${COLUMN_OF[field] ?? field}: ${why}`));
}

/** Columns of fields that the list calls by another name. */
const COLUMN_OF: Readonly<Record<string, string>> = {
  "insulation, volts": "insulation",
  "insulation, temperature": "insulation",
  "lugs, end A": "lug-from",
  "lugs, end B": "lug-to",
};

/**
 * Reads a wire list and lays it out. Columns and their meaning: README of this folder. If anything in either file
 * cannot be read, nothing is imported and every problem is named with its line. Where the list has no column for wire
 * numbers, wires are numbered W1, W2 ...; an empty cell in that column leaves the wire without a number.
 * @param place lays the parts out on sheets
 */
export function importWireList(
  wiresCsv: string,
  partsCsv: string,
  kinds: Kinds = KINDS,
  place: (project: Project) => Project = placeParts,
): WireListImport {
  const problems: ListProblem[] = [];
  const partTable = readTable<PartColumn>("parts", partsCsv, ["designation", "kind"], PART_COLUMNS.slice(2), problems);
  const wireTable = readTable<WireColumn>("wires", wiresCsv, ["from", "to"], WIRE_COLUMNS.slice(2), problems);
  crowded("parts", partTable?.rows.length ?? 0, problems);
  crowded("wires", wireTable?.rows.length ?? 0, problems);
  if (partTable === undefined || wireTable === undefined || problems.some(({ text }) => text.endsWith(SPLIT))) {
    return { ok: false, problems };
  }

  const things = new NamedThings();
  const byDesignation = new Map<string, ListedPart>();
  const lineOf = new Map<string, number>();
  const parts = partTable.rows.map((row, index) => {
    const listed = readPart(row, `p${index + 1}`, things, kinds);
    const { part } = listed;
    const earlier = lineOf.get(part.designation);
    if (earlier === undefined || part.designation === "") {
      byDesignation.set(part.designation, listed);
      lineOf.set(part.designation, row.line);
    } else {
      row.complain(`${part.designation} stands in line ${earlier} already. Give one of the two another designation.`);
    }
    return part;
  });
  const numbered = wireTable.has("number");
  const wires = wireTable.rows.map((row, index) => {
    const number = numbered ? row.cell("number") : `W${index + 1}`;
    return readWire(row, `w${index + 1}`, number, byDesignation, things);
  });
  if (problems.length > 0) {
    const order = (problem: ListProblem): number => (problem.file === "parts" ? 0 : 1);
    return { ok: false, problems: problems.sort((a, b) => order(a) - order(b) || a.line - b.line) };
  }

  const { zones, enclosures, cables } = things;
  const lastIds = { p: parts.length, w: wires.length, s: 1, c: cables.length, z: zones.length, e: enclosures.length };
  const project = place({ ...newProject(), zones, enclosures, cables, parts, wires, lastIds });
  return { ok: true, project, summary: summaryOf(project) };
}

const SPLIT = "Split the list.";

function crowded(file: "parts" | "wires", rows: number, problems: ListProblem[]): void {
  if (rows <= LIMITS[file]) return;
  const most = LIMITS[file].toLocaleString("en-GB");
  problems.push({ file, line: 1, text: `The list has more than ${most} ${file}. ${SPLIT}` });
}

function summaryOf(project: Project): string {
  const count = (number: number, noun: string): string => `${number} ${noun}${number === 1 ? "" : "s"}`;
  const wired = new Set(project.wires.flatMap(({ ends }) => ends.flatMap((end) => (end === null ? [] : [end[0]]))));
  const alone = project.parts.filter(({ id }) => !wired.has(id)).map(({ designation }) => designation);
  const unwired =
    alone.length === 0
      ? ""
      : `; no wire goes to ${alone.slice(0, 10).join(", ")}${alone.length > 10 ? " and others" : ""}`;
  return `${count(project.parts.length, "part")} and ${count(project.wires.length, "wire")} on ${count(project.sheets.length, "sheet")}${unwired}.`;
}
