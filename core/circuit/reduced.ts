/**
 * The figures of a reduction (reduction.ts) for elements as they once stood, and what follows from them for the nodes and
 * branches that were eliminated. All figures are sums, as in elimination.ts.
 */
import type { Element } from "../parts/element.ts";
import type { PassingSolution } from "./electrical.ts";
import { conductanceOf } from "./pieces.ts";

/**
 * What stays the same whatever the elements are. Positions: the `size` eliminated nodes in order, then those that stay,
 * the chassis last.
 */
export interface Pattern {
  readonly size: number;
  /** Nodes that stay, ascending, the chassis first. */
  readonly nodes: Int32Array;
  /** By node. */
  readonly position: Int32Array;
  /** Branches that stay, ascending, and by branch the place among them or -1. */
  readonly branches: Int32Array;
  readonly place: Int32Array;
  /** Branches that are eliminated, and by branch the place among them or -1; from where to where, and into which entry. */
  readonly plain: Int32Array;
  readonly plainPlace: Int32Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** An entry, or -1 - position for one to the chassis, or NO_ENTRY. */
  readonly slot: Int32Array;
  /** Columns of the eliminated nodes: where each starts, and the position of each entry's row, ascending in a column. */
  readonly start: Int32Array;
  readonly row: Int32Array;
  /** For each two entries of a column: the entry between their rows. */
  readonly target: Int32Array;
  /** Entries behind those of the columns: positions that stay and get a conductance between them. */
  readonly pairs: readonly (readonly [number, number])[];
  /** Positions that stay and get a conductance to the chassis. */
  readonly earths: readonly number[];
  /** Room to work in, by position. */
  readonly ground: Float64Array;
  readonly weight: Float64Array;
}

/** Slot of a branch that begins and ends at one node. */
export const NO_ENTRY = -0x80000000;

/** Volts to chassis (NaN = afloat) and currents from a to b at one moment. */
export interface Figures {
  voltsAt(node: number): number;
  currentAt(branch: number): number;
}

/** Figures of the nodes and branches that stay. */
export type Kept = Pick<PassingSolution, "volts" | "potentials" | "currents">;

/** A sum of potentials of nodes that stay: which (in the order of `Pattern.nodes`), and how much of each. */
interface Sum {
  readonly nodes: readonly number[];
  readonly parts: readonly number[];
}

/** What an eliminated node is joined with where it is not with a node that stays. */
const GROUNDED = -1;
const AFLOAT = -2;

export class Reduced {
  /** For the reduction's solver: those that stay; behind them what the given conductances replace. */
  readonly elements: readonly Element[];
  /** Conductances that elimination leaves between those that stay, siemens: the solver's last branches. */
  readonly siemens: Float64Array;
  readonly #pattern: Pattern;
  readonly #share: Float64Array;
  readonly #conductance: Float64Array;
  /** By eliminated node: a node that stays and that it is joined with, or GROUNDED or AFLOAT. */
  readonly #anchor: Int32Array;

  constructor(pattern: Pattern, all: readonly Element[], elements: readonly Element[]) {
    const { plain, row, pairs, earths, size } = pattern;
    this.elements = elements;
    this.#pattern = pattern;
    this.#conductance = new Float64Array(plain.length);
    for (let at = 0; at < plain.length; at++) this.#conductance[at] = siemens(all[plain[at]!]!);
    this.#share = new Float64Array(row.length + pairs.length);
    this.#anchor = new Int32Array(size);
    this.siemens = new Float64Array(pairs.length + earths.length);
    this.#eliminate();
  }

  #eliminate(): void {
    const { start, row, target, ground, slot, size, pairs, earths } = this.#pattern;
    const [share, conductance] = [this.#share, this.#conductance];
    ground.fill(0);
    for (let at = 0; at < slot.length; at++) {
      const s = slot[at]!;
      if (s >= 0) share[s]! += conductance[at]!;
      else if (s !== NO_ENTRY) ground[-1 - s]! += conductance[at]!;
    }
    let t = 0;
    for (let k = 0; k < size; k++) {
      const end = start[k + 1]!;
      let sum = ground[k]!;
      for (let p = start[k]!; p < end; p++) sum += share[p]!;
      for (let p = start[k]!; p < end; p++) {
        const f = share[p]! === 0 ? 0 : share[p]! / sum;
        share[p] = f;
        if (f === 0) {
          t += end - p - 1;
          continue;
        }
        ground[row[p]!]! += f * ground[k]!;
        for (let q = p + 1; q < end; q++) share[target[t++]!]! += f * share[q]!;
      }
    }
    for (let k = size - 1; k >= 0; k--) this.#anchor[k] = ground[k]! > 0 ? GROUNDED : this.#joined(k);
    this.siemens.set(share.subarray(row.length));
    earths.forEach((position, m) => (this.siemens[pairs.length + m] = ground[position]!));
  }

  #joined(k: number): number {
    const { start, row, size } = this.#pattern;
    for (let p = start[k]!; p < start[k + 1]!; p++) {
      const i = row[p]!;
      if (this.#share[p]! > 0) return i < size ? this.#anchor[i]! : i - size + 1;
    }
    return AFLOAT;
  }

  /** Potentials of the eliminated nodes into `x`, by position. */
  substitute({ potentials }: Kept, x: Float64Array): void {
    const { start, row, nodes, size } = this.#pattern;
    const share = this.#share;
    for (let r = 1; r < nodes.length; r++) x[size + r - 1] = potentials[r]!;
    x[x.length - 1] = 0;
    for (let k = size - 1; k >= 0; k--) {
      let v = 0;
      for (let p = start[k]!; p < start[k + 1]!; p++) v += share[p]! * x[row[p]!]!;
      x[k] = v;
    }
  }

  /** Volts of a node where potentials are `x`. */
  voltsIn(node: number, kept: Kept, x: Float64Array): number {
    const { position, size } = this.#pattern;
    const k = position[node]!;
    if (k >= size) return k === x.length - 1 ? 0 : kept.volts[k - size + 1]!;
    return this.#isAfloat(k, kept) ? NaN : x[k]!;
  }

  /** Current of a branch where potentials are `x`. */
  currentIn(branch: number, kept: Kept, x: Float64Array): number {
    const { place, plainPlace, from, to } = this.#pattern;
    const own = place[branch]!;
    if (own >= 0) return kept.currents[own]!;
    const at = plainPlace[branch]!;
    const g = this.#conductance[at]!;
    return g === 0 ? 0 : g * (x[from[at]!]! - x[to[at]!]!);
  }

  /** What tells the volts of a node, without those of others. */
  voltsOf(node: number): (kept: Kept) => number {
    const { position, size } = this.#pattern;
    const k = position[node]!;
    if (node === 0) return () => 0;
    if (k >= size) return ({ volts }) => volts[k - size + 1]!;
    const sum = this.#sum([[k, 1]]);
    return (kept) => (this.#isAfloat(k, kept) ? NaN : total(sum, kept));
  }

  /** What tells the current of a branch. */
  currentOf(branch: number): (kept: Kept) => number {
    const { place, plainPlace, from, to } = this.#pattern;
    const own = place[branch]!;
    if (own >= 0) return ({ currents }) => currents[own]!;
    const at = plainPlace[branch]!;
    const g = this.#conductance[at]!;
    if (g === 0) return () => 0;
    const sum = this.#sum([
      [from[at]!, g],
      [to[at]!, -g],
    ]);
    return (kept) => total(sum, kept);
  }

  #isAfloat(k: number, { volts }: Kept): boolean {
    const anchor = this.#anchor[k]!;
    return anchor === AFLOAT || (anchor !== GROUNDED && Number.isNaN(volts[anchor]!));
  }

  /** Parts of positions as parts of those that stay: each is handed on along its column, until only these are left. */
  #sum(from: readonly (readonly [position: number, part: number])[]): Sum {
    const { start, row, size, weight } = this.#pattern;
    const chassis = weight.length - 1;
    const waiting: number[] = [];
    const nodes = new Set<number>();
    const add = (position: number, part: number): void => {
      if (position === chassis) return;
      weight[position]! += part;
      if (position >= size) nodes.add(position);
      else if (!waiting.includes(position)) waiting.push(position);
    };
    for (const [position, part] of from) add(position, part);
    while (waiting.length > 0) {
      const k = waiting.reduce((least, each) => Math.min(least, each));
      waiting.splice(waiting.indexOf(k), 1);
      const part = weight[k]!;
      weight[k] = 0;
      for (let p = start[k]!; p < start[k + 1]!; p++) if (this.#share[p] !== 0) add(row[p]!, part * this.#share[p]!);
    }
    const kept = [...nodes];
    const parts = kept.map((position) => weight[position]!);
    for (const position of kept) weight[position] = 0;
    return { nodes: kept.map((position) => position - size + 1), parts };
  }
}

function total({ nodes, parts }: Sum, { potentials }: Kept): number {
  let sum = 0;
  for (let at = 0; at < nodes.length; at++) sum += parts[at]! * potentials[nodes[at]!]!;
  return sum;
}

/** The whole network at one moment, worked out where somebody looks. */
export class Sight implements Figures {
  readonly #x: Float64Array;
  #reduced: Reduced | undefined;
  #kept: Kept | undefined;
  #isFilled = false;

  constructor(nodeCount: number) {
    this.#x = new Float64Array(nodeCount);
  }

  /** Shows this moment from now on. */
  of(reduced: Reduced, kept: Kept): this {
    if (this.#reduced === reduced && this.#kept === kept) return this;
    this.#reduced = reduced;
    this.#kept = kept;
    this.#isFilled = false;
    return this;
  }

  voltsAt(node: number): number {
    return this.#fill().voltsIn(node, this.#kept!, this.#x);
  }

  currentAt(branch: number): number {
    return this.#fill().currentIn(branch, this.#kept!, this.#x);
  }

  #fill(): Reduced {
    const reduced = this.#reduced!;
    if (!this.#isFilled) reduced.substitute(this.#kept!, this.#x);
    this.#isFilled = true;
    return reduced;
  }
}

function siemens(element: Element): number {
  if (element.type !== "resistance" && !(element.type === "contact" && element.closed)) return 0;
  return conductanceOf(element, element.resistance);
}
