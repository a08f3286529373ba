/** One line of text on a sheet and the room it takes. */
import type { Box } from "../geometry/display.ts";
import { CAPITALS, textWidth } from "../geometry/text-widths.ts";
import type { Millimetre } from "../quantity/kinds.ts";

type TextSize = 1.8 | 2.5 | 3.5 | 5;

export interface TextLine {
  readonly text: string;
  /** The base line's anchor point. */
  readonly x: Millimetre;
  readonly y: Millimetre;
  readonly size: TextSize;
  readonly anchor: "start" | "middle" | "end";
  /** 270: reads from the right-hand side of the sheet, upwards. */
  readonly turn?: 0 | 270;
}

export const DESIGNATION_SIZE = 3.5;
export const VALUE_SIZE = 2.5;

/** Depth of descenders, as part of the text's size. Accents above capitals are left out: they may touch a gap. */
const DESCENT = 0.2;

/** The text itself, or as much of it as fits, with an ellipsis. */
export function clipText(text: string, size: TextSize, width: Millimetre): string {
  const plain = oneLine(text);
  if (textWidth(plain, size) <= width) return plain;
  const letters = [...plain];
  let count = Math.min(letters.length, Math.floor(width / (size * 0.2)));
  while (count > 0 && textWidth(`${letters.slice(0, count).join("")}…`, size) > width) count -= 1;
  return `${letters.slice(0, count).join("").trimEnd()}…`;
}

/** Line breaks, tabs and other control characters would tear a line of text apart: one space instead. */
export const oneLine = (text: string): string => text.replace(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]+/gu, " ").trim();

/** The room of a line, upright or turned. */
export function lineBox(line: TextLine): Box {
  const width = textWidth(line.text, line.size);
  const before = line.anchor === "start" ? 0 : line.anchor === "middle" ? width / 2 : width;
  const up = CAPITALS * line.size;
  const tall = (CAPITALS + DESCENT) * line.size;
  return line.turn === 270
    ? { x: line.x - up, y: line.y - (width - before), width: tall, height: width }
    : { x: line.x - before, y: line.y - up, width, height: tall };
}
