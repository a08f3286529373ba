/**
 * The sheet of paper: size, frame, title block, zones. ISO 5457 (memory): margin 20 mm left, 10 mm elsewhere, fields
 * of 50 mm counted from the middle, columns numbered from the left, rows lettered from the top without I and O.
 */
import type { Box } from "../geometry/display.ts";
import type { Sheet } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";

/** Short and long edge, mm. A sizes: ISO 216; Letter 8.5 x 11 in, Tabloid 11 x 17 in: ANSI/ASME Y14.1 (memory). */
const PAPERS: Readonly<Record<Sheet["paper"], readonly [short: Millimetre, long: Millimetre]>> = {
  A4: [210, 297],
  A3: [297, 420],
  Letter: [215.9, 279.4],
  Tabloid: [279.4, 431.8],
};

const LEFT_MARGIN: Millimetre = 20;
const MARGIN: Millimetre = 10;
const FIELD: Millimetre = 50;
const ROW_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/** ISO 7200 (memory): the title block is 180 mm wide, in the lower right corner of the frame. */
const TITLE_BLOCK_WIDTH: Millimetre = 180;
const TITLE_BLOCK_HEIGHT: Millimetre = 41;

export function paperSize(sheet: Pick<Sheet, "paper" | "orientation">): {
  readonly width: Millimetre;
  readonly height: Millimetre;
} {
  const [short, long] = PAPERS[sheet.paper];
  return sheet.orientation === "landscape" ? { width: long, height: short } : { width: short, height: long };
}

/** The frame: everything is drawn inside it. */
export function frameOf(sheet: Pick<Sheet, "paper" | "orientation">): Box {
  const { width, height } = paperSize(sheet);
  return { x: LEFT_MARGIN, y: MARGIN, width: width - LEFT_MARGIN - MARGIN, height: height - 2 * MARGIN };
}

export function titleBlockOf(sheet: Pick<Sheet, "paper" | "orientation">): Box {
  const frame = frameOf(sheet);
  const width = Math.min(TITLE_BLOCK_WIDTH, frame.width);
  return {
    x: frame.x + frame.width - width,
    y: frame.y + frame.height - TITLE_BLOCK_HEIGHT,
    width,
    height: TITLE_BLOCK_HEIGHT,
  };
}

/** Inner borders of the zone fields along one edge of the paper, mm from its start; the outer fields take the rest. */
export function fieldBorders(length: Millimetre): readonly Millimetre[] {
  const fields = fieldCount(length);
  return Array.from({ length: fields - 1 }, (_, index) => length / 2 + (index + 1 - fields / 2) * FIELD);
}

/** "B4": the zone in which a place of the sheet lies. */
export function zoneAt(sheet: Pick<Sheet, "paper" | "orientation">, x: Millimetre, y: Millimetre): string {
  const { width, height } = paperSize(sheet);
  const field = (at: Millimetre, length: Millimetre): number =>
    fieldBorders(length).filter((border) => border <= at).length;
  return `${rowLetter(field(y, height))}${String(field(x, width) + 1)}`;
}

export const rowLetter = (row: number): string => ROW_LETTERS[row % ROW_LETTERS.length] ?? "A";

const fieldCount = (length: Millimetre): number => Math.max(2, 2 * Math.round(length / (2 * FIELD)));
