/** Which rows a table shows, and in which order. */
import { compareNatural } from "../../../core/project/designation.ts";
import type { Project } from "../../../core/project/document.ts";
import type { Asked } from "../facts/asked.ts";
import { shownText } from "./column.ts";
import type { Cell, Column } from "./column.ts";
import { partColumns } from "./part-columns.ts";
import { wireColumns } from "./wire-columns.ts";

export const TABS = ["parts", "wires"] as const;
export type Tab = (typeof TABS)[number];

/** all; those with a cell in which nothing is stated; those in which a check needs what is not stated. */
export type Lack = "any" | "not-stated" | "asked-for";

export interface Sorting {
  readonly column: string;
  readonly direction: "ascending" | "descending";
}

export interface Wanted {
  readonly tab: Tab;
  /** Of parts: only this kind. */
  readonly kind: string | null;
  readonly find: string;
  readonly lack: Lack;
  readonly sorting: Sorting | null;
}

export function columnsOf(project: Project, { tab, kind }: Pick<Wanted, "tab" | "kind">): readonly Column[] {
  if (tab === "wires") return wireColumns(project);
  return partColumns(
    project,
    project.parts.filter((part) => kind === null || part.kind === kind),
  );
}

/** Checks that wait for what a cell does not state. */
export function waiting(column: Column, id: string, cell: Cell | undefined, asked: Asked): number {
  if (cell === undefined || typeof cell.value === "string") return 0;
  return (column.missing?.(id) ?? []).reduce((sum, field) => sum + asked(field), 0);
}

const isEmpty = (cell: Cell | undefined): boolean =>
  cell !== undefined && cell.value === undefined && cell.usual === undefined;

/** Ids of the rows, as wanted at this moment. */
export function arranged(project: Project, asked: Asked, wanted: Wanted): readonly string[] {
  const columns = columnsOf(project, wanted);
  const words = wanted.find.toLowerCase().split(/\s+/).filter(Boolean);
  const fits = (id: string): boolean => {
    const lacks = columns.some((column) => {
      const cell = column.cell(id);
      if (wanted.lack === "asked-for") return waiting(column, id, cell, asked) > 0;
      return column.edit !== undefined && isEmpty(cell);
    });
    if (wanted.lack !== "any" && !lacks) return false;
    if (words.length === 0) return true;
    const text = columns
      .map((column) => shownText(column.cell(id) ?? { value: "" }))
      .join("\n")
      .toLowerCase();
    return words.every((word) => text.includes(word));
  };
  const all =
    wanted.tab === "wires"
      ? project.wires
      : project.parts.filter(({ kind }) => wanted.kind === null || kind === wanted.kind);
  const ids = all.map(({ id }) => id).filter(fits);
  const by = columns.find(({ id }) => id === wanted.sorting?.column);
  return by === undefined ? ids : sorted(ids, by, wanted.sorting?.direction === "descending" ? -1 : 1);
}

/** By figure where the column has one, else in natural order; what states nothing stays last either way. */
function sorted(ids: readonly string[], column: Column, sign: 1 | -1): readonly string[] {
  const keys = new Map(
    ids.map((id) => {
      const cell = column.cell(id);
      const text = cell === undefined ? "" : shownText(cell);
      const written = cell !== undefined && cell.value !== null && text !== "";
      return [id, { text, written, figure: written ? column.figure?.(text) : undefined }];
    }),
  );
  return [...ids].sort((one, other) => {
    const [a, b] = [keys.get(one), keys.get(other)];
    if (a === undefined || b === undefined) return 0;
    if (a.written !== b.written) return a.written ? -1 : 1;
    if (a.figure !== undefined && b.figure !== undefined && a.figure !== b.figure) return sign * (a.figure - b.figure);
    return sign * compareNatural(a.text, b.text);
  });
}
