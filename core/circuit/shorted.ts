/**
 * The elimination of a network with a few shorts laid into it, by the factor of the network without them: a short
 * between nodes i and j draws the current that its own resistance and that of the network between them let through
 * (Thevenin; as a matrix identity Sherman and Morrison, Annals of Mathematical Statistics 21, 1950). That subtracts, so
 * it is used only between nodes that the network joins well anyway; elsewhere the network is eliminated with its shorts.
 * A short to the chassis changes no pattern: it goes into the elimination itself.
 */
import { addExactly, Elimination } from "./elimination.ts";
import type { Earth, LinearSolver } from "./elimination.ts";

/**
 * Resistance of the network between the ends of a short above which the short is eliminated like any branch: what
 * subtracting loses is then below 1e-13 of the voltages, at 1e-16 for each figure and joints of 1 uohm and more.
 */
const WELL_JOINED = 1000;

interface Short {
  /** Among the branches. */
  readonly place: number;
  readonly i: number;
  readonly j: number;
  /** Volts by position for 1 A into i and out of j, the shorts before this one laid in. */
  readonly z: Float64Array;
  /** Own resistance and the network's. */
  loop: number;
  siemens: number;
}

export class ShortedElimination implements LinearSolver {
  readonly size: number;
  readonly position: Int32Array;
  readonly from: Int32Array;
  readonly to: Int32Array;
  private readonly base: Elimination;
  private readonly nodeCount: number;
  private readonly a: Int32Array;
  private readonly b: Int32Array;
  /** Those between two nodes, and those to the chassis with their places among all. */
  private readonly shorts: readonly Short[];
  private readonly toChassis: readonly { readonly at: number; readonly place: number }[];
  private version = -1;
  /** Set while the shorts are eliminated like any branch. */
  private whole: Elimination | undefined;
  private all: Elimination | undefined;

  /** `a`, `b`: ends of the branches of `base`, the ends of the shorts behind them. */
  constructor(base: Elimination, nodeCount: number, a: Int32Array, b: Int32Array) {
    const first = base.from.length;
    const { size, position } = base;
    this.size = size;
    this.position = position;
    this.base = base;
    this.nodeCount = nodeCount;
    this.a = a;
    this.b = b;
    this.from = extended(base.from, a, position);
    this.to = extended(base.to, b, position);
    const all = Array.from({ length: a.length - first }, (_, s) => ({
      place: first + s,
      i: this.from[first + s]!,
      j: this.to[first + s]!,
    }));
    const isToChassis = ({ i, j }: { readonly i: number; readonly j: number }): boolean =>
      (i === size) !== (j === size);
    this.toChassis = all.filter(isToChassis).map(({ place, i, j }) => ({ at: Math.min(i, j), place }));
    this.shorts = all
      .filter((short) => !isToChassis(short))
      .map((short) => ({ ...short, z: new Float64Array(size + 1), loop: 0, siemens: 0 }));
  }

  get island(): Int32Array {
    return (this.whole ?? this.base).island;
  }

  get grounded(): Uint8Array {
    return (this.whole ?? this.base).grounded;
  }

  factor(conductance: Float64Array): void {
    const { base, shorts } = this;
    base.factor(conductance, this.earths(conductance));
    if (base.version === this.version && shorts.every(({ siemens, place }) => siemens === conductance[place])) {
      this.whole?.factor(conductance);
      return;
    }
    this.version = base.version;
    for (const short of shorts) short.siemens = conductance[short.place]!;
    this.whole = undefined;
    if (shorts.every((short, s) => this.isWellJoined(short, s))) return;
    this.whole = this.complete(conductance);
  }

  /** The network eliminated with its shorts, positions as here. */
  complete(conductance: Float64Array): Elimination {
    if (this.shorts.length === 0) {
      this.base.factor(conductance, this.earths(conductance));
      return this.base;
    }
    this.all ??= new Elimination(this.nodeCount, this.a, this.b, this.base);
    this.all.factor(conductance);
    return this.all;
  }

  private earths(conductance: Float64Array): readonly Earth[] {
    return this.toChassis.map(({ at, place }) => ({ at, siemens: conductance[place]! }));
  }

  private isWellJoined(short: Short, s: number): boolean {
    const { i, j, z } = short;
    short.loop = Infinity;
    if (i === j || short.siemens === 0) return true;
    if (this.base.island[i] !== this.base.island[j]) return false;
    const { high, low } = this.base.scratch();
    z.fill(0);
    addExactly(high, low, i, 1);
    addExactly(high, low, j, -1);
    this.base.solve(high, low, z, 0);
    this.takeOut(z, s);
    const between = z[i]! - z[j]!;
    short.loop = 1 / short.siemens + between;
    return between < WELL_JOINED;
  }

  solve(high: Float64Array, low: Float64Array, x: Float64Array, far: number): number {
    if (this.whole !== undefined) return this.whole.solve(high, low, x, far);
    const pushed = this.base.solve(high, low, x, far);
    this.takeOut(x, this.shorts.length);
    return pushed;
  }

  correct(y: Float64Array, x: Float64Array): void {
    if (this.whole !== undefined) {
      this.whole.correct(y, x);
      return;
    }
    this.base.correct(y, x);
    this.takeOut(x, this.shorts.length);
  }

  /** Takes out what the first `count` shorts draw. */
  private takeOut(x: Float64Array, count: number): void {
    for (let s = 0; s < count; s++) {
      const { i, j, z, loop } = this.shorts[s]!;
      const current = (x[i]! - x[j]!) / loop;
      if (current === 0) continue;
      for (let k = 0; k < x.length; k++) x[k]! -= current * z[k]!;
    }
  }
}

function extended(own: Int32Array, ends: Int32Array, position: Int32Array): Int32Array {
  const all = new Int32Array(ends.length);
  all.set(own);
  for (let e = own.length; e < ends.length; e++) all[e] = position[ends[e]!]!;
  return all;
}
