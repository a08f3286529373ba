/** A place on the sheet for a new part: the nearest to a terminal that is clear of symbols, texts, wires and title block. */
import { containsBox, inflate, moveBox, overlap } from "../../geometry/boxes.ts";
import type { Box, Point } from "../../geometry/display.ts";
import type { Cell } from "../../layout/cell.ts";
import { cellsOf, lay, roomOf } from "../../layout/cell.ts";
import { frameOf, titleBlockOf } from "../../layout/paper.ts";
import { catalogueKinds, pinPlaces, terminalKey } from "../../layout/placed-view.ts";
import type { PinPlace } from "../../layout/placed-view.ts";
import { routedSheet } from "../../layout/route.ts";
import { addSheet } from "../../project/commands/add-sheet.ts";
import { moveView } from "../../project/commands/move-view.ts";
import type { Project, Sheet, WireEnd } from "../../project/document.ts";
import type { Millimetre } from "../../quantity/kinds.ts";
import type { Edit } from "./edit.ts";

const STEP: Millimetre = 5;
/** Between two symbols, so that wires find a way. */
const GAP: Millimetre = 5;
/** From the pin to the new symbol, in the direction in which the pin's wire leaves. */
const AHEAD: Millimetre = 15;

/** Places these views of a part; a full sheet is followed by a new one. Nothing is placed where `near` is on no sheet. */
export function placeNear(edit: Edit, part: string, near: WireEnd, views?: readonly string[]): void {
  const pin = pinPlaces(edit.project).get(terminalKey(near));
  const home = edit.project.sheets.find(({ id }) => id === pin?.sheet);
  if (pin === undefined || home === undefined) return;
  const own = edit.project.parts.filter(({ id }) => id === part);
  for (const { view } of cellsOf(own, catalogueKinds)) {
    if (views?.includes(view.id) === false) continue;
    const { name, paper, orientation } = home;
    const further = `${name}, continued`;
    const known = edit.project.sheets.filter((sheet) => sheet.name === further);
    const places = [{ sheet: home, near: ahead(pin) }, ...known.map((sheet) => ({ sheet, near: frameOf(sheet) }))];
    const isPlaced = places.some(({ sheet, near: point }) => place(edit, part, view.id, sheet, point));
    if (isPlaced) continue;
    const id = edit.run(addSheet, { name: further, paper, orientation });
    place(edit, part, view.id, { ...home, id }, frameOf(home));
  }
}

/** False where the sheet has no room left. */
function place(edit: Edit, part: string, view: string, sheet: Sheet, near: Point): boolean {
  const at = freePlace(edit.project, part, view, sheet, near);
  if (at !== undefined) edit.run(moveView, { moves: [{ part, view, sheet: sheet.id, ...at }] });
  return at !== undefined;
}

function ahead({ x, y, side }: PinPlace): Point {
  return {
    x: x + (side === "left" ? -AHEAD : side === "right" ? AHEAD : 0),
    y: y + (side === "up" ? -AHEAD : side === "down" ? AHEAD : 0),
  };
}

function freePlace(project: Project, part: string, view: string, sheet: Sheet, near: Point): Point | undefined {
  const cells = cellsOf(project.parts, catalogueKinds);
  const own = cells.find((cell) => cell.part.id === part && cell.view.id === view);
  if (own === undefined) return undefined;
  const frame = inflate(frameOf(sheet), -GAP);
  const taken = takenOn(project, sheet, cells);
  const { room } = lay(own);
  const places: { readonly at: Point; readonly far: number }[] = [];
  for (let x = Math.ceil(frame.x / STEP) * STEP; x <= frame.x + frame.width; x += STEP) {
    for (let y = Math.ceil(frame.y / STEP) * STEP; y <= frame.y + frame.height; y += STEP) {
      places.push({ at: { x, y }, far: Math.hypot(x - near.x, y - near.y) });
    }
  }
  places.sort((a, b) => a.far - b.far);
  return places.find(({ at }) => {
    const box = moveBox(room, at);
    return containsBox(frame, box) && !taken.some((other) => overlap(box, other));
  })?.at;
}

function takenOn(project: Project, sheet: Sheet, cells: readonly Cell[]): readonly Box[] {
  const rooms = cells.flatMap((cell) => {
    const place = cell.part.views.find(({ view, sheet: on }) => view === cell.view.id && on === sheet.id);
    if (place === undefined) return [];
    return [inflate(roomOf({ laid: lay(cell, place.mirrored, place.turn), x: place.x, y: place.y }), GAP)];
  });
  const wires = [...routedSheet(project, sheet.id).paths.values()].flat().flatMap(segments);
  return [...rooms, ...wires, titleBlockOf(sheet)];
}

function segments(path: readonly (readonly [number, number])[]): readonly Box[] {
  return path.slice(1).map(([x, y], index): Box => {
    const [fromX, fromY] = path[index] ?? [x, y];
    const box = {
      x: Math.min(x, fromX),
      y: Math.min(y, fromY),
      width: Math.abs(x - fromX),
      height: Math.abs(y - fromY),
    };
    return inflate(box, STEP / 2);
  });
}
