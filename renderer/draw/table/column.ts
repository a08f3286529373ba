/** What a column of the tables is: how its cells read, by what they are sorted and asked for, how they are written. */
import type { MissingField } from "../../../core/checks/define.ts";
import { parseQuantity } from "../../../core/quantity/parse.ts";
import type { Dimension } from "../../../core/quantity/kinds.ts";
import type { Edit, Refusal } from "./edits.ts";

/** null = known to be unknown; undefined = not stated. */
export type Value = string | null | undefined;

export interface Cell {
  readonly value: Value;
  /** What stands in while nobody has stated it. */
  readonly usual?: string | undefined;
}

export interface Column {
  /** The field's name in the facts; with "#" where it is no field that a check can lack. */
  readonly id: string;
  readonly title: string;
  readonly about?: string | undefined;
  /** What could be typed. */
  readonly hint?: string | undefined;
  /** Pixels. */
  readonly width: number;
  /** undefined: this part or wire has no such field. */
  readonly cell: (id: string) => Cell | undefined;
  readonly choices?: ((id: string) => readonly string[]) | undefined;
  /** The figure by which a text is sorted. */
  readonly figure?: ((text: string) => number | undefined) | undefined;
  /** The names under which checks ask for it. */
  readonly missing?: (id: string) => readonly MissingField[];
  /** Left out: the column only tells. */
  readonly edit?: (id: string, value: Value) => Edit | Refusal;
}

export const NOT_KNOWN = "not known";

/** What a cell shows as text; "" where nothing is stated. */
export const shownText = ({ value, usual }: Cell): string => (value === null ? NOT_KNOWN : (value ?? usual ?? ""));

/** What goes into a spreadsheet: only what is stated, so that pasting it back confirms nothing. */
export const copiedText = (cell: Cell | undefined): string => (cell?.value === null ? NOT_KNOWN : (cell?.value ?? ""));

export function typedValue(text: string): Value {
  const plain = text.trim();
  if (plain === "") return undefined;
  return plain.toLowerCase() === NOT_KNOWN ? null : plain;
}

export function figureIn(dimension: Dimension): (text: string) => number | undefined {
  return (text) => {
    const read = parseQuantity(text, dimension);
    return read.ok ? read.value : undefined;
  };
}

/** Pixels for a heading that may break into two lines, and for what stands below it. */
export function widthFor(title: string, longest = 0): number {
  const words = title.split(" ").map((word) => word.length);
  const half = Math.max(Math.ceil(title.length / 2) + 1, ...words);
  return Math.round(Math.min(220, Math.max(88, 22 + 7.2 * Math.max(half, longest))));
}

interface Named {
  readonly id: string;
  readonly name: string;
}

/** The thing that goes by a typed name. */
export function byName(things: readonly Named[], typed: string, what: string, where: string): Named | Refusal {
  const wanted = typed.trim().toLowerCase();
  const found = things.find(({ name }) => name.toLowerCase() === wanted);
  if (found !== undefined) return found;
  const names = things.map(({ name }) => name);
  const remedy =
    names.length === 0 ? `Add one to the drawing first, with nothing selected.` : `Choose one of ${names.join(", ")}.`;
  return { refused: `${where}: there is no ${what} called "${typed.trim()}". ${remedy}` };
}

export const cannotBeUnknown = (where: string): Refusal => ({
  refused: `${where}: this cannot be "${NOT_KNOWN}". Write what it is, or leave it empty.`,
});

export const cannotBeEmpty = (where: string): Refusal => ({
  refused: `${where}: it cannot be left empty. Write one.`,
});
