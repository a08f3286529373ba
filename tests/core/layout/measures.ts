/** What is asked of routed sheets, measured independently of the router. */
import type { Box } from "../../../core/geometry/display.ts";
import { placedViews } from "../../../core/layout/placed-view.ts";
import type { Path } from "../../../core/layout/lines.ts";
import type { RoutedSheet } from "../../../core/layout/route.ts";
import type { Project, SheetId } from "../../../core/project/document.ts";

export interface Piece {
  readonly wire: string;
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

export function pieces(paths: RoutedSheet["paths"]): readonly Piece[] {
  return [...paths].flatMap(([wire, lines]) =>
    lines.flatMap((line) =>
      line.slice(1).map(([x2, y2], index) => {
        const [x1 = 0, y1 = 0] = line[index] ?? [];
        return { wire, x1, y1, x2, y2 };
      }),
    ),
  );
}

export const bends = (line: Path): number => Math.max(0, line.length - 2);

export function averageBends(paths: RoutedSheet["paths"]): number {
  const counts = [...paths.values()].flat().map(bends);
  return counts.reduce((sum, count) => sum + count, 0) / Math.max(1, counts.length);
}

/** Wires with a piece inside a keep-out box, other than the way from a pin straight out of its own box. */
export function throughParts(project: Project, sheet: SheetId, paths: RoutedSheet["paths"]): readonly string[] {
  const views = placedViews(project, sheet);
  return pieces(paths).flatMap((piece) =>
    views.flatMap((view) => {
      if (!inside(piece, view.box)) return [];
      const lead = view.pins.some((pin) => {
        const out =
          pin.side === "left" || pin.side === "right"
            ? piece.y1 === pin.y && piece.y2 === pin.y
            : piece.x1 === pin.x && piece.x2 === pin.x;
        const starts = (piece.x1 === pin.x && piece.y1 === pin.y) || (piece.x2 === pin.x && piece.y2 === pin.y);
        return out && starts;
      });
      return lead ? [] : [`${piece.wire} through ${view.part.designation}`];
    }),
  );
}

function inside(piece: Piece, box: Box): boolean {
  return (
    Math.max(piece.x1, piece.x2) > box.x &&
    Math.min(piece.x1, piece.x2) < box.x + box.width &&
    Math.max(piece.y1, piece.y2) > box.y &&
    Math.min(piece.y1, piece.y2) < box.y + box.height
  );
}

/** Length on which wires of different nets lie on each other, as a part of the whole length. */
export function sharedTrack({ paths, nets }: RoutedSheet): number {
  const owners = new Map<string, Set<number>>();
  let whole = 0;
  let shared = 0;
  for (const { wire, x1, y1, x2, y2 } of pieces(paths)) {
    const steps = Math.round((Math.abs(x2 - x1) + Math.abs(y2 - y1)) / 2.5);
    for (let step = 0; step < steps; step += 1) {
      const at = (step + 0.5) / steps;
      const key = `${x1 + (x2 - x1) * at} ${y1 + (y2 - y1) * at}`;
      const there = owners.get(key) ?? new Set<number>();
      const net = nets.get(wire) ?? 0;
      whole += 1;
      if (there.size > 0 && !there.has(net)) shared += 1;
      there.add(net);
      owners.set(key, there);
    }
  }
  return whole === 0 ? 0 : shared / whole;
}
