/** Between the paper's millimetres and the canvas: at 100 % a millimetre is four pixels. */
import type { Box, Point } from "../../../core/geometry/display.ts";
import type { Millimetre } from "../../../core/quantity/kinds.ts";

export const PIXELS_PER_MM = 4;

export const toPixels = (length: Millimetre): number => length * PIXELS_PER_MM;

export const toMillimetres = ({ x, y }: { readonly x: number; readonly y: number }): Point => ({
  x: x / PIXELS_PER_MM,
  y: y / PIXELS_PER_MM,
});

/** As an SVG's viewBox, so that what is inside it is written in the paper's millimetres. */
export const viewBoxOf = ({ x, y, width, height }: Box): string => [x, y, width, height].join(" ");

/** Place and size of a box on the canvas. */
export const placeOf = ({
  x,
  y,
  width,
  height,
}: Box): { left: number; top: number; width: number; height: number } => ({
  left: toPixels(x),
  top: toPixels(y),
  width: toPixels(width),
  height: toPixels(height),
});
