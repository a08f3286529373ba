/** One picture of a pair as SVG: the parts shown, what differs written beside them, and the red pen where it is wrong. */
import { drawWireText, wireTexts } from "../../core/drawing/sheet.ts";
import { drawTitleBlock } from "../../core/drawing/frame.ts";
import { junctionDots } from "../../core/drawing/junctions.ts";
import { PEN } from "../../core/drawing/pen-marks.ts";
import { penAnchors } from "../../core/drawing/pen-anchors.ts";
import { num, toSvg } from "../../core/drawing/svg.ts";
import { drawView, textPrimitive } from "../../core/drawing/view-drawing.ts";
import { boxAround, containsPoint, inflate, overlap, union } from "../../core/geometry/boxes.ts";
import type { Box, DisplayList, Primitive } from "../../core/geometry/display.ts";
import { textWidth } from "../../core/geometry/text-widths.ts";
import { labelBox, labelOf } from "../../core/layout/label.ts";
import { titleBlockOf } from "../../core/layout/paper.ts";
import type { KindLookup, PlacedView } from "../../core/layout/placed-view.ts";
import { pinNames } from "../../core/layout/pin-name.ts";
import { routedSheet } from "../../core/layout/route.ts";
import type { RoutedSheet } from "../../core/layout/route.ts";
import { clipText, lineBox } from "../../core/layout/text-line.ts";
import type { Project } from "../../core/project/document.ts";
import { PICTURE_SHEET } from "./arrange.ts";

export interface Note {
  /** Id of the part or wire it belongs to. */
  readonly at: string;
  readonly text: string;
}

export interface Drawn {
  readonly list: DisplayList;
  readonly over: readonly string[];
  readonly box: Box;
}

export interface Look {
  readonly traction: ReadonlySet<string>;
  readonly notes: readonly Note[];
  /** Keys of pen anchors: "p3", "p3:+", "w4". */
  readonly rings: readonly string[];
  /** What is written beside parts and wires is then in the pen's colour. */
  readonly wrong: boolean;
}

/** Everything on its sheet, in the sheet's millimetres. */
export function drawPicture(project: Project, kinds: KindLookup, look: Look): Drawn {
  const sheet = project.sheets[0];
  if (sheet === undefined) throw new Error("a picture has one sheet");
  const routed = told(routedSheet(project, PICTURE_SHEET, kinds));
  const list: Primitive[] = [];
  for (const [wire, lines] of routed.paths)
    for (const points of lines)
      list.push({ draw: "line", points, pen: look.traction.has(wire) ? "traction" : "control" });
  for (const { x, y } of junctionDots(routed.paths, routed.nets))
    list.push({ draw: "circle", x, y, r: 0.75, pen: "hair", fill: "ink" });
  for (const view of routed.views) list.push(...drawView(view));
  const texts = wireTexts(project, sheet, routed);
  for (const text of texts) list.push(...drawWireText(text));
  for (const stub of routed.stubs) for (const text of stub.texts) list.push(textPrimitive(text, "faint"));
  const anchor = penAnchors(routed.views, routed.paths);
  const taken = [
    ...routed.views.flatMap((view) => [
      inflate(view.box, -1),
      ...[labelBox(labelOf(view))].filter((box) => box !== undefined),
      ...pinNames(view).map(lineBox),
    ]),
    ...texts.map(({ line }) => lineBox(line)),
    ...routed.stubs.flatMap(({ rooms }) => rooms),
    ...[...routed.paths.values()].flat().flatMap(pieces),
  ];
  const rings = look.rings.flatMap((key) => ringAt(key, routed, anchor));
  const over = rings.map(({ svg }) => svg);
  const notes: Box[] = [];
  for (const at of [...new Set(look.notes.map((note) => note.at))]) {
    const lines = look.notes.filter((note) => note.at === at).map(({ text }) => clipText(text, NOTE, LONGEST_NOTE));
    const home = homeOf(at, routed);
    if (home === undefined) continue;
    const box = freePlace(home, lines, [...taken, ...notes, ...rings.flatMap(({ box: ring }) => edges(ring))]);
    notes.push(box);
    lines.forEach((text, index) => {
      const y = box.y + NOTE * 0.8 + index * LINE;
      over.push(
        `<text x="${num(box.x)}" y="${num(y)}" font-size="${String(NOTE)}" font-weight="bold" fill="${look.wrong ? PEN : INK}">${escaped(text)}</text>`,
      );
    });
  }
  const box = union([...list.map(boxOf), ...rings.map((ring) => ring.box), ...notes]);
  if (box === undefined) throw new Error("there is nothing to draw");
  return { list, over, box };
}

/** The left half of the title block; in the wrong one the pen marks the first field that is empty there. */
export function drawTitlePicture(project: Project, wrong: boolean): Drawn {
  const sheet = project.sheets[0];
  if (sheet === undefined) throw new Error("a picture has one sheet");
  const block = titleBlockOf(sheet);
  const [row, column] = [9, 35];
  const box = { x: block.x, y: block.y + 5 + row, width: 2 * column + 1, height: 3 * row };
  const list = drawTitleBlock(sheet, 1, project.sheets.length, project.title).filter(
    (item) => item.draw !== "text" || (containsPoint(box, item) && item.x < box.x + box.width - 1),
  );
  const empty = { x: box.x + 0.6, y: box.y + row + 0.6, width: column - 1.2, height: row - 1.2 };
  const svg = `<rect class="pen" x="${num(empty.x)}" y="${num(empty.y)}" width="${num(empty.width)}" height="${num(empty.height)}" rx="3" ${STROKE}/>`;
  return { list, over: wrong ? [svg] : [], box };
}

const LEAST_WIDTH = 75;
const NOTE = 2.5;
const LINE = 3.3;
const LONGEST_NOTE = 62;
const INK = "#16181a";

const escaped = (text: string): string => text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;");

/** Stubs tell where the wire goes: to a part that this picture leaves out. */
function told(routed: RoutedSheet): RoutedSheet {
  return {
    ...routed,
    stubs: routed.stubs.map((stub) => ({
      ...stub,
      texts: stub.texts.map((text) => ({ ...text, text: text.text.replace(/ not drawn$/, "") })),
    })),
  };
}

function pieces(points: readonly (readonly [number, number])[]): readonly Box[] {
  return points.slice(1).map(([x, y], index) => {
    const [bx, by] = points[index] ?? [x, y];
    return {
      x: Math.min(x, bx) - 0.4,
      y: Math.min(y, by) - 0.4,
      width: Math.abs(x - bx) + 0.8,
      height: Math.abs(y - by) + 0.8,
    };
  });
}

function edges({ x, y, width, height }: Box): readonly Box[] {
  return [
    { x, y, width, height: 0.6 },
    { x, y: y + height - 0.6, width, height: 0.6 },
    { x, y, width: 0.6, height },
    { x: x + width - 0.6, y, width: 0.6, height },
  ];
}

const viewOf = (id: string, { views }: RoutedSheet): PlacedView | undefined => views.find(({ part }) => part.id === id);

interface Ring {
  readonly svg: string;
  readonly box: Box;
}

const STROKE = `fill="none" stroke="${PEN}" stroke-width="0.7"`;

/** A ring around a terminal or a part, a line of the pen along a wire. */
function ringAt(key: string, routed: RoutedSheet, anchor: ReturnType<typeof penAnchors>): readonly Ring[] {
  const point = anchor(key);
  if (point === undefined) return [];
  if (point.on === "part") {
    const views = routed.views.filter(({ part }) => part.id === key);
    const main = views.find(({ view }) => view.id !== "coil") ?? views[0];
    return (main === undefined ? [] : [main]).map((view) => {
      const box = inflate(union([inflate(view.box, -2.5), labelBox(labelOf(view)) ?? view.box]) ?? view.box, 1.6);
      return {
        svg: `<rect class="pen" x="${num(box.x)}" y="${num(box.y)}" width="${num(box.width)}" height="${num(box.height)}" rx="4" ${STROKE}/>`,
        box,
      };
    });
  }
  if (point.on === "wire") {
    const lines = routed.paths.get(key) ?? [];
    return lines.flatMap((line) => {
      const box = boxAround(line.map(([x, y]) => ({ x, y })));
      const points = line.map(([x, y]) => `${num(x)},${num(y)}`).join(" ");
      return box === undefined
        ? []
        : [
            {
              svg: `<polyline class="pen" points="${points}" fill="none" stroke="${PEN}" stroke-opacity="0.35" stroke-width="2.6"/>`,
              box: inflate(box, 1.3),
            },
          ];
    });
  }
  const box = { x: point.x - 3.2, y: point.y - 3.2, width: 6.4, height: 6.4 };
  return [{ svg: `<circle class="pen" cx="${num(point.x)}" cy="${num(point.y)}" r="3.2" ${STROKE}/>`, box }];
}

function homeOf(id: string, routed: RoutedSheet): Box | undefined {
  const view = viewOf(id, routed);
  if (view !== undefined) return union([view.box, labelBox(labelOf(view)) ?? view.box]);
  const longest = (routed.paths.get(id) ?? [])
    .flatMap(pieces)
    .toSorted((a, b) => b.width + b.height - a.width - a.height)[0];
  return longest;
}

/** The place nearest to its home that covers nothing: below, above, right or left of it. */
function freePlace(home: Box, lines: readonly string[], taken: readonly Box[]): Box {
  const width = Math.max(...lines.map((text) => textWidth(text, NOTE) * 1.08));
  const height = LINE * lines.length;
  const middle = home.x + home.width / 2;
  let best: Box = { x: middle - width / 2, y: home.y + home.height + 1, width, height };
  let least = Infinity;
  for (let away = 1; away <= 31; away += 1.5)
    for (let aside = -24; aside <= 24; aside += 3) {
      const across = home.y + home.height / 2 - height / 2 + aside;
      const places: readonly Box[] = [
        { x: middle - width / 2 + aside, y: home.y + home.height + away, width, height },
        { x: middle - width / 2 + aside, y: home.y - away - height, width, height },
        { x: home.x + home.width + away, y: across, width, height },
        { x: home.x - away - width, y: across, width, height },
      ];
      places.forEach((box, index) => {
        const covered = taken.filter((other) => overlap(box, other, 0.5)).length;
        const price = covered * 40 + away * 1.5 + Math.abs(aside) * 0.7 + (index > 1 ? 6 : index);
        if (price < least) [best, least] = [box, price];
      });
    }
  return best;
}

function boxOf(item: Primitive): Box {
  switch (item.draw) {
    case "line":
      return boxAround(item.points.map(([x, y]) => ({ x, y }))) ?? { x: 0, y: 0, width: 0, height: 0 };
    case "circle":
    case "arc":
      return { x: item.x - item.r, y: item.y - item.r, width: 2 * item.r, height: 2 * item.r };
    case "text":
      return lineBox({ ...item, anchor: item.anchor ?? "start", turn: item.turn === 270 ? 270 : 0 });
  }
}

/** As a file: cut to the box, which both pictures of a pair share. */
export function pictureSvg(
  { list, over }: Drawn,
  around: Box,
  title: string,
  description: string,
  within: string,
): string {
  // A single part is not blown up beyond what its neighbours on the page are.
  const wide = Math.max(0, LEAST_WIDTH - around.width) / 2;
  const box = inflate({ ...around, x: around.x - wide, width: around.width + 2 * wide }, 2.5);
  const by = { x: -box.x, y: -box.y };
  const svg = toSvg(
    {
      width: box.width,
      height: box.height,
      list: list.map((item) => moved(item, by)),
      marks: [],
      title,
      description,
    },
    { over: [`<g transform="translate(${num(by.x)} ${num(by.y)})">${over.join("")}</g>`], within },
  );
  return svg;
}

function moved(item: Primitive, { x, y }: { readonly x: number; readonly y: number }): Primitive {
  if (item.draw !== "line") return { ...item, x: item.x + x, y: item.y + y };
  return { ...item, points: item.points.map(([px, py]) => [px + x, py + y] as const) };
}
