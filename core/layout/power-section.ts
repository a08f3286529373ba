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
/** Between the parts of a way beside the rail. */
const BESIDE: Millimetre = 7.5;
/** From the lowest part of the plus rail to the axis of the minus rail: a symbol with its text. */
const MINUS_GAP: Millimetre = 17.5;
/** From a stud that looks down to the rail. */
const BAR_ABOVE: Millimetre = 5;
/** From plus rail to minus rail where the pack stands elsewhere. */
const MINUS_BELOW: Millimetre = 30;
/** Most blocks in one row of the pack. */
const LONGEST_ROW = 6;

/** What a section shows: a whole loop, or one cut in two for small paper. */
type Portion = Omit<PowerLoop, "main"> & { readonly main: PowerLoop["main"] | undefined };

/** Laid out within the width and height, its top left corner at (0, 0); undefined if it does not fit. */
function fitted(portion: Portion, width: Millimetre, height: Millimetre): Section | undefined {
  const half = Math.max(1, ...portion.strings.map((links) => Math.ceil(links.length / 2)));
  const most = portion.main === undefined ? half : Math.min(LONGEST_ROW, half);
  // A column of single blocks only where nothing broader fits.
  for (const least of most > 1 ? [2, 1] : [1])
    for (const gap of GAPS)
      for (let columns = most; columns >= least; columns -= 1) {
        const section = arrange(portion, gap, columns);
        if (section.width <= width && section.height <= height) return section;
      }
  return undefined;
}

/** Sections on sheets of their own, and the loop as far as they show it. */
export interface PowerSections {
  readonly loop: PowerLoop;
  readonly sections: readonly Section[];
}

/**
 * The traction circuit on one sheet; else cut behind the disconnect, else behind the pack; on the smallest paper without
 * what lies beside it. Undefined if nothing fits.
 */
export function powerSections(found: PowerLoop, width: Millimetre, height: Millimetre): PowerSections | undefined {
  const whole = fitted(found, width, height);
  if (whole !== undefined) return { loop: found, sections: [whole] };
  const disconnect = found.plus.findLastIndex((link) => link.cell.known.kind.traits.disconnect === true);
  for (const loop of [found, { ...found, bypasses: [] }])
    for (const cut of disconnect < 0 ? [0] : [disconnect + 1, 0]) {
      const [front, back] = cutAt(loop, cut);
      const pack = fitted(front, width, height);
      const rest = fitted(back, width, height);
      if (pack !== undefined && rest !== undefined) return { loop, sections: [pack, rest] };
    }
  return undefined;
}

function cutAt(loop: PowerLoop, cut: number): readonly [Portion, Portion] {
  const early = new Set(loop.plus.slice(0, cut).map((link) => link.cell.key));
  const pole = loop.minus.findLastIndex((link) => early.has(link.cell.key)) + 1;
  const front = {
    ...loop,
    main: undefined,
    plus: loop.plus.slice(0, cut),
    minus: loop.minus.slice(0, pole),
    bypasses: loop.bypasses.filter(({ last }) => last < cut),
    drive: [],
    motors: [],
  };
  const back = {
    ...loop,
    strings: [],
    plus: loop.plus.slice(cut),
    minus: loop.minus.slice(pole),
    bypasses: loop.bypasses
      .filter(({ last }) => last >= cut)
      .map(({ first, last, links }) => ({ first: Math.max(0, first - cut), last: last - cut, links })),
  };
  return [front, back];
}

function arrange(loop: Portion, gap: Millimetre, columns: number): Section {
  const set: SetCell[] = [];
  const pack = packRows(loop.strings, gap, columns);
  for (const cell of pack.cells) set.push(cell);
  const plusY = pack.topY;

  // Plus rail. What lies beside a link stands above it and may reach back over those before it.
  let x = pack.width + gap;
  let free = x;
  const starts: Millimetre[] = [];
  const ends: Millimetre[] = [];
  let lowest = plusY;
  let highest = plusY;
  const wide = ({ links }: PowerLoop["bypasses"][number]): Millimetre => rowWidth(links.map(towardsRight), BESIDE);
  loop.plus.forEach((link, index) => {
    const laid = towardsRight(link);
    const beside = loop.bypasses.filter((bypass) => bypass.last === index);
    const own = laid.room.width;
    const least = free + Math.max(0, ...beside.map(wide));
    if (beside.length > 0) x = Math.max(x, up(least - own));
    const cell = onRail(laid, link, x - laid.room.x, plusY);
    set.push(cell);
    const room = roomOf(cell);
    lowest = Math.max(lowest, room.y + room.height);
    highest = Math.min(highest, room.y);
    starts.push(x);
    ends.push(x + own);
    x += own + gap;
    if (beside.length > 0) free = x;
  });
  // Those over one link first, wider ones above.
  let y = highest;
  const inner = [...loop.bypasses].sort((p, q) => p.last - p.first - (q.last - q.first));
  let reached = -Infinity;
  for (const bypass of inner) {
    const laid = bypass.links.map(towardsRight);
    const right = ends[bypass.last] ?? x;
    const middle = up(((starts[bypass.first] ?? x) + right - wide(bypass)) / 2);
    const left = bypass.first === bypass.last ? up(right - wide(bypass)) : middle;
    const beneath = bypass.first === bypass.last && reached <= left ? highest : y;
    const foot = Math.max(...laid.map((cell, index) => footOf(cell, bypass.links[index])));
    const axis = Math.floor((beneath - foot - 5) / 2.5) * 2.5;
    let at = left;
    laid.forEach((cell, index) => {
      const link = bypass.links[index];
      if (link === undefined) return;
      const placed = onRail(cell, link, at - cell.room.x, axis);
      set.push(placed);
      y = Math.min(y, roomOf(placed).y - 2.5);
      at += cell.room.width + BESIDE;
    });
    reached = Math.max(reached, at);
  }

  // Minus rail: its parts close to the pack, or right of the switch that has a pole in it, below the plus rail.
  const minusY = Math.max(pack.bottomY, loop.minus.length > 0 ? up(lowest + MINUS_GAP) : pack.bottomY);
  let minusX = pack.width + gap;
  for (const link of loop.minus) {
    const twin = loop.plus.findIndex((other) => other.cell.key === link.cell.key);
    if (twin >= 0) {
      minusX = Math.max(minusX, (ends[twin] ?? 0) + gap);
      continue;
    }
    const laid = towardsRight(link);
    set.push(onRail(laid, link, minusX - laid.room.x, minusY));
    minusX += laid.room.width + gap;
  }
  if (loop.main === undefined) return shifted(set);

  // Controller with its plus terminal on the plus rail, then what lies between it and the motors, then the motors.
  x = Math.max(x, minusX) + 5;
  const main = layFacing(loop.main, loop.plusPin, "left");
  set.push(onAxis(main, loop.plusPin, x - main.room.x, plusY));
  // Control wires leave the controller towards the motor: room for them and their cross-references.
  x += main.room.width + Math.max(gap, 25);
  for (const group of [loop.drive, loop.motors]) {
    if (group.length === 0) continue;
    const laid = group.map(towardsMain);
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

/** A view that has all its pins on one side shows them to the controller. */
function towardsMain(cell: Cell): LaidCell {
  const laid = lay(cell);
  const sideways = laid.pins.filter((pin) => pin.side === "left" || pin.side === "right");
  return sideways.length > 0 && sideways.every((pin) => pin.side === "right") ? lay(cell, true) : laid;
}

interface Pack {
  readonly cells: readonly SetCell[];
  readonly width: Millimetre;
  readonly topY: Millimetre;
  readonly bottomY: Millimetre;
}

/**
 * Each string as an even number of rows: the first runs from right (plus) to left, the next back, and so on, so that
 * plus comes out at the top right and minus at the bottom right. Strings that lie beside each other stand one above
 * the other.
 */
function packRows(strings: readonly (readonly Link[])[], gap: Millimetre, columns: number): Pack {
  const all = strings.flat();
  if (all.length === 0) return { cells: [], width: 0, topY: 0, bottomY: MINUS_BELOW };
  const cells: SetCell[] = [];
  const lengths = strings.map((links) => rowLengths(links.length, Math.max(1, columns)));
  const longest = Math.max(...lengths.flat());
  const widest = Math.max(...all.map((link) => lay(link.cell).room.width));
  const high = tallest(all.map((link) => lay(link.cell)));
  const pitch = up(widest + gap);
  const rowPitch = up(high + ROW_GAP + 2.5);
  let y = 0;
  strings.forEach((links, number) => {
    let next = 0;
    (lengths[number] ?? []).forEach((count, row) => {
      const leftwards = row % 2 === 0;
      links.slice(next, next + count).forEach((link, place) => {
        const column = leftwards ? longest - 1 - place : longest - count + place;
        const laid = layFacing(link.cell, link.from, leftwards ? "right" : "left");
        const middle = up((widest - laid.room.width) / 2);
        cells.push(onRail(laid, link, column * pitch + middle - laid.room.x, y));
      });
      next += count;
      y += rowPitch;
    });
  });
  return {
    cells,
    width: (longest - 1) * pitch + widest,
    topY: 0,
    bottomY: all.length <= 1 ? up(high + ROW_GAP) : y - rowPitch,
  };
}

/** Rows of nearly one length, an even number of them, none longer than `most` unless there is but one link. */
function rowLengths(count: number, most: number): readonly number[] {
  if (count <= 1) return [count];
  const rows = Math.min(2 * Math.ceil(count / most / 2), count - (count % 2));
  return Array.from({ length: rows }, (_, row) => Math.floor(count / rows) + (row < count % rows ? 1 : 0));
}

/** How far a link reaches below the axis of its rail. */
function footOf(laid: LaidCell, link: Link | undefined): Millimetre {
  if (link === undefined) return 0;
  const room = roomOf(onRail(laid, link, 0, 0));
  return room.y + room.height;
}

/** A link of a rail. A busbar hangs above it, with the stud that is met first at the left. */
function onRail(laid: LaidCell, link: Link, x: Millimetre, y: Millimetre): SetCell {
  const pin = pinOf(laid, link.from);
  return onAxis(laid, link.from, x, pin?.side === "down" ? y - BAR_ABOVE : y);
}

function towardsRight(link: Link): LaidCell {
  if (!link.bar) return layFacing(link.cell, link.from, "left");
  const laid = lay(link.cell);
  const [from, to] = [pinOf(laid, link.from)?.x ?? 0, pinOf(laid, link.to)?.x ?? 0];
  return from > to ? lay(link.cell, true) : laid;
}
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
      ...[...loop.plus, ...loop.strings.flat(), ...loop.minus, ...loop.bypasses.flatMap(({ links }) => links)].map(
        (link): Cell => link.cell,
      ),
      ...loop.drive,
      ...loop.motors,
    ].map((cell) => cell.key),
  );
