/**
 * The drawing vocabulary of the symbols: small pure functions that build display lists on the 2.5 mm module of
 * IEC 60617, lines 0.35 mm. Symbols lie along the x axis (current from left to right); a sheet turns and mirrors
 * whole views. Contacts, operators and boxes full of pins are built from these in contact-symbol.ts and below.
 */
import type { Box, DisplayList, Ink, Pen, Primitive } from "../geometry/display.ts";
import { CAPITALS, textBox, textWidth } from "../geometry/text-widths.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import type { View } from "./define.ts";

/** The module of IEC 60617 sheets: every pin lies on a multiple of it. */
export const MODULE: Millimetre = 2.5;

export type Pin = View["pins"][number];
type XY = readonly [Millimetre, Millimetre];

/** Height of the text that a sheet writes beside a symbol. */
const LABEL_TEXT: Millimetre = 2.5;

/** A view without its name: what the builders return. */
export type Drawn = Pick<View, "symbol" | "pins" | "box" | "label">;

// --- strokes -------------------------------------------------------------------------------------------------

/** An open line through the points. */
export const stroke = (points: readonly XY[], pen: Pen = "symbol"): Primitive => ({ draw: "line", points, pen });

/** A straight lead from a pin to the body. */
export const lead = (x1: Millimetre, y1: Millimetre, x2: Millimetre, y2: Millimetre): Primitive =>
  stroke([
    [x1, y1],
    [x2, y2],
  ]);

/** The blade of a contact, drawn unactuated from `from` to `rest`; `closed` tells for each contact where it then leads. */
export const blade = (
  from: XY,
  rest: XY,
  open: XY,
  closed: readonly { readonly between: readonly [XY, XY]; readonly to: XY }[],
): Primitive => ({
  draw: "line",
  points: [from, rest],
  pen: "symbol",
  blade: { open: [from, open], throws: closed.map(({ between, to }) => ({ between, points: [from, to] })) },
});

/** A closed outline; `fill` "ink" for bars, tips and plates. */
export const outline = (points: readonly XY[], fill: Ink = "none"): Primitive => ({
  draw: "line",
  points,
  closed: true,
  pen: "symbol",
  fill,
});

/** Rectangle by its top left corner. */
export const rectangle = (
  x: Millimetre,
  y: Millimetre,
  width: Millimetre,
  height: Millimetre,
  fill: Ink = "none",
): Primitive =>
  outline(
    [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
    fill,
  );

export const circle = (x: Millimetre, y: Millimetre, r: Millimetre, fill: Ink = "none"): Primitive => ({
  draw: "circle",
  x,
  y,
  r,
  pen: "symbol",
  fill,
});

/** A filled junction dot, 1.5 mm across. */
export const dot = (x: Millimetre, y: Millimetre): Primitive => circle(x, y, 0.75, "ink");

/** A terminal: a small open circle. */
export const terminalRing = (x: Millimetre, y: Millimetre): Primitive => circle(x, y, 0.75, "paper");

/** Arc, degrees clockwise from the positive x axis (270 = up). */
export const arc = (x: Millimetre, y: Millimetre, r: Millimetre, from: number, to: number): Primitive => ({
  draw: "arc",
  x,
  y,
  r,
  from,
  to,
  pen: "symbol",
});

/** The mechanical link: a thin dashed line from the moving member to what moves it. */
export const link = (x1: Millimetre, y1: Millimetre, x2: Millimetre, y2: Millimetre): Primitive => ({
  draw: "line",
  points: [
    [x1, y1],
    [x2, y2],
  ],
  pen: "control",
  dash: "dashed",
});

/** Label text; y is the base line. */
export const text = (
  x: Millimetre,
  y: Millimetre,
  words: string,
  size: 1.8 | 2.5 | 3.5 | 5 = 2.5,
  anchor: "start" | "middle" | "end" = "middle",
): Primitive => ({ draw: "text", x, y, text: words, size, anchor });

/** A letter centred on a point, as in the circle of a motor or meter. */
export const letter = (x: Millimetre, y: Millimetre, words: string, size: 1.8 | 2.5 | 3.5 | 5 = 3.5): Primitive =>
  text(x, y + 0.36 * size, words, size);

/** Filled arrow head whose tip is at (x, y); `towards` in degrees clockwise from the positive x axis. */
export const arrowHead = (x: Millimetre, y: Millimetre, towards: number, length: Millimetre = 1.5): Primitive => {
  const turn = (towards * Math.PI) / 180;
  const place = (along: number, across: number): XY => [
    round(x + along * Math.cos(turn) - across * Math.sin(turn)),
    round(y + along * Math.sin(turn) + across * Math.cos(turn)),
  ];
  return outline([place(0, 0), place(-length, length * 0.35), place(-length, -length * 0.35)], "ink");
};

/** A line with an arrow head at its second end. */
export const arrow = (x1: Millimetre, y1: Millimetre, x2: Millimetre, y2: Millimetre): DisplayList => [
  lead(x1, y1, x2, y2),
  arrowHead(x2, y2, (Math.atan2(y2 - y1, x2 - x1) * 180) / Math.PI),
];

// --- marks ---------------------------------------------------------------------------------------------------

/** Plus and minus signs beside a lead, so that polarity reads without the terminal's name. */
export const plusMark = (x: Millimetre, y: Millimetre): DisplayList => [
  lead(x - 0.8, y, x + 0.8, y),
  lead(x, y - 0.8, x, y + 0.8),
];
export const minusMark = (x: Millimetre, y: Millimetre): DisplayList => [lead(x - 0.8, y, x + 0.8, y)];

/** Earth: a lead from (x, y) down into three bars of shrinking width. */
export const earthMark = (x: Millimetre, y: Millimetre): DisplayList => [
  lead(x, y, x, y + 2.5),
  lead(x - 2.5, y + 2.5, x + 2.5, y + 2.5),
  lead(x - 1.6, y + 3.5, x + 1.6, y + 3.5),
  lead(x - 0.7, y + 4.5, x + 0.7, y + 4.5),
];

/** Chassis or frame: a lead from (x, y) down to a bar with three oblique strokes below it. */
export const chassisMark = (x: Millimetre, y: Millimetre): DisplayList => [
  lead(x, y, x, y + 2.5),
  lead(x - 2.5, y + 2.5, x + 2.5, y + 2.5),
  ...[-2.5, 0, 2.5].map((dx) => lead(x + dx, y + 2.5, x + dx - 1.2, y + 5)),
];

/** Coil, resistor and fuse bodies are rectangles between two pins on the x axis, 15 mm apart. */
export const bodyBetweenLeads = (
  x: Millimetre,
  y: Millimetre,
  width: Millimetre,
  height: Millimetre,
  reach: Millimetre = 15,
): DisplayList => [
  lead(x, y, x + (reach - width) / 2, y),
  rectangle(x + (reach - width) / 2, y - height / 2, width, height),
  lead(x + (reach + width) / 2, y, x + reach, y),
];

/** Relay or contactor coil: a rectangle with its leads on the two long sides; pins at x and x + 15. */
export const coil = (x: Millimetre, y: Millimetre): DisplayList => bodyBetweenLeads(x, y, 5, 10);

/** A circle between two leads, pins at x and x + 15: lamp, meter, machine. */
export const circleBetweenLeads = (x: Millimetre, y: Millimetre, r: Millimetre = 5): DisplayList => [
  lead(x, y, x + 7.5 - r, y),
  circle(x + 7.5, y, r),
  lead(x + 7.5 + r, y, x + 15, y),
];

/** Diode along the x axis: triangle from the anode at (x, y) to a bar at x + size. */
export const diodeMark = (x: Millimetre, y: Millimetre, size: Millimetre = 2.5): DisplayList => [
  outline([
    [x, y - size / 2],
    [x + size, y],
    [x, y + size / 2],
  ]),
  lead(x + size, y - size / 2, x + size, y + size / 2),
];

// --- placing and measuring -----------------------------------------------------------------------------------

const round = (value: number): number => Math.round(value * 1000) / 1000;

/** The same list moved by (dx, dy). */
export function moved(list: DisplayList, dx: Millimetre, dy: Millimetre): DisplayList {
  const at = ([x, y]: XY): XY => [round(x + dx), round(y + dy)];
  return list.map((item) => {
    if (item.draw !== "line") return { ...item, x: round(item.x + dx), y: round(item.y + dy) };
    if (item.blade === undefined) return { ...item, points: item.points.map(at) };
    const { open, throws } = item.blade;
    const all = throws.map(({ between: [a, b], points }) => ({
      between: [at(a), at(b)] as const,
      points: points.map(at),
    }));
    return { ...item, points: item.points.map(at), blade: { open: open.map(at), throws: all } };
  });
}

function corners(item: Primitive): readonly XY[] {
  switch (item.draw) {
    case "line":
      return item.points;
    case "circle":
    case "arc":
      return [
        [item.x - item.r, item.y - item.r],
        [item.x + item.r, item.y + item.r],
      ];
    case "text": {
      const room = textBox(item.text, item.size, item.x, item.y, item.anchor);
      const along = Math.max(item.x - room.x, room.x + room.width - item.x);
      return item.turn === 90 || item.turn === 270
        ? [
            [item.x - item.size, item.y - along],
            [item.x + item.size, item.y + along],
          ]
        : [
            [room.x, item.y - CAPITALS * item.size],
            [room.x + room.width, item.y],
          ];
    }
  }
}

/**
 * The keep-out box: everything drawn and every pin, one module of clearance around it, edges on the module.
 */
function keepOut(symbol: DisplayList, pins: readonly Pin[]): Box {
  const points = [...symbol.flatMap(corners), ...pins.map((pin): XY => [pin.x, pin.y])];
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  const down = (value: number): number => Math.floor(round(value) / MODULE) * MODULE - MODULE;
  const up = (value: number): number => Math.ceil(round(value) / MODULE) * MODULE + MODULE;
  const x = down(Math.min(...xs));
  const y = down(Math.min(...ys));
  return { x, y, width: up(Math.max(...xs)) - x, height: up(Math.max(...ys)) - y };
}

/**
 * A symbol with its pins; the keep-out box is computed. `label` is the base line of the lowest line of text that a
 * sheet writes beside the symbol (further lines stand above it); without one, centred 1 mm above what is drawn.
 */
export function drawn(symbol: DisplayList, pins: readonly Pin[], label?: View["label"]): Drawn {
  const around = keepOut(symbol, pins);
  const ys = symbol.flatMap(corners).map(([, y]) => y);
  const place: View["label"] = label ?? {
    x: around.x + around.width / 2,
    y: round(Math.min(...ys) - 1),
    anchor: "middle",
  };
  // One line of text beside the symbol lies within the box too.
  const top = Math.min(around.y, Math.floor((place.y - LABEL_TEXT) / MODULE) * MODULE);
  return { symbol, pins, box: { ...around, y: top, height: around.height + around.y - top }, label: place };
}

export const view = (id: string, title: string, what: Drawn): View => ({ id, title, ...what });

export const pin = (terminal: string, x: Millimetre, y: Millimetre, side: Pin["side"]): Pin => ({
  terminal,
  x,
  y,
  side,
});

/** Two pins on the x axis, `reach` apart, as nearly every two-terminal symbol has them. */
export const pinPair = (left: string, right: string, reach: Millimetre = 15, y: Millimetre = 0): readonly Pin[] => [
  pin(left, 0, y, "left"),
  pin(right, reach, y, "right"),
];

// --- parts with many terminals -------------------------------------------------------------------------------

/** A pin of a labelled box: a terminal id (its name is written), one with another name, or a gap. */
export type BoxPin = string | { readonly terminal: string; readonly name: string } | null;

export interface BoxOptions {
  /** Leads from box to pin, 5 mm unless told otherwise. */
  readonly lead?: 2.5 | 5;
  /** Drawn in the middle of the box below the title, around (0, 0); `room` is its width and height. */
  readonly glyph?: { readonly list: DisplayList; readonly width: Millimetre; readonly height: Millimetre };
  /** Terminals on the lower side, from left to right (case, chassis). */
  readonly below?: readonly BoxPin[];
  /** At least this wide, in mm. */
  readonly width?: Millimetre;
}

const PIN_TEXT = 1.8;
const upTo = (value: number, step: number): number => Math.ceil(round(value) / step) * step;
const idOf = (entry: Exclude<BoxPin, null>): string => (typeof entry === "string" ? entry : entry.terminal);
const nameOf = (entry: BoxPin): string => (entry === null ? "" : typeof entry === "string" ? entry : entry.name);

/**
 * A rectangle with its title at the top, pin names inside, pins every 5 mm on its left and right sides. The outline's
 * top left corner lies at (lead, 0); left pins at x = 0, the first at y = 7.5 mm.
 */
export function labelledBox(
  pinsLeft: readonly BoxPin[],
  pinsRight: readonly BoxPin[],
  title: string,
  options: BoxOptions = {},
): Drawn {
  const reach = options.lead ?? 5;
  const below = options.below ?? [];
  const glyph = options.glyph;
  const widest = (entries: readonly BoxPin[]): number =>
    Math.max(0, ...entries.map((entry) => textWidth(nameOf(entry), PIN_TEXT)));
  const width = upTo(
    Math.max(
      15,
      options.width ?? 0,
      widest(pinsLeft) + widest(pinsRight) + 4 + (glyph ? glyph.width : 1),
      textWidth(title, 2.5) + 3,
      below.length * 5 + 5,
    ),
    5,
  );
  const rows = Math.max(pinsLeft.length, pinsRight.length, 1);
  const top = title === "" ? 5 : 7.5;
  const height = upTo(
    Math.max(top + (rows - 1) * 5 + (below.length > 0 ? 7.5 : 5), top + (glyph ? glyph.height : 0) + 2.5),
    MODULE,
  );
  const symbol: Primitive[] = [rectangle(reach, 0, width, height)];
  const pins: Pin[] = [];
  if (title !== "") symbol.push(text(reach + width / 2, 3.75, title, 2.5));
  if (glyph) {
    const middle = reach + (width + widest(pinsLeft) - widest(pinsRight)) / 2;
    symbol.push(...moved(glyph.list, round(middle), (top + height - 2.5) / 2));
  }
  for (const [entries, left] of [
    [pinsLeft, true],
    [pinsRight, false],
  ] as const) {
    const edge = left ? reach : reach + width;
    const end = left ? 0 : width + 2 * reach;
    entries.forEach((entry, row) => {
      if (entry === null) return;
      const y = top + row * 5;
      symbol.push(lead(end, y, edge, y));
      symbol.push(text(left ? edge + 1 : edge - 1, y + 0.65, nameOf(entry), PIN_TEXT, left ? "start" : "end"));
      pins.push(pin(idOf(entry), end, y, left ? "left" : "right"));
    });
  }
  below.forEach((entry, column) => {
    if (entry === null) return;
    const x = reach + upTo((width - below.length * 5) / 2, MODULE) + MODULE + column * 5;
    symbol.push(lead(x, height, x, height + reach), text(x, height - 1, nameOf(entry), PIN_TEXT));
    pins.push(pin(idOf(entry), x, height + reach, "down"));
  });
  return drawn(symbol, pins, { x: reach, y: -1, anchor: "start" });
}
