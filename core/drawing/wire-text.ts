/**
 * Where a wire's number, size and colour are written: beside a straight piece of its line, clear of parts, texts and
 * other lines; on the line itself (the line is interrupted) where there is no room beside it.
 */
import { inflate, overlap } from "../geometry/boxes.ts";
import type { Box } from "../geometry/display.ts";
import { CAPITALS, textWidth } from "../geometry/text-widths.ts";
import type { Path } from "../layout/lines.ts";
import { clipText, lineBox, type TextLine } from "../layout/text-line.ts";
import type { Wire, WireId } from "../project/document.ts";

export interface WireText {
  readonly wire: WireId;
  readonly line: TextLine;
  /** The line is interrupted behind the text. */
  readonly onLine: boolean;
}

/** What a text must not cover. */
export interface Surroundings {
  readonly paths: ReadonlyMap<WireId, readonly Path[]>;
  readonly parts: readonly Box[];
  readonly texts: readonly Box[];
  readonly area: Box;
}

interface Piece {
  readonly wire: WireId;
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
  readonly level: boolean;
}

const SIZE = 2.5;
const GAP = 0.8;
const CLEAR = 0.3;

/** "W12 35 mm² BK": number, size, colour. */
function wireWords(wire: Wire): readonly [full: string, numbered: string] {
  const number = clipText(wire.number === "" ? wire.id : wire.number, SIZE, 30);
  const size = typeof wire.size === "string" ? wire.size.replace(/\bmm2\b/, "mm²") : "";
  const colour = typeof wire.colour === "string" ? wire.colour : "";
  return [clipText([number, size, colour].filter((word) => word !== "").join(" "), SIZE, 60), number];
}

/** A text for every wire that shows. Wires with the least room choose first. */
export function placeWireTexts(wires: readonly Wire[], around: Surroundings): readonly WireText[] {
  const pieces = [...around.paths].flatMap(([wire, lines]) => lines.flatMap((line) => piecesOf(wire, line)));
  const lookup = new PieceLookup(pieces, around.area);
  const taken = new Squares<Box>(around.area);
  for (const box of around.texts) taken.add(box, box);
  const parts = new Squares<Box>(around.area);
  for (const box of around.parts) parts.add(box, box);
  const scene: Scene = { lookup, taken, parts, area: around.area };
  const longest = (id: WireId): number =>
    Math.max(0, ...lookup.of(id).map((piece) => Math.abs(piece.x2 - piece.x1) + Math.abs(piece.y2 - piece.y1)));
  const order = wires
    .filter((wire) => around.paths.has(wire.id))
    .map((wire, index) => ({ wire, index, room: longest(wire.id) }))
    .sort((a, b) => a.room - b.room || a.index - b.index);
  return order.flatMap(({ wire }) => {
    const best = bestPlace(wire, scene);
    if (best === undefined) return [];
    const room = lineBox(best.line);
    taken.add(room, room);
    return [best];
  });
}

function piecesOf(wire: WireId, line: Path): readonly Piece[] {
  return line.slice(1).map(([x2, y2], index) => {
    const [x1, y1] = line[index] ?? [x2, y2];
    return {
      wire,
      x1: Math.min(x1, x2),
      y1: Math.min(y1, y2),
      x2: Math.max(x1, x2),
      y2: Math.max(y1, y2),
      level: y1 === y2,
    };
  });
}

const SQUARE = 20;

/** Things by the 20 mm squares that they touch. */
class Squares<T> {
  readonly #cells = new Map<string, T[]>();
  readonly #area: Box;

  /** What lies beyond the area counts as lying at its edge. */
  constructor(area: Box) {
    this.#area = area;
  }

  add(thing: T, box: Box): void {
    for (const key of this.#keys(box)) push(this.#cells, key, thing);
  }

  near(box: Box): ReadonlySet<T> {
    const found = new Set<T>();
    for (const key of this.#keys(box)) for (const thing of this.#cells.get(key) ?? []) found.add(thing);
    return found;
  }

  #keys({ x, y, width, height }: Box): readonly string[] {
    const cell = (value: number, from: number, length: number): number =>
      Math.floor(Math.min(Math.max(value - from, 0), length) / SQUARE);
    const { x: left, y: top, width: wide, height: high } = this.#area;
    const keys: string[] = [];
    for (let i = cell(x, left, wide); i <= cell(x + width, left, wide); i += 1)
      for (let j = cell(y, top, high); j <= cell(y + height, top, high); j += 1) keys.push(`${String(i)} ${String(j)}`);
    return keys;
  }
}

/** Pieces by wire, and those that meet a box. */
class PieceLookup {
  readonly #byWire = new Map<WireId, Piece[]>();
  readonly #squares: Squares<Piece>;

  constructor(pieces: readonly Piece[], area: Box) {
    this.#squares = new Squares(area);
    for (const piece of pieces) {
      push(this.#byWire, piece.wire, piece);
      const { x1: x, y1: y, x2, y2 } = piece;
      this.#squares.add(piece, { x, y, width: x2 - x, height: y2 - y });
    }
  }

  of(wire: WireId): readonly Piece[] {
    return this.#byWire.get(wire) ?? [];
  }

  meeting(box: Box): readonly Piece[] {
    return [...this.#squares.near(box)].filter(
      (piece) =>
        piece.x1 <= box.x + box.width && piece.x2 >= box.x && piece.y1 <= box.y + box.height && piece.y2 >= box.y,
    );
  }
}

function push<K, V>(map: Map<K, V[]>, key: K, value: V): void {
  const list = map.get(key);
  if (list === undefined) map.set(key, [value]);
  else list.push(value);
}

interface Scene {
  readonly lookup: PieceLookup;
  readonly taken: Squares<Box>;
  readonly parts: Squares<Box>;
  readonly area: Box;
}

function bestPlace(wire: Wire, scene: Scene): WireText | undefined {
  let best: WireText | undefined;
  let least = Infinity;
  const [full, numbered] = wireWords(wire);
  const consider = (line: TextLine, onLine: boolean, price: number): void => {
    if (price >= least) return;
    const total = price + disturbance(wire.id, line, onLine, scene, least - price);
    if (total >= least) return;
    least = total;
    best = { wire: wire.id, line, onLine };
  };
  for (const words of full === numbered ? [full] : [full, numbered])
    for (const piece of scene.lookup.of(wire.id)) candidates(piece, words, words === full ? 0 : 4, consider);
  return best;
}

function candidates(
  piece: Piece,
  words: string,
  shorter: number,
  consider: (line: TextLine, onLine: boolean, price: number) => void,
): void {
  const width = textWidth(words, SIZE);
  const from = piece.level ? piece.x1 : piece.y1;
  const to = piece.level ? piece.x2 : piece.y2;
  const room = to - from;
  if (room <= 0) return;
  const spare = Math.max(0, room - width);
  const places = spare > 8 ? [0, 0.15, -0.15, 0.3, -0.3, 0.45, -0.45] : [0, 0.3, -0.3];
  const standing = piece.level ? 0 : 1.5;
  const over = room < width + 2 ? 2 + 0.15 * (width + 2 - room) : 0;
  for (const place of places) {
    const at = (from + to) / 2 + place * spare;
    const price = shorter + standing + over + Math.abs(place) * 1.5 + 20 / (20 + room);
    const level = (y: number): TextLine => ({ text: words, size: SIZE, anchor: "middle", x: at, y });
    const upright = (x: number): TextLine => ({ text: words, size: SIZE, anchor: "middle", x, y: at, turn: 270 });
    if (piece.level) {
      consider(level(piece.y1 - GAP), false, price);
      consider(level(piece.y1 + GAP + CAPITALS * SIZE), false, price + 0.5);
      if (room > width + 1) consider(level(piece.y1 + (CAPITALS / 2) * SIZE), true, price + 3);
    } else {
      consider(upright(piece.x1 - GAP), false, price);
      consider(upright(piece.x1 + GAP + CAPITALS * SIZE), false, price + 0.5);
      if (room > width + 1) consider(upright(piece.x1 + (CAPITALS / 2) * SIZE), true, price + 3);
    }
  }
}

function disturbance(
  wire: WireId,
  line: TextLine,
  onLine: boolean,
  { lookup, taken, parts, area }: Scene,
  limit: number,
): number {
  const box = inflate(lineBox(line), CLEAR);
  let price = 0;
  if (
    box.x < area.x ||
    box.y < area.y ||
    box.x + box.width > area.x + area.width ||
    box.y + box.height > area.y + area.height
  )
    price += 60;
  for (const other of taken.near(box)) if (overlap(box, other)) price += 40;
  if (price > limit) return price;
  for (const part of parts.near(box)) if (overlap(box, part)) price += 25;
  if (price > limit) return price;
  for (const piece of lookup.meeting(box)) {
    if (piece.wire === wire && onLine) continue;
    price += piece.wire === wire ? 6 : onLine ? 30 : 12;
  }
  // Beside a line that several wires share, the number would stand for none of them.
  if (!onLine) {
    const beside = 2.2;
    const probe = { x: box.x + box.width / 2 - 0.1, y: box.y + box.height / 2 - 0.1, width: 0.2, height: 0.2 };
    const reach =
      line.turn === 270
        ? { ...probe, x: probe.x - beside, width: 2 * beside }
        : { ...probe, y: probe.y - beside, height: 2 * beside };
    for (const piece of lookup.meeting(reach))
      if (piece.wire !== wire && piece.level === (line.turn !== 270)) price += 5;
  }
  return price;
}
