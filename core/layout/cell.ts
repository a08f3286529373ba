/** A view on its way to a place: which way it lies, how much room it needs with its texts. */
import { moveBox, union } from "../geometry/boxes.ts";
import type { Box } from "../geometry/display.ts";
import type { Side } from "../geometry/placements.ts";
import type { View } from "../parts/define.ts";
import type { Part, SheetId, ViewPlacement } from "../project/document.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { labelBox, labelOf } from "./label.ts";
import { pinNames } from "./pin-name.ts";
import { placedView, viewsOf, type KindLookup, type PlacedPin, type PlacedView } from "./placed-view.ts";
import { lineBox } from "./text-line.ts";

export interface Cell {
  readonly key: string;
  readonly part: Part;
  readonly view: View;
  readonly known: NonNullable<ReturnType<typeof viewsOf>>;
  /** A chassis point that this view alone is wired to: it stands right below that terminal. */
  readonly earth?: { readonly cell: Cell; readonly terminal: string };
}

/** A cell that lies some way, with its origin at (0, 0). */
export interface LaidCell {
  readonly cell: Cell;
  readonly turn: ViewPlacement["turn"];
  readonly mirrored: boolean;
  /** Keep-out box with the texts around it. */
  readonly room: Box;
  readonly box: Box;
  readonly pins: readonly PlacedPin[];
  /** Its chassis point, if it has one of its own, with its origin relative to this one's. */
  readonly earth?: SetCell;
}

export interface SetCell {
  readonly laid: LaidCell;
  readonly x: Millimetre;
  readonly y: Millimetre;
}

/** Every view of these parts, in the order of the document. */
export function cellsOf(parts: readonly Part[], kinds: KindLookup): readonly Cell[] {
  return parts.flatMap((part) => {
    const known = viewsOf(part, kinds);
    return (known?.views ?? []).map(
      (view): Cell => ({
        key: `${part.id} ${view.id}`,
        part,
        view,
        known: known as Cell["known"],
      }),
    );
  });
}

export function lay(cell: Cell, mirrored = false, turn: ViewPlacement["turn"] = 0): LaidCell {
  const placed = at({ cell, turn, mirrored }, "", 0, 0);
  const label = labelBox(labelOf(placed));
  const names = pinNames(placed).map(lineBox);
  const room = union([placed.box, ...(label === undefined ? [] : [label]), ...names]) ?? placed.box;
  const laid: LaidCell = { cell, turn, mirrored, room: onGrid(room), box: placed.box, pins: placed.pins };
  const earth = earthBelow(laid);
  return earth === undefined ? laid : { ...laid, earth, room: union([laid.room, roomOf(earth)]) ?? laid.room };
}

/** From a terminal that looks down to the chassis point below it. */
const EARTH_BELOW: Millimetre = 10;

function earthBelow({ cell, pins }: LaidCell): SetCell | undefined {
  if (cell.earth === undefined) return undefined;
  const pin = pinOf({ pins }, cell.earth.terminal);
  const point = lay(cell.earth.cell);
  const stud = point.pins[0];
  if (pin?.side !== "down" || stud === undefined) return undefined;
  return { laid: point, x: pin.x - stud.x, y: pin.y + EARTH_BELOW - stud.y };
}

/** The cell and the chassis point that stands with it. */
export const withEarth = (cell: SetCell): readonly SetCell[] => {
  const { earth } = cell.laid;
  return earth === undefined ? [cell] : [cell, { laid: earth.laid, x: cell.x + earth.x, y: cell.y + earth.y }];
};

/** Mirrored if that brings the terminal to this side. */
export function layFacing(cell: Cell, terminal: string, side: "left" | "right"): LaidCell {
  const own: Side | undefined = cell.view.pins.find((pin) => pin.terminal === terminal)?.side;
  return lay(cell, own !== undefined && own !== side && (own === "left" || own === "right"));
}

const at = (laid: Pick<LaidCell, "cell" | "turn" | "mirrored">, sheet: SheetId, x: number, y: number): PlacedView =>
  placedView(laid.cell.part, laid.cell.known, laid.cell.view, placementOf(laid, sheet, x, y));

export const placementOf = (
  { cell, turn, mirrored }: Pick<LaidCell, "cell" | "turn" | "mirrored">,
  sheet: SheetId,
  x: Millimetre,
  y: Millimetre,
): ViewPlacement => ({ view: cell.view.id, sheet, x, y, turn, mirrored });

export const pinOf = (laid: Pick<LaidCell, "pins">, terminal: string): PlacedPin | undefined =>
  laid.pins.find((pin) => pin.terminal === terminal);

export const roomOf = ({ laid, x, y }: SetCell): Box => moveBox(laid.room, { x, y });

export const up = (value: Millimetre, step = 2.5): Millimetre => Math.ceil(value / step - 1e-9) * step;
const down = (value: Millimetre, step = 2.5): Millimetre => Math.floor(value / step + 1e-9) * step;

function onGrid(box: Box): Box {
  const x = down(box.x);
  const y = down(box.y);
  return { x, y, width: up(box.x + box.width) - x, height: up(box.y + box.height) - y };
}
