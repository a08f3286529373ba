/**
 * Ends of wires that go on elsewhere: a short line out of the terminal and, at its tip, the sheet and zone where the
 * wire goes on ("2/B4"), or what is known of an end that is drawn nowhere. Several such wires at one terminal share
 * the line; their numbers and places are then listed at its tip.
 */
import { containsBox, overlap, union } from "../geometry/boxes.ts";
import type { Box } from "../geometry/display.ts";
import type { Side } from "../geometry/placements.ts";
import type { WireId } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import type { PlacedPin } from "./placed-view.ts";
import { lineBox, type TextLine } from "./text-line.ts";

export interface Stub {
  readonly path: readonly (readonly [Millimetre, Millimetre])[];
  readonly texts: readonly (TextLine & { readonly wire: WireId })[];
  /** False where the wire's number still wants a place beside the line. */
  readonly numbered: boolean;
  /** Room that the stub needs: its texts, and its number's place. */
  readonly rooms: readonly Box[];
}

export interface Leaving {
  readonly wire: WireId;
  readonly number: string;
  /** "2/B4" */
  readonly place: string;
}

type Way = readonly [out: number, aside: number, more: number];

/** How far a stub goes straight out, then aside, then out again, mm: the first way that is clear is taken. */
const STRAIGHT: readonly Way[] = [
  [7.5, 0, 0],
  [10, 0, 0],
  [5, 0, 0],
];
const ASIDE: readonly Way[] = [5, 10, 15, 20, 25, 30, 35].flatMap((aside): Way[] => [
  [5, aside, 7.5],
  [5, -aside, 7.5],
]);
const FAR: readonly Way[] = [
  [15, 0, 0],
  [20, 0, 0],
];

interface StubRoom {
  readonly area: Box;
  readonly obstacles: readonly Box[];
  /** True where no line of this net can go. */
  readonly taken: (x: Millimetre, y: Millimetre) => boolean;
  /** True where another line runs through the box. */
  readonly crossed: (box: Box) => boolean;
}

/** A stub out of the pin; aside where other wires leave the same pin. */
export function stubAt(pin: PlacedPin, leaving: readonly Leaving[], shared: boolean, room: StubRoom): Stub {
  const ways = shared ? [...ASIDE, ...STRAIGHT, ...FAR] : [...STRAIGHT, ...ASIDE, ...FAR];
  let best = stubOn(pin, leaving, ways[0] ?? [7.5, 0, 0]);
  let fewest = Infinity;
  for (const way of ways) {
    const stub = stubOn(pin, leaving, way);
    const count = conflicts(stub, room);
    if (count >= fewest) continue;
    [best, fewest] = [stub, count];
    if (count === 0) break;
  }
  return best;
}

/** What stands in its way, weighed: a covered text is worst, a plain crossing of lines hardly matters. */
function conflicts(stub: Stub, room: StubRoom): number {
  let count = 0;
  stub.rooms.forEach((box, index) => {
    const weight = index === 0 ? 12 : 3;
    if (!containsBox(room.area, box)) count += 20;
    count += weight * room.obstacles.filter((other) => overlap(box, other, 0.3)).length;
    if (room.crossed(box)) count += weight;
  });
  for (const piece of pieces(stub)) {
    count += 8 * room.obstacles.filter((other) => overlap(piece, other, 0.2)).length;
    for (let x = piece.x; x <= piece.x + piece.width; x += 2.5)
      for (let y = piece.y; y <= piece.y + piece.height; y += 2.5) if (room.taken(x, y)) count += 1;
  }
  for (const [x, y] of stub.path.slice(1)) if (room.taken(x, y)) count += 5;
  return count;
}

/** The line beyond its first piece, which leaves the part itself. */
function pieces(stub: Stub): readonly Box[] {
  return stub.path.slice(2).map(([x, y], index) => {
    const [bx, by] = stub.path[index + 1] ?? [x, y];
    return { x: Math.min(x, bx), y: Math.min(y, by), width: Math.abs(x - bx), height: Math.abs(y - by) };
  });
}

const OUT: Readonly<Record<Side, readonly [number, number]>> = {
  left: [-1, 0],
  right: [1, 0],
  up: [0, -1],
  down: [0, 1],
};
const SIZE = 2.5;
/** Base line to base line of listed wires, mm. */
const PITCH: Millimetre = 3.2;

/** What is written at the tip for each wire: its number too, where there are several. */
export const stubTexts = (leaving: readonly Leaving[]): readonly string[] =>
  leaving.map(({ number, place }) => (leaving.length > 1 ? `${number} ${place}` : place));

function stubOn(pin: PlacedPin, leaving: readonly Leaving[], [out, aside, more]: Way): Stub {
  const [dx, dy] = OUT[pin.side];
  const path: [number, number][] = [[pin.x, pin.y]];
  let [x, y] = [pin.x + dx * out, pin.y + dy * out];
  path.push([x, y]);
  if (aside !== 0) {
    x += Math.abs(dy) * aside;
    y += Math.abs(dx) * aside;
    path.push([x, y]);
    x += dx * more;
    y += dy * more;
    path.push([x, y]);
  }
  const listed = leaving.length > 1;
  const gap = 1;
  const words = stubTexts(leaving);
  const texts = leaving.map(({ wire }, index) => {
    const text = words[index] ?? "";
    const shift = (index - (leaving.length - 1) / 2) * PITCH + 0.9;
    return dx !== 0
      ? ({ wire, text, x: x + dx * gap, y: y + shift, size: SIZE, anchor: dx > 0 ? "start" : "end" } as const)
      : ({
          wire,
          text,
          x: x + shift,
          y: y + dy * gap,
          size: SIZE,
          anchor: dy > 0 ? "end" : "start",
          turn: 270,
        } as const);
  });
  // The last 4.5 mm of the line, 3 mm high.
  const numberRoom = {
    x: dx > 0 ? x - 4.5 : dx < 0 ? x : x - 3,
    y: dy > 0 ? y - 4.5 : dy < 0 ? y : y - 3,
    width: dx !== 0 ? 4.5 : 2.8,
    height: dy !== 0 ? 4.5 : 2.8,
  };
  const written = union(texts.map(lineBox));
  return {
    path,
    texts,
    numbered: listed,
    rooms: [...(written === undefined ? [] : [written]), ...(listed ? [] : [numberRoom])],
  };
}
