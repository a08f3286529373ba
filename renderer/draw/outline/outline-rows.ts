/** The drawing as a tree, row by row: what stands on no sheet, parts with their terminals, wires. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import { compareNatural } from "../../../core/project/designation.ts";
import type { Part, Project, Wire, WireEnd } from "../../../core/project/document.ts";
import { knownPart, partById } from "../../../core/project/lookup.ts";
import { unplacedViews } from "../sheet/unplaced-views.ts";
import type { UnplacedView } from "../sheet/unplaced-views.ts";
import { wiredTo } from "../sheet/wired-to.ts";

export type OutlineTarget =
  | { readonly what: "group" }
  | { readonly what: "part"; readonly part: string }
  | { readonly what: "terminal"; readonly end: WireEnd }
  | { readonly what: "wire"; readonly wire: string }
  /** A view that stands on no sheet yet. */
  | { readonly what: "place"; readonly part: string; readonly view: string };

export interface OutlineRow {
  readonly key: string;
  readonly level: 1 | 2 | 3;
  readonly name: string;
  /** Quieter, after the name. */
  readonly more: string;
  readonly target: OutlineTarget;
  /** undefined for a row that has nothing below it. */
  readonly open: boolean | undefined;
  readonly position: number;
  readonly count: number;
}

type Entry = Omit<OutlineRow, "level" | "position" | "count" | "open"> & { readonly below?: readonly Entry[] };

/** `toggled` holds the keys of rows that are not as they begin: groups begin open, parts closed. */
export function outlineRows(project: Project, find: string, toggled: ReadonlySet<string>): readonly OutlineRow[] {
  const wanted = find.trim().toLowerCase();
  const meets = (...texts: readonly string[]): boolean =>
    wanted === "" || texts.some((text) => text.toLowerCase().includes(wanted));
  const parts = [...project.parts]
    .sort((a, b) => compareNatural(a.designation, b.designation))
    .map((part) => partEntry(project, part))
    .filter(({ entry, words }) => meets(entry.name, entry.more, ...words));
  const wires = [...project.wires]
    .sort((a, b) => compareNatural(a.number, b.number))
    .map((wire) => wireEntry(project, wire))
    .filter(({ name, more }) => meets(name, more));
  const unplaced = unplacedViews(project.parts)
    .map(unplacedEntry)
    .filter(({ name, more }) => meets(name, more));
  const groups: Entry[] = [
    group("unplaced", "On no sheet", unplaced),
    group(
      "parts",
      "Parts",
      parts.map(({ entry }) => entry),
    ),
    group("wires", "Wires", wires),
  ].filter(({ key, below }) => key !== "unplaced" || (below?.length ?? 0) > 0);
  return flat(groups, 1, toggled);
}

function flat(entries: readonly Entry[], level: 1 | 2 | 3, toggled: ReadonlySet<string>): readonly OutlineRow[] {
  return entries.flatMap(({ below, ...entry }, index) => {
    const open = below === undefined || below.length === 0 ? undefined : (level === 1) !== toggled.has(entry.key);
    const row: OutlineRow = { ...entry, level, open, position: index + 1, count: entries.length };
    return open === true && below !== undefined ? [row, ...flat(below, level === 1 ? 2 : 3, toggled)] : [row];
  });
}

const group = (key: string, name: string, below: readonly Entry[]): Entry => ({
  key,
  name,
  more: String(below.length),
  target: { what: "group" },
  below,
});

function partEntry(project: Project, part: Part): { readonly entry: Entry; readonly words: readonly string[] } {
  const known = knownPart(part, KINDS);
  const sheets = [...new Set(part.views.map(({ sheet }) => sheet))].map(
    (id) => project.sheets.find((sheet) => sheet.id === id)?.name ?? id,
  );
  const where = project.sheets.length > 1 && sheets.length > 0 ? `, sheet ${sheets.join(" and ")}` : "";
  const below = (known?.terminals ?? []).map(
    ({ id, title }): Entry => ({
      key: `terminal ${part.id}:${id}`,
      name: id,
      more: `${title === "" || title === id ? "" : `${title}, `}${wiredTo(project, [part.id, id])}`,
      target: { what: "terminal", end: [part.id, id] },
    }),
  );
  return {
    entry: {
      key: `part ${part.id}`,
      name: part.designation,
      more: `${known?.kind.title ?? part.kind}${where}`,
      target: { what: "part", part: part.id },
      below,
    },
    words: known?.kind.words ?? [],
  };
}

const unplacedEntry = ({ part, view, designation, title }: UnplacedView): Entry => ({
  key: `place ${part}/${view}`,
  name: designation,
  more: title,
  target: { what: "place", part, view },
});

function wireEntry(project: Project, { id, number, ends }: Wire): Entry {
  const [from, to] = ends.map((end) =>
    end === null ? "loose" : `${partById(project, end[0])?.designation ?? end[0]} ${end[1]}`,
  );
  return {
    key: `wire ${id}`,
    name: number === "" ? id : number,
    more: `${from ?? ""} to ${to ?? ""}`,
    target: { what: "wire", wire: id },
  };
}
