/** Frame with its zones, and the title block (ISO 5457, ISO 7200: fields and sizes from memory). */
import type { Box, DisplayList, Primitive } from "../geometry/display.ts";
import { fieldBorders, frameOf, paperSize, rowLetter, titleBlockOf } from "../layout/paper.ts";
import { clipText } from "../layout/text-line.ts";
import type { Sheet, TitleBlock } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";

/** Said on every sheet. */
export const CAUTION =
  "Verify against the makers' data, local rules and a competent person. A drawing that passes is no proof of safety.";

const BAND: Millimetre = 5;
const CAUTION_HEIGHT: Millimetre = 5;
const ROW: Millimetre = 9;

const line = (
  x1: number,
  y1: number,
  x2: number,
  y2: number,
  pen: "hair" | "control" | "symbol" | "frame",
): Primitive => ({
  draw: "line",
  points: [
    [x1, y1],
    [x2, y2],
  ],
  pen,
});

const rectangle = (box: Box, pen: "control" | "symbol" | "frame"): Primitive => ({
  draw: "line",
  points: [
    [box.x, box.y],
    [box.x + box.width, box.y],
    [box.x + box.width, box.y + box.height],
    [box.x, box.y + box.height],
  ],
  closed: true,
  pen,
});

const centred = (x: number, y: number, text: string): Primitive => ({
  draw: "text",
  x,
  y: y + 0.9,
  text,
  size: 2.5,
  anchor: "middle",
  ink: "faint",
});

/** Frame line, zone band around it, a tick at each field's border, its number or letter on both sides. */
export function drawFrame(sheet: Sheet): DisplayList {
  const { width, height } = paperSize(sheet);
  const frame = frameOf(sheet);
  const right = frame.x + frame.width;
  const bottom = frame.y + frame.height;
  const outer = {
    x: frame.x - BAND,
    y: frame.y - BAND,
    width: frame.width + 2 * BAND,
    height: frame.height + 2 * BAND,
  };
  const columns = fieldBorders(width).filter((x) => x > frame.x && x < right);
  const rows = fieldBorders(height).filter((y) => y > frame.y && y < bottom);
  const list: Primitive[] = [rectangle(outer, "control"), rectangle(frame, "frame")];
  for (const x of columns)
    list.push(line(x, outer.y, x, frame.y, "control"), line(x, bottom, x, bottom + BAND, "control"));
  for (const y of rows) list.push(line(outer.x, y, frame.x, y, "control"), line(right, y, right + BAND, y, "control"));
  middles([frame.x, ...columns, right]).forEach((x, index) => {
    const name = String(index + 1);
    list.push(centred(x, frame.y - BAND / 2, name), centred(x, bottom + BAND / 2, name));
  });
  middles([frame.y, ...rows, bottom]).forEach((y, index) => {
    const name = rowLetter(index);
    list.push(centred(frame.x - BAND / 2, y, name), centred(right + BAND / 2, y, name));
  });
  return list;
}

const middles = (borders: readonly number[]): readonly number[] =>
  borders.slice(1).map((border, index) => (border + (borders[index] ?? border)) / 2);

/** One field: place and size in the block, caption, what it says. */
type Field = readonly [x: number, row: number, width: number, caption: string, value: string, size?: 2.5 | 3.5];

/** Bottom right, 180 mm wide: a row with the caution, four rows of fields. */
export function drawTitleBlock(sheet: Sheet, number: number, count: number, title: TitleBlock): DisplayList {
  const block = titleBlockOf(sheet);
  const share = block.width / 180;
  const fields: readonly Field[] = [
    [0, 0, 70, "Owner", title.owner ?? ""],
    [70, 0, 110, "Title", title.title ?? "", 3.5],
    [0, 1, 70, "Vehicle", title.vehicle ?? ""],
    [70, 1, 110, "Sheet", join(sheet.name, title.supplementaryTitle)],
    [0, 2, 35, "Drawn by", title.author ?? ""],
    [35, 2, 35, "Approved by", title.approvedBy ?? ""],
    [70, 2, 50, "Document type", title.documentType ?? "Circuit diagram"],
    [120, 2, 60, "Drawing number", title.number ?? "", 3.5],
    [0, 3, 35, "Date", title.date ?? ""],
    [35, 3, 35, "Paper", sheet.paper],
    [70, 3, 50, "Language", title.language ?? "en"],
    [120, 3, 20, "Revision", title.revision ?? ""],
    [140, 3, 40, "Sheet / of", `${String(number)} / ${String(count)}`, 3.5],
  ];
  const list: Primitive[] = [
    { ...rectangle(block, "frame"), fill: "paper" } as Primitive,
    {
      draw: "text",
      x: block.x + block.width / 2,
      y: block.y + 3.4,
      text: clipText(CAUTION, 2.5, block.width - 3),
      size: 2.5,
      anchor: "middle",
    },
    line(block.x, block.y + CAUTION_HEIGHT, block.x + block.width, block.y + CAUTION_HEIGHT, "symbol"),
  ];
  for (const [x, row, width, caption, value, size = 2.5] of fields) {
    const left = block.x + x * share;
    const top = block.y + CAUTION_HEIGHT + row * ROW;
    if (row > 0) list.push(line(left, top, left + width * share, top, "control"));
    if (x > 0) list.push(line(left, top, left, top + ROW, "control"));
    list.push({ draw: "text", x: left + 1.2, y: top + 2.6, text: caption, size: 1.8, anchor: "start", ink: "faint" });
    const text = clipText(value, size, width * share - 2.4);
    if (text !== "") list.push({ draw: "text", x: left + 1.2, y: top + 7.3, text, size, anchor: "start" });
  }
  return list;
}

const join = (name: string, more: string | undefined): string =>
  more === undefined || more === "" || more === name ? name : `${name} - ${more}`;
