/**
 * Trees onto paper: a child stands to the right of what feeds it, the first one in line with it; the others below.
 * Columns of one width keep symbols under each other. What does not fit goes on to the next sheet.
 */
import { overlap } from "../geometry/boxes.ts";
import type { Box } from "../geometry/display.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { lay, layFacing, pinOf, roomOf, up, type LaidCell, type SetCell } from "./cell.ts";
import type { Tree } from "./forest.ts";

/** A symbol of 15 mm with its clearance, and a line long enough for number, size and colour. */
const COLUMN: Millimetre = 42.5;
const ROW_GAP: Millimetre = 5;
const SIDE_GAP: Millimetre = 12.5;
/** A millimetre to the side counts for this much lower down. */
const FAR_AWAY = 0.3;

interface Placed extends SetCell {
  readonly sheet: number;
}

interface Slot {
  readonly tree: Tree;
  readonly laid: LaidCell;
  /** Left column, and how many it covers. */
  readonly column: number;
  readonly span: number;
  /** Height of its feeding terminal above the row's line. */
  readonly y: Millimetre;
}

export class Flow {
  readonly #area: Box;
  /** Room that is taken on every sheet: the title block. */
  readonly #kept: Box;
  readonly #columns: number;
  readonly #placed: Placed[] = [];
  #sheet = 0;
  /** Next free height in each column of the current sheet. */
  #free: Millimetre[];

  /** `top`: what is taken on the first sheet, by x range. */
  constructor(area: Box, kept: Box, first: readonly Box[]) {
    this.#area = area;
    this.#kept = kept;
    this.#columns = Math.max(1, Math.floor((area.width + SIDE_GAP) / COLUMN));
    this.#free = Array.from({ length: this.#columns }, (_, column) => {
      const x = this.#x(column);
      const above = first.filter((box) => box.x < x + COLUMN && box.x + box.width > x - 2.5);
      return Math.max(area.y, ...above.map((box) => up(box.y + box.height + 10)));
    });
    // What is fed never stands above the traction circuit, nor beside it at its right-hand end.
    const taken = this.#free.filter((y) => y > area.y);
    if (taken.length > 0) this.#free = this.#free.map((y) => Math.max(y, Math.min(...taken)));
  }

  get placed(): readonly Placed[] {
    return this.#placed;
  }

  /** A whole tree, on a fresh sheet if that keeps it together. */
  add(tree: Tree, near?: Millimetre): void {
    const needed = height(tree, this.#columns);
    const start = this.#bestStart(tree, near);
    const room = this.#area.y + this.#area.height - Math.max(...this.#free.slice(start, start + depth(tree)));
    if (room < needed * 0.6 && needed <= this.#area.height && this.#used()) this.#turnPage();
    this.#grow(tree, this.#bestStart(tree, near), undefined);
  }

  /** One cell below what is there, not far from `near`. */
  addGround(laid: LaidCell, near: Millimetre): void {
    for (let page = 0; page < 2; page += 1) {
      const price = (column: number): number => (this.#free[column] ?? 0) + FAR_AWAY * Math.abs(this.#x(column) - near);
      const columns = Array.from({ length: this.#columns }, (_, index) => index).sort((p, q) => price(p) - price(q));
      for (const column of columns) {
        const slot = { laid, column, span: spanOf(laid), y: 0 };
        if (column + slot.span > this.#columns) continue;
        const y = this.#lowestFor([slot]);
        if (!this.#fits([slot], y)) continue;
        this.#set(slot, y);
        return;
      }
      this.#turnPage();
    }
    this.#set({ laid, column: 0, span: spanOf(laid), y: 0 }, this.#area.y - laid.room.y);
  }

  #x(column: number): Millimetre {
    return this.#area.x + column * COLUMN;
  }

  #used(): boolean {
    return this.#placed.some(({ sheet }) => sheet === this.#sheet) || this.#free.some((y) => y > this.#area.y);
  }

  #turnPage(): void {
    this.#sheet += 1;
    this.#free = Array.from({ length: this.#columns }, () => this.#area.y);
  }

  /** Where the tree would stand highest, not too far from the place that feeds it. */
  #bestStart(tree: Tree, near: Millimetre = this.#area.x): number {
    const wide = Math.min(depth(tree), this.#columns);
    const onThisSheet = this.#sheet === 0 ? near : this.#area.x;
    let best = 0;
    let least = Infinity;
    for (let start = 0; start + wide <= this.#columns; start += 1) {
      const y = Math.max(...this.#free.slice(start, start + wide));
      const price = y + FAR_AWAY * Math.abs(this.#x(start) - onThisSheet);
      if (price < least) {
        least = price;
        best = start;
      }
    }
    return best;
  }

  /** The tree's first line (first children all along), then what branches off it, innermost first. */
  #grow(tree: Tree, column: number, wanted: Millimetre | undefined): void {
    const line = this.#line(tree, column);
    let y = Math.max(this.#lowestFor(line), wanted ?? -Infinity);
    if (!this.#fits(line, y)) {
      const shifted = this.#shiftedStart(line);
      if (shifted !== undefined) return this.#grow(tree, shifted, undefined);
      this.#turnPage();
      y = this.#lowestFor(line);
    }
    for (const slot of line) this.#set(slot, y);
    const sheet = this.#sheet;
    const below = (child: Tree, after: number): void => {
      // On a fresh sheet nothing ties a branch to the column of what feeds it.
      this.#grow(child, this.#sheet === sheet ? this.#columnFor(child, after) : this.#bestStart(child), undefined);
    };
    for (const slot of [...line].reverse()) {
      const after = slot.column + slot.span;
      for (const child of slot.tree.children.slice(1)) below(child, after);
      // A line that ran out of paper goes on below, from the left.
      const first = slot.tree.children[0];
      if (first !== undefined && slot === line.at(-1)) below(first, after);
    }
  }

  #columnFor(tree: Tree, wanted: number): number {
    return wanted + spanOf(facing(tree)) <= this.#columns ? wanted : 0;
  }

  /** Another start for the same line on this sheet, where it does not fit below what is there. */
  #shiftedStart(line: readonly (Slot & { readonly tree: Tree })[]): number | undefined {
    const own = line[0]?.column ?? 0;
    const end = Math.max(...line.map((slot) => slot.column + slot.span));
    for (let start = 0; start + (end - own) <= this.#columns; start += 1) {
      const moved = line.map((slot) => ({ ...slot, column: slot.column - own + start }));
      if (start !== own && this.#fits(moved, this.#lowestFor(moved))) return start;
    }
    return undefined;
  }

  #line(tree: Tree, column: number): readonly Slot[] {
    const line: Slot[] = [];
    let y = 0;
    let at = column;
    for (let now: Tree | undefined = tree; now !== undefined; now = now.children[0]) {
      const laid = facing(now);
      const span = spanOf(laid);
      if (line.length > 0 && at + span > this.#columns) break;
      const before = line.at(-1);
      if (before !== undefined) {
        const out = pinOf(before.laid, now.feeder ?? "")?.y ?? 0;
        const into = pinOf(laid, now.entry ?? "")?.y ?? 0;
        y = before.y + out - into;
      }
      line.push({ tree: now, laid, column: at, span, y });
      at += span;
    }
    return line;
  }

  /** Highest line height at which every cell of the line is below what is there. */
  #lowestFor(line: readonly Omit<Slot, "tree">[]): Millimetre {
    const needed = line.flatMap(({ laid, column, span, y }) =>
      this.#free.slice(column, column + span).map((free) => free - (y + laid.room.y)),
    );
    return up(Math.max(this.#area.y, ...needed));
  }

  #fits(line: readonly Omit<Slot, "tree">[], y: Millimetre): boolean {
    return line.every((slot) => {
      const room = roomOf({ laid: slot.laid, x: this.#originX(slot), y: y + slot.y });
      return room.y + room.height <= this.#area.y + this.#area.height && !overlap(room, this.#kept, 5);
    });
  }

  #originX({ laid, column }: Pick<Slot, "laid" | "column">): Millimetre {
    return this.#x(column) - laid.room.x;
  }

  #set(slot: Omit<Slot, "tree">, y: Millimetre): void {
    const cell = { laid: slot.laid, x: this.#originX(slot), y: y + slot.y, sheet: this.#sheet };
    this.#placed.push(cell);
    const room = roomOf(cell);
    for (let column = slot.column; column < Math.min(this.#columns, slot.column + slot.span); column += 1)
      this.#free[column] = up(room.y + room.height + ROW_GAP);
  }
}

const spanOf = (laid: LaidCell): number => Math.max(1, Math.ceil((laid.room.width + SIDE_GAP) / COLUMN));

/** Fed from the left. A root that is a battery shows its plus to the right. */
function facing(tree: Tree): LaidCell {
  if (tree.entry !== undefined) return layFacing(tree.cell, tree.entry, "left");
  const out = tree.children[0]?.feeder;
  return out === undefined ? lay(tree.cell) : layFacing(tree.cell, out, "right");
}

/** Columns that the tree's longest line takes. */
function depth(tree: Tree): number {
  return spanOf(facing(tree)) + Math.max(0, ...tree.children.map(depth));
}

/** What the tree takes in height, roughly. */
function height(tree: Tree, columns: number): Millimetre {
  const below = tree.children.reduce((sum, child) => sum + height(child, columns), 0);
  return Math.max(facing(tree).room.height + ROW_GAP, below);
}
