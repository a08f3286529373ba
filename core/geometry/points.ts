/** Points in millimetres, y down. */
import type { Point } from "./display.ts";
import type { Millimetre } from "../quantity/kinds.ts";

/** Every pin and every bend of a wire lies on a multiple of this (module of IEC 61082 and IEC 60617 sheets). */
export const GRID: Millimetre = 2.5;

export function add(a: Point, b: Point): Point {
  return { x: a.x + b.x, y: a.y + b.y };
}

export function subtract(a: Point, b: Point): Point {
  return { x: a.x - b.x, y: a.y - b.y };
}

/** Straight-line distance. */
export function distance(a: Point, b: Point): Millimetre {
  return Math.hypot(a.x - b.x, a.y - b.y);
}

export function samePoint(a: Point, b: Point): boolean {
  return a.x === b.x && a.y === b.y;
}

/** The nearest point of the grid; halves go down and right. */
export function snap(point: Point, grid: Millimetre = GRID): Point {
  // + 0 turns a negative zero into zero, which would print as "-0" in a file.
  return { x: Math.round(point.x / grid) * grid + 0, y: Math.round(point.y / grid) * grid + 0 };
}
