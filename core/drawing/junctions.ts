/** Dots where three or more lines of one net meet. Plain crossings get none (IEC 61082-1, memory). */
import type { Point } from "../geometry/display.ts";
import type { Path } from "../layout/lines.ts";
import type { WireId } from "../project/document.ts";

const [WEST, EAST, NORTH, SOUTH] = [1, 2, 4, 8];

/** Places of the dots, in reading order. */
export function junctionDots(
  paths: ReadonlyMap<WireId, readonly Path[]>,
  nets: ReadonlyMap<WireId, number>,
): readonly Point[] {
  const byNet = new Map<number, Path[]>();
  for (const [wire, lines] of paths) {
    const net = nets.get(wire) ?? 0;
    byNet.set(net, [...(byNet.get(net) ?? []), ...lines]);
  }
  const dots: Point[] = [];
  for (const lines of byNet.values()) {
    if (lines.length < 2) continue;
    const seen = new Set<string>();
    for (const line of lines)
      for (const [x, y] of line) {
        const key = `${String(x)} ${String(y)}`;
        if (seen.has(key)) continue;
        seen.add(key);
        if (directions(lines, x, y) >= 3) dots.push({ x, y });
      }
  }
  return dots.sort((a, b) => a.y - b.y || a.x - b.x);
}

function directions(lines: readonly Path[], x: number, y: number): number {
  let met = 0;
  for (const line of lines)
    for (let index = 1; index < line.length; index += 1) {
      const [ax, ay] = line[index - 1] ?? [0, 0];
      const [bx, by] = line[index] ?? [0, 0];
      if (ay === by && y === ay && x >= Math.min(ax, bx) && x <= Math.max(ax, bx)) {
        if (x > Math.min(ax, bx)) met |= WEST;
        if (x < Math.max(ax, bx)) met |= EAST;
      } else if (ax === bx && x === ax && y >= Math.min(ay, by) && y <= Math.max(ay, by)) {
        if (y > Math.min(ay, by)) met |= NORTH;
        if (y < Math.max(ay, by)) met |= SOUTH;
      }
    }
  return [WEST, EAST, NORTH, SOUTH].filter((bit) => (met & bit) !== 0).length;
}
