/**
 * Elimination of a network of positive conductances: sparse LDLt in minimum-degree order. The ordering and the
 * pattern are found once for a topology; `factor` takes new conductances, `solve` new injected currents.
 *
 * Two things keep every digit, however far the conductances lie apart (1 uohm joints beside 10 Gohm leaks):
 *  - Pivots are sums of what is left at a node, never differences (the star-mesh step; in Markov chains the
 *    algorithm of Grassmann, Taksar and Heyman, Operations Research 33, 1985). The conductance to chassis is kept
 *    apart from the others, so that a leak is not rounded away beside a joint.
 *  - When a node is eliminated its injected current is shared out among its neighbours and the chassis. The largest
 *    share is what the others leave over, in double-double sums (Knuth's exact sum of two), so that no current
 *    appears or vanishes: 300 A drawn across a floating pack would otherwise leave 1e-14 A to shift it by 1e-4 V.
 *
 * Each step is then equal to a change of the conductances by a few units in the last place, so that the volts are
 * right to about (number of nodes) * 1e-16 of the largest voltage.
 */
import { givenOrder, minimumDegreeOrder } from "./ordering.ts";
import { type Columns, findIslands, NONE, Refactoring } from "./refactoring.ts";

/** A conductance from a position to the chassis. */
export interface Earth {
  readonly at: number;
  readonly siemens: number;
}
const NO_EARTHS: readonly Earth[] = [];
const NOWHERE: readonly number[] = [];

/** What solves for the voltages of a network of conductances; all arrays by position. */
export interface LinearSolver {
  readonly size: number;
  readonly position: Int32Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly grounded: Uint8Array;
  readonly island: Int32Array;
  factor(conductance: Float64Array): void;
  /** An elimination of these conductances in which no figure comes of a difference. */
  complete(conductance: Float64Array): Elimination;
  solve(high: Float64Array, low: Float64Array, x: Float64Array, far: number): number;
  /** As `solve`, in plain sums: for injected currents that are themselves no more than rounding. */
  correct(y: Float64Array, x: Float64Array): void;
}

export class Elimination implements Columns, LinearSolver {
  /** Number of nodes without the chassis; positions 0..size-1 are nodes in order of elimination, `size` is the chassis. */
  readonly size: number;
  /** Position of each node (chassis: `size`). */
  readonly position: Int32Array;
  /** Positions of the ends of each branch. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** By position: 1 where a path of conductance leads to the chassis. */
  readonly grounded: Uint8Array;
  /** By position: a position that stands for all nodes joined with it by conductance (the chassis for grounded ones). */
  readonly island: Int32Array;

  readonly start: Int32Array;
  readonly row: Int32Array;
  readonly slot: Int32Array;
  readonly target: Int32Array;
  /** Share of each entry, f = g / pivot. */
  readonly share: Float64Array;
  readonly whole: Float64Array;
  readonly pivot: Float64Array;
  readonly groundShare: Float64Array;
  /** Entry that takes what the others leave over; -1 where the chassis takes most. */
  readonly largest: Int32Array;
  readonly ground: Float64Array;
  /** Conductances taken last; `fresh` before there are any. */
  private readonly factored: Float64Array;
  private fresh = true;
  /** Changes with the conductances taken. */
  version = 0;
  /** Siemens laid from a position to the chassis besides the branches, by position. */
  readonly earthed: Float64Array;
  private readonly earthedAt = new Set<number>();
  private refactoring: Refactoring | undefined;
  private empty: { readonly high: Float64Array; readonly low: Float64Array } | undefined;

  /** `a[i]`, `b[i]`: ends of branch i; node 0 is the chassis. Time: near linear for wiring, which has few loops. With the order of `like` if given. */
  constructor(nodeCount: number, a: Int32Array, b: Int32Array, like?: Elimination) {
    const size = nodeCount - 1;
    this.size = size;
    const { order, columns, lengths } =
      like === undefined ? minimumDegreeOrder(nodeCount, a, b) : givenOrder(like.position, a, b);
    this.position = new Int32Array(nodeCount);
    this.position[0] = size;
    for (let k = 0; k < size; k++) this.position[order[k]!] = k;

    const start = new Int32Array(size + 1);
    for (let k = 0; k < size; k++) start[k + 1] = start[k]! + lengths[k]!;
    const row = new Int32Array(start[size]!);
    let updates = 0;
    for (let k = 0; k < size; k++) {
      const column = columns[k]!;
      const at = start[k]!;
      const length = lengths[k]!;
      for (let p = 0; p < length; p++) row[at + p] = this.position[column[p]!]!;
      sortRange(row, at, start[k + 1]!);
      updates += (length * (length - 1)) / 2;
    }
    this.start = start;
    this.row = row;

    const count = a.length;
    this.from = new Int32Array(count);
    this.to = new Int32Array(count);
    this.slot = new Int32Array(count);
    for (let e = 0; e < count; e++) {
      const i = this.position[a[e]!]!;
      const j = this.position[b[e]!]!;
      this.from[e] = i;
      this.to[e] = j;
      const low = Math.min(i, j);
      const high = Math.max(i, j);
      this.slot[e] = low === high ? NONE : high === size ? -1 - low : this.find(low, high);
    }
    this.target = new Int32Array(updates);
    let t = 0;
    for (let k = 0; k < size; k++) {
      for (let p = start[k]!; p < start[k + 1]!; p++) {
        for (let q = p + 1; q < start[k + 1]!; q++) this.target[t++] = this.find(row[p]!, row[q]!);
      }
    }
    this.factored = new Float64Array(count);
    this.share = new Float64Array(row.length);
    this.whole = new Float64Array(row.length);
    this.pivot = new Float64Array(size);
    this.ground = new Float64Array(size);
    this.earthed = new Float64Array(size);
    this.groundShare = new Float64Array(size);
    this.largest = new Int32Array(size);
    this.grounded = new Uint8Array(size + 1);
    this.island = new Int32Array(size + 1);
  }

  /** Where the entry (column `low`, row `high`) is stored. */
  private find(low: number, high: number): number {
    let first = this.start[low]!;
    let last = this.start[low + 1]! - 1;
    while (first < last) {
      const middle = (first + last) >> 1;
      if (this.row[middle]! < high) first = middle + 1;
      else last = middle;
    }
    return first;
  }

  /**
   * Takes the conductance of each branch (siemens, >= 0; 0 = open; what is behind the last is left) and eliminates. Where few differ from those taken
   * last, only the columns that depend on them are done again, to the same figures. `earths`: conductances to the
   * chassis besides, by position; they change no pattern, as that of the chassis is kept apart.
   */
  factor(conductance: Float64Array, earths: readonly Earth[] = NO_EARTHS): void {
    const { factored } = this;
    const count = factored.length;
    const moved = this.earth(earths);
    const columns = this.fresh ? -1 : (this.refactoring ??= new Refactoring(this)).factor(factored, conductance, moved);
    if (columns === 0) return;
    if (columns < 0) {
      this.factorAll(conductance);
      for (let e = 0; e < count; e++) factored[e] = conductance[e]!;
    }
    this.version++;
    this.fresh = false;
  }

  complete(conductance: Float64Array): this {
    this.factor(conductance);
    return this;
  }

  /** Two arrays of zeros for injected currents, shared by all who ask. */
  scratch(): { readonly high: Float64Array; readonly low: Float64Array } {
    const { size } = this;
    this.empty ??= { high: new Float64Array(size + 1), low: new Float64Array(size + 1) };
    this.empty.high.fill(0);
    this.empty.low.fill(0);
    return this.empty;
  }

  /** Lays the earths in; returns the positions at which they differ from those laid in before. */
  private earth(earths: readonly Earth[]): readonly number[] {
    const { earthed, earthedAt } = this;
    if (earths.length === 0 && earthedAt.size === 0) return NOWHERE;
    const before = new Map([...earthedAt].map((k) => [k, earthed[k]!]));
    for (const k of earthedAt) earthed[k] = 0;
    earthedAt.clear();
    for (const { at, siemens } of earths) {
      earthed[at]! += siemens;
      earthedAt.add(at);
    }
    return [...new Set([...before.keys(), ...earthedAt])].filter((k) => earthed[k] !== (before.get(k) ?? 0));
  }

  private factorAll(conductance: Float64Array): void {
    const { size, start, row, slot, target, share, whole, pivot, ground, groundShare, largest } = this;
    share.fill(0);
    ground.fill(0);
    for (let e = 0; e < slot.length; e++) {
      const s = slot[e]!;
      if (s >= 0) share[s]! += conductance[e]!;
      else if (s !== NONE) ground[-1 - s]! += conductance[e]!;
    }
    for (const k of this.earthedAt) ground[k]! += this.earthed[k]!;
    let t = 0;
    for (let k = 0; k < size; k++) {
      const first = start[k]!;
      const end = start[k + 1]!;
      const toGround = ground[k]!;
      let sum = toGround;
      let most = toGround;
      let at = -1;
      for (let p = first; p < end; p++) {
        const g = share[p]!;
        sum += g;
        if (g > most) {
          most = g;
          at = p;
        }
      }
      pivot[k] = sum;
      largest[k] = at;
      if (sum === 0) {
        groundShare[k] = 0;
        t += ((end - first) * (end - first - 1)) / 2;
        continue;
      }
      groundShare[k] = toGround / sum;
      for (let p = first; p < end; p++) {
        const g = share[p]!;
        const f = g / sum;
        whole[p] = g;
        share[p] = f;
        if (f === 0) {
          t += end - p - 1;
          continue;
        }
        ground[row[p]!]! += f * toGround;
        for (let q = p + 1; q < end; q++) share[target[t++]!]! += f * share[q]!;
      }
    }
    findIslands(this);
  }

  /**
   * Voltages (by position, chassis 0) for injected currents given as double-double sums (`high` + `low`, by position;
   * both are overwritten). An island without path to the chassis keeps its last node where `x` has it. Where current is
   * injected into such an island that cannot leave, its last node is moved the way the current pushes, by `far` volts and
   * past the chassis at least (`far` 0: not at all).
   * Returns the sum of current times that movement; 0 only if nothing pushes.
   */
  solve(high: Float64Array, low: Float64Array, x: Float64Array, far: number): number {
    const { size, start, row, share, pivot, groundShare, largest } = this;
    let strongest = 0;
    for (let k = 0; k < size; k++) strongest = Math.max(strongest, Math.abs(high[k]!));
    for (let k = 0; k < size; k++) {
      const head = high[k]!;
      const y = head + low[k]!;
      if (y === 0) {
        high[k] = 0;
        continue;
      }
      const end = start[k + 1]!;
      const chosen = largest[k]!;
      let rest = y;
      let restLow = low[k]! - (y - head);
      high[k] = y;
      for (let p = start[k]!; p < end; p++) {
        if (p === chosen) continue;
        const part = share[p]! * y;
        if (part === 0) continue;
        addExactly(high, low, row[p]!, part);
        const next = rest - part;
        const back = next - rest;
        restLow += rest - (next - back) - (part + back);
        rest = next;
      }
      if (chosen < 0) continue;
      const part = groundShare[k]! * y;
      const next = rest - part;
      const back = next - rest;
      restLow += rest - (next - back) - (part + back);
      const into = row[chosen]!;
      addExactly(high, low, into, next);
      low[into]! += restLow;
    }
    let pushed = 0;
    x[size] = 0;
    for (let k = size - 1; k >= 0; k--) {
      const d = pivot[k]!;
      const y = high[k]!;
      if (d === 0) {
        // Currents that cancel do so to double-double precision; what stays above that is pushed in.
        if (Math.abs(y) > 1e-20 * strongest) {
          const way = far > 0 ? far + 2 * Math.abs(x[k]!) : 0;
          x[k]! += y > 0 ? way : -way;
          pushed += Math.abs(y) * Math.max(way, 1);
        }
        continue;
      }
      let v = y / d;
      for (let p = start[k]!; p < start[k + 1]!; p++) v += share[p]! * x[row[p]!]!;
      x[k] = v;
    }
    return pushed;
  }

  correct(y: Float64Array, x: Float64Array): void {
    const { size, start, row, share, pivot, groundShare, largest } = this;
    for (let k = 0; k < size; k++) {
      const all = y[k]!;
      if (all === 0) continue;
      const end = start[k + 1]!;
      const chosen = largest[k]!;
      let rest = all - groundShare[k]! * all;
      for (let p = start[k]!; p < end; p++) {
        if (p === chosen) continue;
        const part = share[p]! * all;
        y[row[p]!]! += part;
        rest -= part;
      }
      if (chosen >= 0) y[row[chosen]!]! += rest;
    }
    x[size] = 0;
    for (let k = size - 1; k >= 0; k--) {
      const d = pivot[k]!;
      if (d === 0) continue;
      let v = y[k]! / d;
      for (let p = start[k]!; p < start[k + 1]!; p++) v += share[p]! * x[row[p]!]!;
      x[k] = v;
    }
  }

  /**
   * Diagonal of the inverse, by position: the resistance from each node to the chassis (in an island without chassis:
   * to its last node). Only entries on the factor's pattern are formed (Takahashi, Fagan and Chin, 1973), all as sums.
   */
  inverseDiagonal(): Float64Array {
    const { size, start, row, share, pivot, target } = this;
    const diagonal = new Float64Array(size + 1);
    const entry = new Float64Array(share.length);
    let t = target.length;
    for (let k = size - 1; k >= 0; k--) {
      const first = start[k]!;
      const end = start[k + 1]!;
      t -= ((end - first) * (end - first - 1)) / 2;
      let at = t;
      for (let p = first; p < end; p++) {
        entry[p]! += share[p]! * diagonal[row[p]!]!;
        for (let q = p + 1; q < end; q++) {
          const z = entry[target[at++]!]!;
          entry[p]! += share[q]! * z;
          entry[q]! += share[p]! * z;
        }
      }
      let sum = pivot[k]! > 0 ? 1 / pivot[k]! : 0;
      for (let p = first; p < end; p++) sum += share[p]! * entry[p]!;
      diagonal[k] = sum;
    }
    return diagonal;
  }
}

/** Adds `value` to the double-double sum at `at`, exactly (Knuth's two-sum). */
export function addExactly(high: Float64Array, low: Float64Array, at: number, value: number): void {
  const before = high[at]!;
  const sum = before + value;
  const back = sum - before;
  low[at]! += before - (sum - back) + (value - back);
  high[at] = sum;
}

/** Insertion sort: columns of wiring have a handful of entries. */
function sortRange(list: Int32Array, first: number, end: number): void {
  if (end - first > 32) {
    list.subarray(first, end).sort();
    return;
  }
  for (let i = first + 1; i < end; i++) {
    const value = list[i]!;
    let j = i - 1;
    for (; j >= first && list[j]! > value; j--) list[j + 1] = list[j]!;
    list[j + 1] = value;
  }
}
