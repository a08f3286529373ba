/** Upright boxes in millimetres, y down: x and y are the top left corner. */
import type { Box, Point } from "./display.ts";
import type { Millimetre } from "../quantity/kinds.ts";

/** The smallest box around the points; undefined around none. */
export function boxAround(points: readonly Point[]): Box | undefined {
  if (points.length === 0) return undefined;
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of points) {
    left = Math.min(left, x);
    top = Math.min(top, y);
    right = Math.max(right, x);
    bottom = Math.max(bottom, y);
  }
  return { x: left, y: top, width: right - left, height: bottom - top };
}

export function corners(box: Box): readonly [Point, Point, Point, Point] {
  const right = box.x + box.width;
  const bottom = box.y + box.height;
  return [
    { x: box.x, y: box.y },
    { x: right, y: box.y },
    { x: right, y: bottom },
    { x: box.x, y: bottom },
  ];
}

/** The smallest box that holds all of them; undefined for none. */
export function union(boxes: readonly Box[]): Box | undefined {
  return boxAround(boxes.flatMap((box) => corners(box)));
}

/** True when they share an area, or come closer than `gap`. Boxes that only touch do not overlap. */
export function overlap(a: Box, b: Box, gap: Millimetre = 0): boolean {
  return (
    a.x < b.x + b.width + gap && b.x < a.x + a.width + gap && a.y < b.y + b.height + gap && b.y < a.y + a.height + gap
  );
}

/** Wider by `by` on every side; a negative `by` shrinks it, never below nothing. */
export function inflate(box: Box, by: Millimetre): Box {
  const width = Math.max(0, box.width + 2 * by);
  const height = Math.max(0, box.height + 2 * by);
  return { x: box.x + (box.width - width) / 2, y: box.y + (box.height - height) / 2, width, height };
}

/** The edge belongs to the box. */
export function containsPoint(box: Box, point: Point): boolean {
  return point.x >= box.x && point.x <= box.x + box.width && point.y >= box.y && point.y <= box.y + box.height;
}

export function containsBox(outer: Box, inner: Box): boolean {
  return corners(inner).every((corner) => containsPoint(outer, corner));
}

export function centre(box: Box): Point {
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
}

export function moveBox(box: Box, by: Point): Box {
  return { x: box.x + by.x, y: box.y + by.y, width: box.width, height: box.height };
}
