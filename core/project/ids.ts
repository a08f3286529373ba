/** Ids: a letter and a number, given out upwards and never again, not even after a deletion or an undo. */
import type { Project } from "./document.ts";

export type IdLetter = "p" | "w" | "s" | "c" | "z" | "e";

/** The lists of a project by the letter of their ids. */
export const LIST_OF = {
  p: "parts",
  w: "wires",
  s: "sheets",
  c: "cables",
  z: "zones",
  e: "enclosures",
} as const;
export const ID_LETTERS = Object.keys(LIST_OF) as readonly IdLetter[];

/** The highest number in use in a list of ids. */
export function highestNumber(entries: readonly { readonly id: string }[]): number {
  let highest = 0;
  for (const entry of entries) highest = Math.max(highest, Number(entry.id.slice(1)));
  return highest;
}

/** Per letter the higher of two counters. The first object itself if it is nowhere behind. */
export function higherIds(counters: Project["lastIds"], others: Project["lastIds"]): Project["lastIds"] {
  const behind = Object.entries(others).filter(([letter, number]) => number > (counters[letter] ?? 0));
  return behind.length === 0 ? counters : { ...counters, ...Object.fromEntries(behind) };
}
