/**
 * A factor brought up to date where few conductances differ: a column depends on those that are eliminated before it
 * and joined with it, so that a change reaches only the columns on the way from it to the last one (the path in the
 * elimination tree; Gilbert and Peierls, SIAM J. Sci. Stat. Comput. 9, 1988). Every sum is formed anew in the order
 * of the whole elimination, so that the figures come out the same to the last digit.
 */

/** What an elimination keeps of its columns. */
export interface Columns {
  readonly size: number;
  readonly start: Int32Array;
  readonly row: Int32Array;
  /** By branch: entry, or -1 - column for one to the chassis, or NONE. */
  readonly slot: Int32Array;
  readonly target: Int32Array;
  readonly share: Float64Array;
  /** Entries as they were when their column's turn came, not yet divided by the pivot. */
  readonly whole: Float64Array;
  readonly pivot: Float64Array;
  readonly ground: Float64Array;
  /** Conductance to the chassis besides the branches. */
  readonly earthed: Float64Array;
  readonly groundShare: Float64Array;
  readonly largest: Int32Array;
  readonly grounded: Uint8Array;
  readonly island: Int32Array;
}

/** Slot of a branch that begins and ends at one node. */
export const NONE = -0x80000000;
/** More columns than this part of all are done in one go. */
const WORTH_IT = 1 / 4;

export class Refactoring {
  private readonly columns: Columns;
  /** Branches by column. */
  private readonly branchStart: Int32Array;
  private readonly branches: Int32Array;
  /** Entries of earlier columns that lie in the row of a column: what is added to it, in order. */
  private readonly feederStart: Int32Array;
  private readonly feeders: Int32Array;
  private readonly columnOf: Int32Array;
  /** By column: its first place in `target`. */
  private readonly targetStart: Int32Array;
  private readonly marked: Uint8Array;
  private readonly list: Int32Array;
  private readonly changed: Int32Array;

  constructor(columns: Columns) {
    const { size, start, row, slot } = columns;
    this.columns = columns;
    this.columnOf = new Int32Array(row.length);
    this.targetStart = new Int32Array(size + 1);
    for (let k = 0; k < size; k++) {
      const length = start[k + 1]! - start[k]!;
      this.columnOf.fill(k, start[k], start[k + 1]);
      this.targetStart[k + 1] = this.targetStart[k]! + (length * (length - 1)) / 2;
    }
    [this.branchStart, this.branches] = grouped(size, slot.length, (e) => this.columnOfBranch(e));
    [this.feederStart, this.feeders] = grouped(size, row.length, (p) => row[p]!);
    this.marked = new Uint8Array(size);
    this.list = new Int32Array(size);
    this.changed = new Int32Array(slot.length);
  }

  private columnOfBranch(e: number): number {
    const s = this.columns.slot[e]!;
    return s >= 0 ? this.columnOf[s]! : s === NONE ? -1 : -1 - s;
  }

  /** From `before` (which becomes it) to `conductance`, `earths` being the columns at which those differ; columns done again, or -1 (and nothing done) where they are a good part of all. */
  factor(before: Float64Array, conductance: Float64Array, earths: readonly number[] = []): number {
    const count = this.reached(before, conductance, earths);
    if (count <= 0) return count;
    const { list } = this;
    const order = list.subarray(0, count).sort();
    for (const k of order) this.column(k, conductance);
    let same = true;
    for (let at = count - 1; at >= 0; at--) {
      const k = order[at]!;
      const root = islandOf(this.columns, k);
      if (root === this.columns.island[k]) continue;
      same = false;
      break;
    }
    if (!same) findIslands(this.columns);
    return count;
  }

  /** The columns that a change reaches, into `list`; -1 if too many. */
  private reached(before: Float64Array, conductance: Float64Array, earths: readonly number[]): number {
    const { marked, list } = this;
    const most = this.columns.size * WORTH_IT;
    let count = 0;
    let changes = 0;
    for (const k of earths) count = this.mark(k, count);
    for (let e = 0; e < before.length && count <= most; e++) {
      if (conductance[e] === before[e]) continue;
      this.changed[changes++] = e;
      count = this.mark(this.columnOfBranch(e), count);
    }
    for (let at = 0; at < count; at++) marked[list[at]!] = 0;
    if (count > most) return -1;
    for (let at = 0; at < changes; at++) before[this.changed[at]!] = conductance[this.changed[at]!]!;
    return count;
  }

  /** Adds the columns on the way from `k` to the last one to the list; returns its new length. */
  private mark(k: number, count: number): number {
    const { marked, list } = this;
    const { start, row } = this.columns;
    while (k >= 0 && marked[k] === 0) {
      marked[k] = 1;
      list[count++] = k;
      k = start[k]! < start[k + 1]! ? row[start[k]!]! : -1;
    }
    return count;
  }

  private column(k: number, conductance: Float64Array): void {
    const { start, slot, target, share, whole, pivot, ground, earthed, groundShare, largest } = this.columns;
    const { branchStart, branches, feederStart, feeders, columnOf, targetStart } = this;
    const first = start[k]!;
    const end = start[k + 1]!;
    share.fill(0, first, end);
    let toGround = 0;
    for (let at = branchStart[k]!; at < branchStart[k + 1]!; at++) {
      const e = branches[at]!;
      const s = slot[e]!;
      if (s >= 0) share[s]! += conductance[e]!;
      else toGround += conductance[e]!;
    }
    toGround += earthed[k]!;
    for (let at = feederStart[k]!; at < feederStart[k + 1]!; at++) {
      const p = feeders[at]!;
      const j = columnOf[p]!;
      const f = share[p]!;
      if (f === 0 || pivot[j] === 0) continue;
      toGround += f * ground[j]!;
      const last = start[j + 1]!;
      const place = p - start[j]!;
      let t = targetStart[j]! + place * (last - start[j]! - 1) - (place * (place - 1)) / 2;
      for (let q = p + 1; q < last; q++) share[target[t++]!]! += f * whole[q]!;
    }
    ground[k] = toGround;
    let sum = toGround;
    let most = toGround;
    let chosen = -1;
    for (let p = first; p < end; p++) {
      const g = share[p]!;
      sum += g;
      if (g > most) {
        most = g;
        chosen = p;
      }
    }
    pivot[k] = sum;
    largest[k] = chosen;
    groundShare[k] = sum === 0 ? 0 : toGround / sum;
    for (let p = first; p < end; p++) {
      const g = share[p]!;
      whole[p] = g;
      if (sum !== 0) share[p] = g / sum;
    }
  }
}

/** The island of position `k`, those after it being known. */
function islandOf({ size, start, row, share, ground, island }: Columns, k: number): number {
  if (ground[k]! > 0) return size;
  for (let p = start[k]!; p < start[k + 1]!; p++) if (share[p]! > 0) return island[row[p]!]!;
  return k;
}

export function findIslands(columns: Columns): void {
  const { size, grounded, island } = columns;
  grounded[size] = 1;
  island[size] = size;
  for (let k = size - 1; k >= 0; k--) {
    const root = islandOf(columns, k);
    island[k] = root;
    grounded[k] = root === size ? 1 : 0;
  }
}

/** Items 0..count-1 by group, in order within each; `groupOf` may say -1 for none. */
function grouped(groups: number, count: number, groupOf: (item: number) => number): [Int32Array, Int32Array] {
  const start = new Int32Array(groups + 1);
  for (let item = 0; item < count; item++) {
    const group = groupOf(item);
    if (group >= 0) start[group + 1]! += 1;
  }
  for (let group = 0; group < groups; group++) start[group + 1]! += start[group]!;
  const items = new Int32Array(start[groups]!);
  const next = start.slice();
  for (let item = 0; item < count; item++) {
    const group = groupOf(item);
    if (group >= 0) items[next[group]!++] = item;
  }
  return [start, items];
}
