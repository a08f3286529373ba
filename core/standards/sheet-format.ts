/** Paper, frame and zones of a sheet: ISO 5457 (from memory). */
import type { Box, Point } from "../geometry/display.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const SHEET_SOURCE: Source = { text: "ISO 5457", known: "memory" };

/** Trimmed sizes of ISO 216, lying: width and height. */
export const PAPERS = { A4: [297, 210], A3: [420, 297], A2: [594, 420], A1: [841, 594], A0: [1189, 841] } as const;
export type Paper = keyof typeof PAPERS;

/** Margin of the frame on the filing side (left), and on the other sides. */
export const FILING_MARGIN: Millimetre = 20;
export const MARGIN: Millimetre = 10;
/** Length of a zone along the frame, counted from the sheet's centre lines. */
export const ZONE: Millimetre = 50;
/** Letters of rows from the top; I and O are left out because they look like figures. */
export const ROW_LETTERS = "ABCDEFGHJKLMNPQRSTUVWXYZ";

/** The drawing space within the frame. */
export function frameOf(width: Millimetre, height: Millimetre): Box {
  return { x: FILING_MARGIN, y: MARGIN, width: width - FILING_MARGIN - MARGIN, height: height - 2 * MARGIN };
}

/**
 * Where the zones of one side begin and end, in mm from the paper's edge: fields of 50 mm from the centre line outwards;
 * what is left over makes the outer fields longer or shorter, an outer field below a third being joined to its neighbour.
 * @param paper length of that side of the paper
 * @param from start of the frame on that side
 * @param to end of the frame on that side
 */
export function zoneEdges(paper: Millimetre, from: Millimetre, to: Millimetre): readonly Millimetre[] {
  const centre = paper / 2;
  const edges = [centre];
  for (let at = centre - ZONE; at > from + ZONE / 3; at -= ZONE) edges.unshift(at);
  for (let at = centre + ZONE; at < to - ZONE / 3; at += ZONE) edges.push(at);
  return [from, ...edges, to];
}

/** The zone of a point: "B4", rows lettered from the top, columns numbered from the left. Outside the frame the nearest. */
export function zoneOf(point: Point, width: Millimetre, height: Millimetre): string {
  const frame = frameOf(width, height);
  const column = fieldOf(point.x, zoneEdges(width, frame.x, frame.x + frame.width));
  const row = fieldOf(point.y, zoneEdges(height, frame.y, frame.y + frame.height));
  return `${ROW_LETTERS[row] ?? "?"}${column + 1}`;
}

function fieldOf(at: Millimetre, edges: readonly Millimetre[]): number {
  const next = edges.findIndex((edge, index) => index > 0 && at < edge);
  return next === -1 ? edges.length - 2 : next - 1;
}
