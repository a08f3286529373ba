/** Fields of a drawing's title block: ISO 7200:2004 (fields and lengths from memory). */
import type { Millimetre } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const TITLE_BLOCK_SOURCE: Source = { text: "ISO 7200:2004", known: "memory" };

export interface TitleField {
  readonly name: string;
  /** Characters that are recommended at most; absent: open. */
  readonly length?: number;
  readonly mandatory: boolean;
}

export const TITLE_FIELDS: readonly TitleField[] = [
  { name: "legal owner", mandatory: true },
  { name: "identification number", length: 16, mandatory: true },
  { name: "revision index", length: 2, mandatory: false },
  { name: "date of issue", length: 10, mandatory: true },
  { name: "sheet number", length: 4, mandatory: true },
  { name: "number of sheets", length: 4, mandatory: false },
  { name: "language code", length: 4, mandatory: false },
  { name: "title", length: 25, mandatory: true },
  { name: "supplementary title", length: 25, mandatory: false },
  { name: "responsible department", length: 10, mandatory: false },
  { name: "technical reference", length: 20, mandatory: false },
  { name: "approval person", length: 20, mandatory: true },
  { name: "creator", length: 20, mandatory: true },
  { name: "document type", length: 30, mandatory: true },
  { name: "classification", mandatory: false },
  { name: "document status", length: 20, mandatory: false },
  { name: "paper size", length: 4, mandatory: false },
];

/** Width of the block, at the lower right of the frame. */
export const TITLE_BLOCK_WIDTH: Millimetre = 180;
