/**
 * The eight ways in which a symbol can lie on a sheet: mirrored left-right first, then turned clockwise, then moved.
 * Texts follow their anchor but are never mirrored nor upside down: they read from the foot of the sheet or from
 * its right-hand side (the reading directions of IEC 61082-1, from memory).
 */
import { boxAround, corners } from "./boxes.ts";
import type { Box, DisplayList, Point, Primitive } from "./display.ts";
import { CAPITALS } from "./text-widths.ts";
import type { Millimetre } from "../quantity/kinds.ts";

export interface Placement extends Point {
  readonly turn: 0 | 90 | 180 | 270;
  readonly mirrored: boolean;
}

export type Side = "left" | "right" | "up" | "down";
type Text = Extract<Primitive, { draw: "text" }>;

const CLOCKWISE: readonly Side[] = ["right", "down", "left", "up"];

/** Where a point of a symbol comes to lie on the sheet. */
export function placePoint(point: Point, placement: Placement): Point {
  const x = placement.mirrored ? -point.x : point.x;
  const turned = turnedPoint(x, point.y, placement.turn);
  // + 0 turns a negative zero into zero.
  return { x: placement.x + turned.x + 0, y: placement.y + turned.y + 0 };
}

function turnedPoint(x: Millimetre, y: Millimetre, turn: Placement["turn"]): Point {
  if (turn === 90) return { x: -y, y: x };
  if (turn === 180) return { x: -x, y: -y };
  if (turn === 270) return { x: y, y: -x };
  return { x, y };
}

/** The point of a symbol that comes to lie at a point of the sheet: undoes `placePoint`. */
export function unplacePoint(point: Point, placement: Placement): Point {
  const back = (360 - placement.turn) % 360;
  const turned = turnedPoint(point.x - placement.x, point.y - placement.y, back as Placement["turn"]);
  return { x: (placement.mirrored ? -turned.x : turned.x) + 0, y: turned.y + 0 };
}

export function placeBox(box: Box, placement: Placement): Box {
  return boxAround(corners(box).map((corner) => placePoint(corner, placement))) ?? box;
}

/** The side to which a pin points once its symbol is placed. */
export function placeSide(side: Side, placement: Placement): Side {
  const mirrored =
    placement.mirrored && side === "left" ? "right" : placement.mirrored && side === "right" ? "left" : side;
  const quarter = (CLOCKWISE.indexOf(mirrored) + placement.turn / 90) % 4;
  return CLOCKWISE[quarter] ?? side;
}

/** A whole symbol, placed. The list given is not changed. */
export function place(list: DisplayList, placement: Placement): DisplayList {
  return list.map((primitive) => placePrimitive(primitive, placement));
}

function placePrimitive(primitive: Primitive, placement: Placement): Primitive {
  switch (primitive.draw) {
    case "line": {
      const { blade: _blade, ...line } = primitive;
      return {
        ...line,
        points: primitive.points.map(([x, y]) => {
          const placed = placePoint({ x, y }, placement);
          return [placed.x, placed.y] as const;
        }),
      };
    }
    case "circle":
      return { ...primitive, ...placePoint(primitive, placement) };
    case "arc": {
      // Mirroring turns the sense of the arc: from and to change places.
      const [from, to] = placement.mirrored
        ? [180 - primitive.to, 180 - primitive.from]
        : [primitive.from, primitive.to];
      const sweep = to - from;
      const start = (((from + placement.turn) % 360) + 360) % 360;
      return { ...primitive, ...placePoint(primitive, placement), from: start, to: start + sweep };
    }
    case "text":
      return placeText(primitive, placement);
  }
}

/**
 * A text's line runs towards some side; after placing, that side is kept if it reads to the right or upwards;
 * otherwise the line is turned round and its anchor changed to the other end, so that it stays in the same room
 * along its line. Across its line it is moved by the height of capitals.
 */
function placeText(text: Text, placement: Placement): Primitive {
  const own: Side = CLOCKWISE[(text.turn ?? 0) / 90] ?? "right";
  const runs = placeSide(own, placement);
  const at = placePoint(text, placement);
  const readable: Side = runs === "left" || runs === "right" ? "right" : "up";
  const anchor = text.anchor ?? "start";
  const turned: Text["anchor"] = anchor === "start" ? "end" : anchor === "end" ? "start" : "middle";
  const up = placeSide(upOf(own), placement);
  const shift = up === upOf(readable) ? 0 : CAPITALS * text.size;
  const down = SIDE_VECTOR[oppositeOf(upOf(readable))];
  return {
    ...text,
    x: at.x + down.x * shift + 0,
    y: at.y + down.y * shift + 0,
    anchor: runs === readable ? anchor : turned,
    turn: readable === "right" ? 0 : 270,
  };
}

const SIDE_VECTOR: Readonly<Record<Side, Point>> = {
  right: { x: 1, y: 0 },
  down: { x: 0, y: 1 },
  left: { x: -1, y: 0 },
  up: { x: 0, y: -1 },
};

/** Where the top of the letters points when the line runs towards `side`. */
function upOf(side: Side): Side {
  return CLOCKWISE[(CLOCKWISE.indexOf(side) + 3) % 4] ?? side;
}

function oppositeOf(side: Side): Side {
  return CLOCKWISE[(CLOCKWISE.indexOf(side) + 2) % 4] ?? side;
}
