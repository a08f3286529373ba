/**
 * Trees onto paper: a child stands to the right of what feeds it, the first one in line with it; the others below.
 * Columns of one width keep symbols under each other. What does not fit goes on to the next sheet.
 */
import { inflate, overlap } from "../geometry/boxes.ts";
import type { Box } from "../geometry/display.ts";
import type { Millimetre } from "../quantity/kinds.ts";
import { lay, layFacing, pinOf, roomOf, up, type LaidCell, type SetCell } from "./cell.ts";
import type { Tree } from "./forest.ts";

/** A symbol of 15 mm with its clearance, and a line long enough for number, size and colour. */
const COLUMN: Millimetre = 42.5;
const ROW_GAP: Millimetre = 5;
const SIDE_GAP: Millimetre = 12.5;
/** From a stud that looks down to the line of what it feeds. */
const BELOW_STUD: Millimetre = 7.5;
/** A tree of this many views is worth a sheet of its own. */
const LARGE = 8;
/** Many lines come to a chassis point or a minus bar, some with cross-references: room for them all round it. */
const ROUND_GROUND: Millimetre = 5;
/** A line that goes on from the left counts for this much lower down. */
const WRAPPED: Millimetre = 60;
/** A millimetre to the side counts for this much lower down. */
const FAR_AWAY = 0.8;

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

/** How strongly what stands on a sheet draws a tree to it, and to which x. */
export interface Pull {
  readonly wires: number;
  readonly x: Millimetre | undefined;
}

export class Flow {
  readonly #area: Box;
  /** Room that is taken on every sheet: the title block. */
  readonly #kept: Box;
  readonly #columns: number;
  #placed: readonly Placed[] = [];
  #sheet = 0;
  /** Next free height in each column, by sheet. */
  #pages: readonly (readonly Millimetre[])[];
  /** Set where a tree that is being tried went on to another sheet. */
  #overflowed = false;
  /** Lines of it that had to go on from the left. */
  #wrapped = 0;

  /** `top`: what is taken on the first sheet, by x range. */
  constructor(area: Box, kept: Box, first: readonly Box[]) {
    this.#area = area;
    this.#kept = kept;
    this.#columns = Math.max(1, Math.floor((area.width + SIDE_GAP) / COLUMN));
    const free = this.#empty().map((top, column) => {
      const x = this.#x(column);
      const above = first.filter((box) => box.x < x + COLUMN && box.x + box.width > x - 2.5);
      return Math.max(top, ...above.map((box) => up(box.y + box.height + 10)));
    });
    // What is fed never stands above the traction circuit, nor beside it at its right-hand end.
    const taken = free.filter((y) => y > area.y);
    this.#pages = [taken.length === 0 ? free : free.map((y) => Math.max(y, Math.min(...taken)))];
  }

  get placed(): readonly Placed[] {
    return this.#placed;
  }

  /** A tree without the busbars far along it that would run off the paper: those begin lines of their own. */
  pieces(tree: Tree): readonly Tree[] {
    const late: Tree[] = [];
    while (width(tree) > this.#columns) {
      const cut = lastBar(tree);
      if (cut === undefined) break;
      cut.parent.children.splice(cut.parent.children.indexOf(cut.bar), 1);
      late.unshift(cut.bar);
    }
    return [tree, ...late.flatMap((bar) => this.pieces(bar))];
  }

  /**
   * A whole tree on the sheet that draws it most and has room for it, as high and as near as can be. A large one takes
   * a fresh sheet rather than have its lines go on from the left; a small one takes any gap.
   */
  add(tree: Tree, pull: (sheet: number) => Pull): void {
    const used = this.#pages.map((_, sheet) => ({ sheet, ...pull(sheet) })).sort((p, q) => q.wires - p.wires);
    const all = [...used, { sheet: this.#pages.length, x: undefined }];
    const whole = size(tree) >= LARGE ? all : used;
    for (const [sheets, mostWrapped] of [
      [whole, 0],
      [all, Infinity],
    ] as const)
      for (const { sheet, x } of sheets) if (this.#addOn(sheet, tree, x, mostWrapped)) return;
    // Larger than a sheet: it goes on where it has to.
    this.#open(this.#pages.length);
    this.#grow(tree, 0);
  }

  /** Tries every column of a sheet and keeps the best; false, and nothing placed, where it fits nowhere. */
  #addOn(sheet: number, tree: Tree, near: Millimetre | undefined, mostWrapped: number): boolean {
    const kept = { placed: this.#placed, pages: this.#pages };
    let best: typeof kept | undefined;
    let least = Infinity;
    for (let start = 0; start < this.#columns; start += 1) {
      this.#open(sheet);
      this.#overflowed = false;
      this.#wrapped = 0;
      this.#grow(tree, start);
      const price = this.#price(kept.placed.length, near) + WRAPPED * this.#wrapped;
      if (!this.#overflowed && this.#wrapped <= mostWrapped && price < least) {
        least = price;
        best = { placed: this.#placed, pages: this.#pages };
      }
      this.#placed = kept.placed;
      this.#pages = kept.pages;
    }
    if (best === undefined) return false;
    this.#placed = best.placed;
    this.#pages = best.pages;
    return true;
  }

  /** One cell below what is there, on the sheet that draws it most, not far from what it is wired to. */
  addGround(ground: LaidCell, pull: (sheet: number) => Pull): void {
    const sheets = this.#pages.map((_, sheet) => ({ sheet, ...pull(sheet) })).sort((p, q) => q.wires - p.wires);
    const wired = sheets.filter(({ wires }) => wires > 0);
    const other = [...sheets, { sheet: this.#pages.length, x: undefined }];
    for (const [round, list] of [
      [ROUND_GROUND, wired],
      [2.5, wired],
      [ROUND_GROUND, other],
    ] as const)
      for (const { sheet, x } of list)
        if (this.#setBelow({ ...ground, room: inflate(ground.room, round) }, sheet, x ?? this.#area.x)) return;
    this.#set({ laid: ground, column: 0, span: spanOf(ground), y: 0 }, this.#area.y - ground.room.y);
  }

  #setBelow(laid: LaidCell, sheet: number, near: Millimetre): boolean {
    this.#open(sheet);
    const price = (column: number): number => this.#top(column) + FAR_AWAY * Math.abs(this.#x(column) - near);
    const columns = Array.from({ length: this.#columns }, (_, index) => index).sort((p, q) => price(p) - price(q));
    for (const column of columns) {
      const slot = { laid, column, span: spanOf(laid), y: 0 };
      if (column + slot.span > this.#columns) continue;
      const y = this.#lowestFor([slot]);
      if (!this.#fits([slot], y)) continue;
      this.#set(slot, y);
      return true;
    }
    return false;
  }

  #x(column: number): Millimetre {
    return this.#area.x + column * COLUMN;
  }

  #empty(): readonly Millimetre[] {
    return Array.from({ length: this.#columns }, () => this.#area.y);
  }

  #top(column: number): Millimetre {
    return this.#pages[this.#sheet]?.[column] ?? this.#area.y;
  }

  #open(sheet: number): void {
    this.#sheet = sheet;
    while (this.#pages.length <= sheet) this.#pages = [...this.#pages, this.#empty()];
  }

  #turnPage(): void {
    this.#overflowed = true;
    this.#open(this.#sheet + 1);
  }

  /** Foot of what came since, and how far it is from where it is drawn to. */
  #price(since: number, near: Millimetre | undefined): number {
    const rooms = this.#placed.slice(since).map(roomOf);
    const foot = Math.max(...rooms.map((room) => room.y + room.height));
    const middle = rooms.reduce((sum, room) => sum + room.x + room.width / 2, 0) / Math.max(1, rooms.length);
    return foot + FAR_AWAY * Math.abs(middle - (near ?? middle)) + (near === undefined ? middle * 0.1 : 0);
  }

  /** The tree's first line (first children all along), then what branches off it, innermost first. */
  #grow(tree: Tree, column: number): void {
    const line = this.#line(tree, column);
    let y = this.#lowestFor(line);
    if (!this.#fits(line, y)) {
      const shifted = this.#shiftedStart(line);
      if (shifted !== undefined) {
        if (tree.feeder !== undefined) this.#wrapped += 1;
        return this.#grow(tree, shifted);
      }
      this.#turnPage();
      y = this.#lowestFor(line);
    }
    for (const slot of line) this.#set(slot, y);
    const sheet = this.#sheet;
    for (const slot of [...line].reverse()) {
      const after = slot.column + slot.span;
      const [first, ...others] = inRows(slot.tree, slot.laid);
      for (const child of others) this.#grow(child, this.#sheet === sheet ? this.#columnFor(child, after) : 0);
      // A line that ran out of paper goes on below, from the left.
      if (first !== undefined && slot === line.at(-1))
        this.#grow(first, this.#sheet === sheet ? this.#columnFor(first, after) : 0);
      if (this.#sheet === sheet && looksDown(slot)) this.#keepBelow(slot);
    }
  }

  /** The lines from a busbar's studs run down beside what they feed. */
  #keepBelow(slot: Slot): void {
    const foot = this.#top(slot.column + slot.span);
    this.#pages = this.#pages.map((page, sheet) =>
      sheet !== this.#sheet
        ? page
        : page.map((free, column) =>
            column >= slot.column && column < slot.column + slot.span ? Math.max(free, foot) : free,
          ),
    );
  }

  #columnFor(tree: Tree, wanted: number): number {
    if (wanted + spanOf(facing(tree)) <= this.#columns) return wanted;
    this.#wrapped += 1;
    return 0;
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
    for (let now: Tree | undefined = tree; now !== undefined; ) {
      const laid = facing(now);
      const span = spanOf(laid);
      if (line.length > 0 && at + span > this.#columns) break;
      const before = line.at(-1);
      if (before !== undefined) {
        const out = pinOf(before.laid, now.feeder ?? "");
        const into = pinOf(laid, now.entry ?? "");
        const below = out?.side === "down" ? BELOW_STUD : 0;
        y =
          before.y +
          (out?.y ?? 0) +
          below -
          (into?.y ?? 0) +
          (into?.side === "down" ? BELOW_STUD : 0) * (below > 0 ? 0 : -1);
      }
      line.push({ tree: now, laid, column: at, span, y });
      at += span;
      now = inRows(now, laid)[0];
    }
    return line;
  }

  /** Highest line height at which every cell of the line is below what is there. */
  #lowestFor(line: readonly Omit<Slot, "tree">[]): Millimetre {
    const needed = line.flatMap(({ laid, column, span, y }) =>
      (this.#pages[this.#sheet] ?? []).slice(column, column + span).map((free) => free - (y + laid.room.y)),
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
    this.#placed = [...this.#placed, cell];
    const room = roomOf(cell);
    const foot = up(room.y + room.height + ROW_GAP);
    this.#pages = this.#pages.map((page, sheet) =>
      sheet !== this.#sheet
        ? page
        : page.map((free, column) => (column >= slot.column && column < slot.column + slot.span ? foot : free)),
    );
  }
}

const spanOf = (laid: LaidCell): number => Math.max(1, Math.ceil((laid.room.width + SIDE_GAP) / COLUMN));

/** Fed from the left. A root that is a battery shows its plus to the right. */
function facing(tree: Tree): LaidCell {
  if (tree.entry !== undefined) {
    const laid = layFacing(tree.cell, tree.entry, "left");
    const pin = pinOf(laid, tree.entry);
    const inRightHalf = pin?.side === "down" && pin.x > laid.box.x + laid.box.width / 2;
    return inRightHalf ? lay(tree.cell, true) : laid;
  }
  const out = tree.children[0]?.feeder;
  return out === undefined ? lay(tree.cell) : layFacing(tree.cell, out, "right");
}

const looksDown = ({ laid, tree }: Slot): boolean =>
  tree.children.length > 1 && laid.pins.every((pin) => pin.side === "down");

/** Columns that the tree's longest line takes. */
const width = (tree: Tree): number => spanOf(facing(tree)) + Math.max(0, ...tree.children.map(width));

/** The busbar farthest along the tree's longest line, past its root. */
function lastBar(tree: Tree): { readonly bar: Tree; readonly parent: Tree } | undefined {
  const longest = [...tree.children].sort((a, b) => width(b) - width(a))[0];
  if (longest === undefined) return undefined;
  const further = lastBar(longest);
  if (further !== undefined) return further;
  const bar = longest.children.length > 1 && facing(longest).pins.every((pin) => pin.side === "down");
  return bar ? { bar: longest, parent: tree } : undefined;
}

const size = (tree: Tree): number => 1 + tree.children.reduce((sum, child) => sum + size(child), 0);
const depth = (tree: Tree): number => 1 + Math.max(0, ...tree.children.map(depth));

/**
 * What a part feeds, from the first row down: of studs that look down the rightmost first, so that no line crosses
 * another; else from the top pin down, and at one pin the longest chain first.
 */
function inRows(tree: Tree, laid: LaidCell): readonly Tree[] {
  const pin = (child: Tree) => pinOf(laid, child.feeder ?? "");
  return [...tree.children].sort((a, b) => {
    const [p, q] = [pin(a), pin(b)];
    if (p === undefined || q === undefined) return 0;
    if (p.side === "down" && q.side === "down") return q.x - p.x;
    return p.y - q.y || depth(b) - depth(a);
  });
}
