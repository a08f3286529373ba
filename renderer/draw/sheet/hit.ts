/** What lies at a place of the paper, and what lies next in a direction. */
import { containsPoint, inflate } from "../../../core/geometry/boxes.ts";
import type { Point } from "../../../core/geometry/display.ts";
import type { Path } from "../../../core/layout/lines.ts";
import type { WireId } from "../../../core/project/document.ts";
import type { Millimetre } from "../../../core/quantity/kinds.ts";
import type { Scene, ScenePin, SceneView } from "./scene.ts";

export type Hit =
  | { readonly on: "terminal"; readonly pin: ScenePin }
  | { readonly on: "part"; readonly view: SceneView }
  | { readonly on: "wire"; readonly wire: WireId }
  | { readonly on: "paper" };

/** A terminal answers within the reach, but never from farther than this: the symbol itself must stay within grasp. */
const FARTHEST_TERMINAL: Millimetre = 2.2;
const NEAREST_REACH: Millimetre = 1;
/** The keep-out box has a module of clearance round the symbol, of which this much is not its own. */
const CLEARANCE: Millimetre = 1;

/** `reach`: how near counts as at it, mm. */
export function hitAt(scene: Scene, at: Point, reach: Millimetre): Hit {
  const pin = nearestPin(scene, at, Math.min(FARTHEST_TERMINAL, Math.max(NEAREST_REACH, reach)));
  if (pin !== undefined) return { on: "terminal", pin };
  const view = scene.views.findLast(
    ({ box, label }) =>
      containsPoint(inflate(box, -CLEARANCE), at) || (label !== undefined && containsPoint(label, at)),
  );
  if (view !== undefined) return { on: "part", view };
  const wire = nearestWire(scene.routed.paths, at, Math.max(0.8, reach / 2));
  return wire === undefined ? { on: "paper" } : { on: "wire", wire };
}

export function nearestPin(scene: Scene, at: Point, reach: Millimetre): ScenePin | undefined {
  let best: ScenePin | undefined;
  let least = reach;
  for (const pin of scene.pins) {
    const distance = Math.hypot(pin.x - at.x, pin.y - at.y);
    if (distance <= least) [best, least] = [pin, distance];
  }
  return best;
}

function nearestWire(paths: ReadonlyMap<WireId, readonly Path[]>, at: Point, reach: Millimetre): WireId | undefined {
  let best: WireId | undefined;
  let least = reach;
  for (const [wire, lines] of paths)
    for (const line of lines)
      for (let index = 1; index < line.length; index += 1) {
        const distance = distanceToPiece(at, line[index - 1] ?? [0, 0], line[index] ?? [0, 0]);
        if (distance < least) [best, least] = [wire, distance];
      }
  return best;
}

/** Pieces run level or upright. */
function distanceToPiece({ x, y }: Point, a: readonly [number, number], b: readonly [number, number]): Millimetre {
  const nearestX = Math.min(Math.max(x, Math.min(a[0], b[0])), Math.max(a[0], b[0]));
  const nearestY = Math.min(Math.max(y, Math.min(a[1], b[1])), Math.max(a[1], b[1]));
  return Math.hypot(x - nearestX, y - nearestY);
}

export type Direction = readonly [dx: -1 | 0 | 1, dy: -1 | 0 | 1];

/** The next thing that way: near counts, and lying straight ahead counts more. */
export function nextIn<Thing extends Point>(
  things: readonly Thing[],
  from: Point,
  [dx, dy]: Direction,
): Thing | undefined {
  let best: Thing | undefined;
  let least = Infinity;
  for (const thing of things) {
    const along = (thing.x - from.x) * dx + (thing.y - from.y) * dy;
    const aside = Math.abs((thing.x - from.x) * dy) + Math.abs((thing.y - from.y) * dx);
    if (along <= 0.01 || aside > 4 * along) continue;
    const cost = along + 2 * aside;
    if (cost < least) [best, least] = [thing, cost];
  }
  return best;
}
