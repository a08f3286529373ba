/**
 * The traction circuit along the top of a sheet, read from left to right: the pack as a horseshoe of rows with both
 * its terminals at the right, fuse, disconnect and contactor on the plus rail, pre-charge above the contactor,
 * controller, motor; the minus rail below.
 */
import type { Millimetre } from "../quantity/kinds.ts";
import { lay, layFacing, pinOf, roomOf, up, type Cell, type LaidCell, type SetCell } from "./cell.ts";
import type { Link, PowerLoop } from "./power-loop.ts";

export interface Section {
  readonly cells: readonly SetCell[];
  readonly width: Millimetre;
  readonly height: Millimetre;
}

/** Clear line between two neighbours, mm: the first that fits the paper is taken. */
const GAPS: readonly Millimetre[] = [17.5, 15, 12.5, 10, 7.5, 5];
const ROW_GAP: Millimetre = 7.5;
/** From plus rail to minus rail where the pack stands elsewhere. */
const MINUS_BELOW: Millimetre = 30;
/** Most blocks in one row of the pack. */
const LONGEST_ROW = 6;

/** Laid out within the width and height, its top left corner at (0, 0); undefined if it does not fit. */
export function powerSection(loop: PowerLoop, width: Millimetre, height: Millimetre): Section | undefined {
  for (const gap of GAPS)
    for (
      let columns = Math.min(LONGEST_ROW, Math.max(1, Math.ceil(loop.string.length / 2)));
      columns >= 1;
      columns -= 1
    ) {
      const section = arrange(loop, gap, columns);
      if (section.width <= width && section.height <= height) return section;
    }
  return undefined;
}

/** The pack alone, for a sheet of its own; undefined if it does not fit. */
export function packSection(loop: PowerLoop, width: Millimetre, height: Millimetre): Section | undefined {
  for (const gap of GAPS)
    for (let columns = Math.ceil(loop.string.length / 2); columns >= 1; columns -= 1) {
      const section = shifted(packRows(loop.string, gap, columns).cells);
      if (section.width <= width && section.height <= height) return section;
    }
  return undefined;
}

function arrange(loop: PowerLoop, gap: Millimetre, columns: number): Section {
  const set: SetCell[] = [];
  const pack = packRows(loop.string, gap, columns);
  for (const cell of pack.cells) set.push(cell);
  const bypassHeight = Math.max(0, ...loop.bypasses.map(({ links }) => tallest(links.map(towardsRight)))) + ROW_GAP;
  const plusY = pack.topY;
  const minusY = pack.bottomY;

  // Plus rail, with room above a link for what lies beside it.
  let x = pack.width + gap;
  const starts: Millimetre[] = [];
  const ends: Millimetre[] = [];
  loop.plus.forEach((link, index) => {
    const laid = towardsRight(link);
    const beside = loop.bypasses.filter((bypass) => bypass.first === index && bypass.last === index);
    const wide =
      Math.max(0, ...beside.map(({ links }) => rowWidth(links.map(towardsRight), 5))) + (beside.length > 0 ? 10 : 0);
    const own = laid.room.width;
    const spare = Math.max(0, up((wide - own) / 2));
    const at = x + spare - laid.room.x;
    set.push(onAxis(laid, link.from, at, plusY));
    starts.push(x);
    ends.push(x + own + 2 * spare);
    x += own + 2 * spare + gap;
  });
  const levels = new Map<number, number>();
  for (const { first, last, links } of loop.bypasses) {
    const laid = links.map(towardsRight);
    const level = (levels.get(first) ?? 0) + 1;
    levels.set(first, level);
    const above = first === last ? 0 : levels.size > 1 ? 1 : 0;
    const y = plusY - (level + above) * up(bypassHeight + 2.5);
    const left = starts[first] ?? x;
    const right = ends[last] ?? x;
    let at = up((left + right - rowWidth(laid, 5)) / 2);
    laid.forEach((cell, index) => {
      set.push(onAxis(cell, links[index]?.from ?? "", at - cell.room.x, y));
      at += cell.room.width + 5;
    });
  }

  // Minus rail: its parts close to the pack, below the plus rail.
  let minusX = pack.width + gap;
  for (const link of loop.minus) {
    const laid = towardsRight(link);
    set.push(onAxis(laid, link.from, minusX - laid.room.x, minusY));
    minusX += laid.room.width + gap;
  }

  // Controller with its plus terminal on the plus rail, then what lies between it and the motors, then the motors.
  x = Math.max(x, minusX) + 5;
  const main = layFacing(loop.main, loop.plusPin, "left");
  set.push(onAxis(main, loop.plusPin, x - main.room.x, plusY));
  // Control wires leave the controller towards the motor: room for them and their cross-references.
  x += main.room.width + Math.max(gap, 25);
  for (const group of [loop.drive, loop.motors]) {
    if (group.length === 0) continue;
    const laid = group.map((cell) => lay(cell));
    let y = plusY - 2.5;
    let widest = 0;
    for (const cell of laid) {
      set.push({ laid: cell, x: x - cell.room.x, y: y - cell.room.y });
      y += cell.room.height + ROW_GAP;
      widest = Math.max(widest, cell.room.width);
    }
    x += widest + Math.max(gap, 12.5);
  }
  return shifted(set);
}

interface Pack {
  readonly cells: readonly SetCell[];
  readonly width: Millimetre;
  readonly topY: Millimetre;
  readonly bottomY: Millimetre;
}

/**
 * The string as an even number of rows: the first runs from right (plus) to left, the next back, and so on, so that
 * plus comes out at the top right and minus at the bottom right.
 */
function packRows(links: readonly Link[], gap: Millimetre, columns: number): Pack {
  if (links.length === 0) return { cells: [], width: 0, topY: 0, bottomY: MINUS_BELOW };
  const perRow = Math.max(1, columns);
  const rows = links.length <= 1 ? 1 : 2 * Math.ceil(links.length / perRow / 2);
  const longest = Math.ceil(links.length / rows);
  const cells: SetCell[] = [];
  const laidAs = (link: Link, leftwards: boolean): LaidCell =>
    leftwards ? layFacing(link.cell, link.from, "right") : layFacing(link.cell, link.from, "left");
  const widest = Math.max(...links.map((link) => lay(link.cell).room.width));
  const high = tallest(links.map((link) => lay(link.cell)));
  const pitch = up(widest + gap);
  const rowPitch = up(high + ROW_GAP + 2.5);
  links.forEach((link, index) => {
    const row = Math.floor(index / longest);
    const place = index % longest;
    const leftwards = row % 2 === 0;
    const column = leftwards ? longest - 1 - place : place;
    const laid = laidAs(link, leftwards);
    const middle = up((widest - laid.room.width) / 2);
    cells.push(onAxis(laid, link.from, column * pitch + middle - laid.room.x, row * rowPitch));
  });
  return {
    cells,
    width: (longest - 1) * pitch + widest,
    topY: 0,
    bottomY: links.length <= 1 ? up(high + ROW_GAP) : (rows - 1) * rowPitch,
  };
}

const towardsRight = (link: Link): LaidCell => layFacing(link.cell, link.from, "left");
const tallest = (cells: readonly LaidCell[]): Millimetre => Math.max(0, ...cells.map((cell) => cell.room.height));
const rowWidth = (cells: readonly LaidCell[], gap: Millimetre): Millimetre =>
  cells.reduce((sum, cell) => sum + cell.room.width + gap, -gap);

/** At x, with this terminal at height y. */
function onAxis(laid: LaidCell, terminal: string, x: Millimetre, y: Millimetre): SetCell {
  return { laid, x, y: y - (pinOf(laid, terminal)?.y ?? 0) };
}

function shifted(cells: readonly SetCell[]): Section {
  const rooms = cells.map(roomOf);
  const left = Math.min(...rooms.map((room) => room.x));
  const top = Math.min(...rooms.map((room) => room.y));
  return {
    cells: cells.map((cell) => ({ ...cell, x: cell.x - left, y: cell.y - top })),
    width: Math.max(...rooms.map((room) => room.x + room.width)) - left,
    height: Math.max(...rooms.map((room) => room.y + room.height)) - top,
  };
}

/** Cells that a section has given a place. */
export const sectionKeys = (loop: PowerLoop): ReadonlySet<string> =>
  new Set(
    [
      loop.main,
      ...[...loop.plus, ...loop.string, ...loop.minus, ...loop.bypasses.flatMap(({ links }) => links)].map(
        (link): Cell => link.cell,
      ),
      ...loop.drive,
      ...loop.motors,
    ].map((cell) => cell.key),
  );
