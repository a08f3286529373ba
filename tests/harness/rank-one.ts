/**
 * Single faults by updates: the network eliminated once, each fault a correction of rank one (Sherman and Morrison,
 * Annals of Mathematical Statistics 21, 1950). Measured against solving again, which the product does; here so that the
 * comparison can be made anew. A correction is refused where it would subtract nearly equal figures (an opened wire
 * that held a branch alone, a short between points that little joins) or where some curve leaves its piece.
 */
import { addExactly, Elimination } from "../../core/circuit/elimination.ts";
import type { ElectricalSolution } from "../../core/circuit/electrical.ts";
import { Curves } from "../../core/circuit/pieces.ts";
import type { ElectricalNetwork } from "./electrical-networks.ts";

export type Fault = { readonly open: number } | { readonly short: readonly [number, number] };

/** Siemens of a bolted short. */
export const BOLTED = 1e6;
/** What is left of the loop when the opened branch is taken away, as a part of it, below which digits are lost. */
const LEAST_LEFT = 1e-4;
/** Ohms between the ends of a short above which it is refused. */
const WELL_JOINED = 1000;
/** Amperes that no element carries. */
const NOTHING = 1e-9;
/** Volts by which a curve may pass a corner. */
const SLACK = 1e-9;

export class RankOne {
  readonly #network: ElectricalNetwork;
  readonly #curves: Curves;
  readonly #elimination: Elimination;
  readonly #volts: Float64Array;
  readonly #high: Float64Array;
  readonly #low: Float64Array;
  readonly #z: Float64Array;
  readonly #now: Float64Array;

  constructor(network: ElectricalNetwork, solved: ElectricalSolution) {
    const { nodeCount, a, b, elements } = network;
    this.#network = network;
    this.#curves = new Curves(a.length);
    this.#curves.load(elements, solved.pieces, undefined);
    this.#elimination = new Elimination(nodeCount, Int32Array.from(a), Int32Array.from(b));
    this.#elimination.factor(this.#curves.conductance);
    this.#volts = solved.volts;
    const { size } = this.#elimination;
    this.#high = new Float64Array(size + 1);
    this.#low = new Float64Array(size + 1);
    this.#z = new Float64Array(size + 1);
    this.#now = new Float64Array(nodeCount);
  }

  /** Volts by node with the fault (written over by the next one), or undefined where it has to be solved again. */
  volts(fault: Fault): Float64Array | undefined {
    const { a, b } = this.#network;
    const { position, island, size } = this.#elimination;
    const [one, other] = "short" in fault ? fault.short : [a[fault.open]!, b[fault.open]!];
    const [i, j] = [position[one]!, position[other]!];
    if (i === j || island[i] !== island[j]) return undefined;
    this.#high.fill(0);
    this.#low.fill(0);
    this.#z.fill(0);
    if (i !== size) addExactly(this.#high, this.#low, i, 1);
    if (j !== size) addExactly(this.#high, this.#low, j, -1);
    this.#elimination.solve(this.#high, this.#low, this.#z, 0);
    const ohms = this.#z[i]! - this.#z[j]!;
    const across = this.#volts[one]! - this.#volts[other]!;
    let amps: number;
    if ("short" in fault) {
      if (!(ohms < WELL_JOINED)) return undefined;
      amps = -across / (1 / BOLTED + ohms);
    } else {
      const siemens = this.#curves.conductance[fault.open]!;
      const left = 1 - siemens * ohms;
      if (!(left > LEAST_LEFT)) return undefined;
      amps = (siemens * across) / left;
    }
    const now = this.#now;
    for (let node = 0; node < now.length; node += 1) now[node] = this.#volts[node]! + amps * this.#z[position[node]!]!;
    return this.#keepsPieces(now) ? now : undefined;
  }

  #keepsPieces(now: Float64Array): boolean {
    const { a, b } = this.#network;
    const { bent, bentCount, piece, conductance, emf, current } = this.#curves;
    for (let at = 0; at < bentCount; at += 1) {
      const e = bent[at]!;
      const volts = now[a[e]!]! - now[b[e]!]!;
      if (this.#curves.pieceAt(e, volts, SLACK) !== piece[e]) return false;
      // A dead end behind a curve that conducts nothing may stand anywhere: solving again puts it in its place.
      const siemens = conductance[e]!;
      if (siemens > 0 && Math.abs(siemens * (volts - emf[e]!) + current[e]!) < NOTHING) return false;
    }
    return true;
  }
}
