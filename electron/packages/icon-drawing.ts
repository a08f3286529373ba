/**
 * The program's icon, drawn on the 2.5 mm module of its own symbols: a sheet, a fuse in a traction wire, and the pen's
 * mark at it. Anti-aliased by distance; no picture program, no font.
 */
import { PALETTES } from "../../core/drawing/palette.ts";
import { bodyBetweenLeads } from "../../core/parts/symbol.ts";

/** Millimetres of the square on which it is drawn. */
const SIDE = 40;
/** The pen of the margin, as in the window. */
const PEN = "#8a1f4b";

type Colour = readonly [red: number, green: number, blue: number];

const colourOf = (hex: string): Colour =>
  [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16)) as unknown as Colour;

interface Shape {
  /** Millimetres to its edge: negative inside. */
  readonly away: (x: number, y: number) => number;
  readonly colour: Colour;
}

function box(left: number, top: number, right: number, bottom: number, radius: number): Shape["away"] {
  const [x0, y0] = [(left + right) / 2, (top + bottom) / 2];
  const [wide, high] = [(right - left) / 2 - radius, (bottom - top) / 2 - radius];
  return (x, y) => {
    const [dx, dy] = [Math.abs(x - x0) - wide, Math.abs(y - y0) - high];
    return Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) + Math.min(Math.max(dx, dy), 0) - radius;
  };
}

const line =
  (ax: number, ay: number, bx: number, by: number, width: number): Shape["away"] =>
  (x, y) => {
    const length = (bx - ax) ** 2 + (by - ay) ** 2;
    const along = length === 0 ? 0 : Math.min(Math.max(((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length, 0), 1);
    return Math.hypot(x - ax - along * (bx - ax), y - ay - along * (by - ay)) - width / 2;
  };

const ring =
  (x0: number, y0: number, r: number, width: number): Shape["away"] =>
  (x, y) =>
    Math.abs(Math.hypot(x - x0, y - y0) - r) - width / 2;

const disc =
  (x0: number, y0: number, r: number): Shape["away"] =>
  (x, y) =>
    Math.hypot(x - x0, y - y0) - r;

/** Small icons are drawn with heavier lines and without what would blur. */
function shapes(pixels: number): readonly Shape[] {
  const small = pixels <= 32;
  const heavy = small ? 1.5 : 1;
  const { ink, paper, traction } = PALETTES.colour;
  const [black, white, orange, pen] = [ink, paper, traction, PEN].map(colourOf) as [Colour, Colour, Colour, Colour];
  const list: Shape[] = [
    { away: box(2, 2, 38, 38, 3), colour: black },
    { away: box(2 + 1.4 * heavy, 2 + 1.4 * heavy, 38 - 1.4 * heavy, 38 - 1.4 * heavy, 2), colour: white },
  ];
  // The fuse of the parts' catalogue, twice as large, in the middle of the sheet's upper half.
  const at = ([x, y]: readonly [number, number]): readonly [number, number] => [5 + 2 * x, 15 + 2 * y];
  const leads: Shape[] = [];
  for (const item of bodyBetweenLeads(0, 0, 7.5, 5)) {
    if (item.draw !== "line") continue;
    const points = item.points.map(at);
    if (item.closed === true) {
      const [xs, ys] = [points.map(([x]) => x), points.map(([, y]) => y)];
      const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
      const edge = 0.9 * heavy;
      list.push({ away: box(left - edge, top - edge, right + edge, bottom + edge, edge), colour: black });
      list.push({ away: box(left + edge, top + edge, right - edge, bottom - edge, 0), colour: white });
      leads.push({ away: line(left, 15, right, 15, 2.4 * heavy), colour: orange });
    } else {
      const [a = [0, 0], b = [0, 0]] = points;
      leads.push({ away: line(a[0], a[1], b[0], b[1], 2.4 * heavy), colour: orange });
    }
  }
  list.push(...leads, { away: line(20, 21, 26, 27, heavy), colour: pen });
  list.push({ away: disc(29, 30, 4.6), colour: white }, { away: ring(29, 30, 4.2, 1.6 * heavy), colour: pen });
  if (!small) list.push({ away: line(29, 27.8, 29, 32.2, 1.5), colour: pen });
  return list;
}

/** RGBA, row by row. */
export function iconPixels(pixels: number): Uint8Array {
  const data = new Uint8Array(pixels * pixels * 4);
  const scale = SIDE / pixels;
  const all = shapes(pixels);
  for (let row = 0; row < pixels; row += 1)
    for (let column = 0; column < pixels; column += 1) {
      let [red, green, blue, alpha] = [0, 0, 0, 0];
      for (const { away, colour } of all) {
        const cover = Math.min(Math.max(0.5 - away((column + 0.5) * scale, (row + 0.5) * scale) / scale, 0), 1);
        if (cover === 0) continue;
        const whole = cover + alpha * (1 - cover);
        const mix = (over: number, under: number): number => (over * cover + under * alpha * (1 - cover)) / whole;
        [red, green, blue, alpha] = [mix(colour[0], red), mix(colour[1], green), mix(colour[2], blue), whole];
      }
      data.set([red, green, blue, alpha * 255].map(Math.round), (row * pixels + column) * 4);
    }
  return data;
}
