/**
 * How wide a text is, from the advance widths of the shipped typeface, so that core can lay out labels without a
 * window. All figures have one width. Control characters take no room; a character that the typeface lacks is
 * counted as one em, which is wider than any it has.
 */
import { ADVANCES, ASCENT, CAPITAL_HEIGHT, DESCENT, UNITS_PER_EM } from "./advances.ts";
import type { Box } from "./display.ts";
import type { Millimetre } from "../quantity/kinds.ts";

/** The family's name as SVG and PDF refer to it. */
export const FONT_FAMILY = "Iosevka Aile";

/** Height of capitals, and the reach of a line above and below its base line, as parts of the text size. */
export const CAPITALS = CAPITAL_HEIGHT / UNITS_PER_EM;
export const REACH_ABOVE = ASCENT / UNITS_PER_EM;
export const REACH_BELOW = DESCENT / UNITS_PER_EM;

const WIDTHS: ReadonlyMap<string, number> = new Map(
  ADVANCES.flatMap(({ advance, characters }) =>
    [...characters.join("")].map((character): [string, number] => [character, advance / UNITS_PER_EM]),
  ),
);

/** Width of a line of text whose font size is `size`; regular and bold are equally wide. */
export function textWidth(text: string, size: Millimetre): Millimetre {
  let ems = 0;
  for (const character of text.normalize("NFC"))
    ems += WIDTHS.get(character) ?? (/[\p{Cc}\p{Cf}\p{Mn}]/u.test(character) ? 0 : 1);
  return ems * size;
}

/** Whether the typeface has every character of a text: PDF must say so where one is missing. */
export function hasAllCharacters(text: string): boolean {
  return [...text.normalize("NFC")].every((character) => WIDTHS.has(character));
}

/** The room of a line of text before turning: its anchor is on the base line at (x, y). */
export function textBox(
  text: string,
  size: Millimetre,
  x: Millimetre,
  y: Millimetre,
  anchor: "start" | "middle" | "end" = "start",
): Box {
  const width = textWidth(text, size);
  const before = anchor === "start" ? 0 : anchor === "middle" ? width / 2 : width;
  return { x: x - before, y: y - REACH_ABOVE * size, width, height: (REACH_ABOVE + REACH_BELOW) * size };
}
