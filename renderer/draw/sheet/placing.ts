/** Putting parts on the paper: where the views of a kind come to lie, and where there is room for them. */
import { boxAround, containsBox, moveBox, overlap, union } from "../../../core/geometry/boxes.ts";
import type { Box, Point } from "../../../core/geometry/display.ts";
import { placeBox } from "../../../core/geometry/placements.ts";
import { GRID, snap } from "../../../core/geometry/points.ts";
import { frameOf, titleBlockOf } from "../../../core/layout/paper.ts";
import { placedView } from "../../../core/layout/placed-view.ts";
import type { PlacedView } from "../../../core/layout/placed-view.ts";
import type { Path } from "../../../core/layout/lines.ts";
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { View } from "../../../core/parts/define.ts";
import { addPart } from "../../../core/project/commands/add-part.ts";
import { moveView } from "../../../core/project/commands/move-view.ts";
import { turnView } from "../../../core/project/commands/turn-view.ts";
import { nextDesignation } from "../../../core/project/designation.ts";
import type { Part, PartId, Project, SheetId } from "../../../core/project/document.ts";
import { knownPart, partById } from "../../../core/project/lookup.ts";
import type { EditorStore } from "../../window/editor-store.ts";
import type { Placing } from "./drawing-state.ts";
import type { Scene } from "./scene.ts";

/** Between the views of one part, and round a part that looks for room, mm. */
const BETWEEN = 10;

/** What is being placed, as it would stand at this place: its views side by side, the first one's origin there. */
export function placedAt(project: Project, placing: Placing, sheet: SheetId, at: Point): readonly PlacedView[] {
  const part = partOf(project, placing);
  const known = part === undefined ? undefined : knownPart(part, KINDS);
  if (part === undefined || known === undefined) return [];
  const views = known.views().filter(({ id }) => placing.what === "kind" || id === placing.view);
  const origin = snap(at);
  let right: number | undefined;
  return views.map((view) => {
    const x = right === undefined ? origin.x : Math.ceil((right + BETWEEN - boxOf(view, placing).x) / GRID) * GRID;
    const box = moveBox(boxOf(view, placing), { x, y: origin.y });
    right = box.x + box.width;
    const { turn, mirrored } = placing;
    return placedView(part, known, view, { view: view.id, sheet, x, y: origin.y, turn, mirrored });
  });
}

/** A part from the shelf is named as it will be. */
function partOf(project: Project, placing: Placing): Part | undefined {
  if (placing.what === "view") return partById(project, placing.part);
  const kind = KINDS.get(placing.kind);
  if (kind === undefined) return undefined;
  return { id: "", designation: nextDesignation(project, kind.letter), kind: kind.kind, parameters: {}, views: [] };
}

const boxOf = ({ box }: View, { turn, mirrored }: Placing): Box => placeBox(box, { x: 0, y: 0, turn, mirrored });

/** The place nearest to `wanted` at which it covers nothing and lies inside the frame; `wanted` where there is none. */
export function freePlace(project: Project, placing: Placing, scene: Scene, wanted: Point): Point {
  const origin = snap(wanted);
  const room = union(placedAt(project, placing, scene.sheet.id, { x: 0, y: 0 }).map(({ box }) => box));
  if (room === undefined) return origin;
  const frame = frameOf(scene.sheet);
  const taken = [
    ...scene.views.map((view) => view.room),
    titleBlockOf(scene.sheet),
    ...[...scene.routed.paths.values()].flatMap((lines) => lines.flatMap(pieceBoxes)),
  ];
  const isFree = (at: Point): boolean => {
    const box = moveBox(room, at);
    return containsBox(frame, box) && !taken.some((other) => overlap(box, other, GRID));
  };
  for (let ring = 0; ring <= RINGS; ring += 1)
    for (const [dx, dy] of ringOf(ring)) {
      const at = { x: origin.x + dx * 2 * GRID, y: origin.y + dy * 2 * GRID };
      if (isFree(at)) return at;
    }
  return origin;
}

/** Rings of two grid steps that are looked through: farther than the paper is wide. */
const RINGS = 60;

const pieceBoxes = (line: Path): readonly Box[] =>
  line.slice(1).flatMap((to, index) => {
    const from = line[index] ?? to;
    return boxAround([from, to].map(([x, y]) => ({ x, y }))) ?? [];
  });

/** Steps of a square ring, those to the right first. */
function ringOf(ring: number): readonly (readonly [number, number])[] {
  if (ring === 0) return [[0, 0]];
  const along = Array.from({ length: 2 * ring + 1 }, (_, index) => index - ring).sort(
    (a, b) => Math.abs(a) - Math.abs(b),
  );
  return along.flatMap((step): (readonly [number, number])[] => [
    [ring, step],
    [step, ring],
    [-ring, step],
    [step, -ring],
  ]);
}

/** Puts it there. Gives the part's id; undefined where the command was refused. */
export function putDown(store: EditorStore, placing: Placing, sheet: SheetId, at: Point): PartId | undefined {
  const views = placedAt(store.project, placing, sheet, at).map(({ place }) => place);
  if (placing.what === "kind") return store.perform(addPart, { kind: placing.kind, views });
  const [place] = views;
  if (place === undefined) return undefined;
  const gesture = crypto.randomUUID();
  const { part, view } = placing;
  const { x, y } = place;
  store.perform(moveView, { moves: [{ part, view, sheet, x, y }] }, gesture);
  if (placing.mirrored) store.perform(turnView, { part, view, how: "mirror" }, gesture);
  const hows = { 0: undefined, 90: "clockwise", 180: "half", 270: "anticlockwise" } as const;
  const how = hows[placing.turn];
  if (how !== undefined) store.perform(turnView, { part, view, how }, gesture);
  return part;
}

const TURNS = [0, 90, 180, 270] as const;

/** As turnView does it with a view that stands on the sheet. */
export function turned(placing: Placing, how: "clockwise" | "anticlockwise" | "mirror"): Placing {
  const quarters = placing.turn / 90;
  if (how === "mirror") return { ...placing, mirrored: !placing.mirrored, turn: TURNS[(4 - quarters) % 4] ?? 0 };
  return { ...placing, turn: TURNS[(quarters + (how === "clockwise" ? 1 : 3)) % 4] ?? 0 };
}
