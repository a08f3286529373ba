/** The red pen's numbers over a sheet, as SVG: each in a rounded box beside its place, on paper so that it can be read. */
import type { PenAnchor } from "./pen-anchors.ts";
import { num } from "./svg.ts";

/** The numbers that stand at one place; those beyond the first few are counted, "+2". */
export interface PenMark {
  readonly at: PenAnchor;
  readonly numbers: readonly number[];
  readonly more: number;
}

/** The pen's colour, as in the window; 8:1 on white, and no colour of a signal word. */
export const PEN = "#8a1f4b";

/** Height of a number's box, its least width, what each further figure adds, mm. */
const HEIGHT = 4.4;
const WIDTH = 4.4;
const FIGURE = 1.7;
const TEXT = 2.8;
/** From the place to the middle of the first box, mm. */
const ASIDE: Readonly<Record<PenAnchor["on"], { readonly x: number; readonly y: number }>> = {
  terminal: { x: 2.6, y: -2.6 },
  wire: { x: 0, y: -3.2 },
  part: { x: 0, y: 0 },
};

interface Stand {
  readonly x: number;
  readonly y: number;
  readonly width: number;
}

/** One group a mark. Numbers of neighbouring places stand side by side instead of over one another. */
export function penMarksSvg(marks: readonly PenMark[]): readonly string[] {
  const taken: Stand[] = [];
  return marks.map(({ at, numbers, more }) => {
    const texts = [...numbers.map(String), ...(more === 0 ? [] : [`+${String(more)}`])];
    const widths = texts.map((text) => WIDTH + FIGURE * (text.length - 1));
    const aside = ASIDE[at.on];
    const width = widths.reduce((sum, each) => sum + each, 0);
    const y = at.y + aside.y;
    // At a terminal on the left the numbers stand before it, so that its name inside the part stays legible.
    const begin = at.side === "left" ? at.x - aside.x - width + WIDTH / 2 : at.x + aside.x - WIDTH / 2;
    let x = besideOthers({ x: begin, y, width }, taken);
    const boxes = texts.map((text, index) => {
      const wide = widths[index] ?? WIDTH;
      const left = x;
      x += wide;
      return [
        `<rect x="${num(left + 0.2)}" y="${num(y - HEIGHT / 2)}" width="${num(wide - 0.4)}" height="${num(HEIGHT)}" rx="${num(HEIGHT / 2)}" fill="#ffffff" stroke="${PEN}" stroke-width="0.4"/>`,
        `<text x="${num(left + wide / 2)}" y="${num(y + TEXT * 0.36)}" font-size="${num(TEXT)}" font-weight="bold" text-anchor="middle" fill="${PEN}">${text}</text>`,
      ].join("");
    });
    return `<g class="pen" data-numbers="${numbers.join(" ")}">${boxes.join("")}</g>`;
  });
}

function besideOthers(wanted: Stand, taken: Stand[]): number {
  let { x } = wanted;
  // From left to right, so that each step leads past the one it met.
  for (const other of taken.filter(({ y }) => Math.abs(y - wanted.y) < HEIGHT).sort((a, b) => a.x - b.x))
    if (x < other.x + other.width && other.x < x + wanted.width) x = other.x + other.width;
  taken.push({ ...wanted, x });
  return x;
}
