/** Where the red pen points on a sheet: beside a terminal, at the corner of a part, at the middle of a wire. */
import { inflate } from "../geometry/boxes.ts";
import type { Point } from "../geometry/display.ts";
import type { Side } from "../geometry/placements.ts";
import type { Path } from "../layout/lines.ts";
import type { PlacedView } from "../layout/placed-view.ts";
import type { RoutedSheet } from "../layout/route.ts";

/** mm from the paper's top left. */
export interface PenAnchor extends Point {
  readonly on: "terminal" | "part" | "wire";
  /** Where a wire leaves a terminal. */
  readonly side?: Side;
}

/** By key: "p12" a part, "p12:+" a terminal, "w3" a wire; undefined where the sheet does not have it. */
export function penAnchors(
  shown: readonly PlacedView[],
  paths: RoutedSheet["paths"],
): (key: string) => PenAnchor | undefined {
  const views = new Map(shown.toReversed().map((view) => [view.part.id, view]));
  const pins = new Map(shown.flatMap(({ part, pins }) => pins.map((pin) => [`${part.id}:${pin.terminal}`, pin])));
  return (key) => {
    const pin = pins.get(key);
    if (pin !== undefined) return { x: pin.x, y: pin.y, on: "terminal", side: pin.side };
    const view = views.get(key);
    if (view !== undefined) {
      const { x, y, width } = inflate(view.box, -0.9);
      return { x: x + width, y, on: "part" };
    }
    const [line] = paths.get(key) ?? [];
    return line === undefined ? undefined : { ...halfWay(line), on: "wire" };
  };
}

function halfWay(line: Path): Point {
  const lengths = line
    .slice(1)
    .map(([x, y], index) => Math.hypot(x - (line[index]?.[0] ?? x), y - (line[index]?.[1] ?? y)));
  let left = lengths.reduce((sum, length) => sum + length, 0) / 2;
  for (const [index, length] of lengths.entries()) {
    const [a, b] = [line[index], line[index + 1]];
    if (a === undefined || b === undefined) break;
    if (left <= length) {
      const part = length === 0 ? 0 : left / length;
      return { x: a[0] + (b[0] - a[0]) * part, y: a[1] + (b[1] - a[1]) * part };
    }
    left -= length;
  }
  const [x = 0, y = 0] = line[0] ?? [];
  return { x, y };
}
