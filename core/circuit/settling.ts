/**
 * Finds the pieces (see pieces.ts) in which all elements agree with the voltages they lead to. No curve falls, so the
 * solution is the lowest point of a convex function of the node voltages (the co-content of Millar, Philosophical
 * Magazine 42, 1951). Each step solves the network for the pieces held; where that leaves some piece too far behind,
 * the step is cut to the lowest point along its direction, which is found exactly, corner by corner. The function
 * falls with every step, so no set of pieces can come round again.
 */
import { addExactly, type LinearSolver } from "./elimination.ts";
import type { Curves } from "./pieces.ts";

/**
 * A piece counts as held while its voltage is off by this part of the largest voltage: rounding, and more of it the
 * longer the search takes, since a point that lies on a corner can come out on either side.
 */
const SLACK = 4e-15;
const PATIENCE = 20;
const LONGEST_WAY = 200;
/** Part of the largest current below which an element carries nothing: far less than any leak, far more than rounding. */
const NOTHING = 1e-18;

export class Settling {
  iterations = 0;
  private elimination: LinearSolver;
  private readonly curves: Curves;
  private readonly x: Float64Array;
  private readonly next: Float64Array;
  private readonly high: Float64Array;
  private readonly low: Float64Array;
  private started = false;
  /** Which side of a corner counts after a step cut short: 1 ahead, -1 behind. */
  private look = 1;
  private corners = new Float64Array(16);

  constructor(elimination: LinearSolver, curves: Curves) {
    const length = elimination.size + 1;
    this.elimination = elimination;
    this.curves = curves;
    this.x = new Float64Array(length);
    this.next = new Float64Array(length);
    this.high = new Float64Array(length);
    this.low = new Float64Array(length);
  }

  /** Starts anew, after the curves were loaded; `elimination` has the positions of the one it was made with. */
  begin(elimination: LinearSolver): void {
    this.elimination = elimination;
    this.iterations = 0;
    this.started = false;
    this.x.fill(0);
    if (this.corners.length < 2 * this.curves.bentCount) this.corners = new Float64Array(2 * this.curves.bentCount);
  }

  /** From where it stands to the fixed point; false if that was not reached within the bound. */
  settle(): boolean {
    const { curves, x, next } = this;
    for (let step = 0; step < LONGEST_WAY; step++) {
      const slack = SLACK * curves.scale * 10 ** Math.min(Math.floor(step / PATIENCE), 4);
      // The first pieces belong to no voltages yet: nothing to push away from.
      const pushed = this.substitute(this.started ? 10 * curves.scale + 1000 : 0);
      if (pushed === 0 && this.agrees(slack)) {
        x.set(next);
        this.started = true;
        return true;
      }
      this.look = 1;
      const along = this.started ? this.lowestAlong(pushed) : 1;
      this.started = true;
      this.advance(along, slack);
    }
    return false;
  }

  /** Voltages for the pieces held, into `next`. */
  private substitute(far: number): number {
    const { elimination, curves, high, low, next } = this;
    const { from, to } = elimination;
    const { conductance, emf, current } = curves;
    elimination.factor(conductance);
    high.fill(0);
    low.fill(0);
    for (let e = 0; e < from.length; e++) {
      const injected = conductance[e]! * emf[e]! - current[e]!;
      if (injected === 0) continue;
      addExactly(high, low, from[e]!, injected);
      addExactly(high, low, to[e]!, -injected);
    }
    next.set(this.x);
    this.iterations++;
    return elimination.solve(high, low, next, far);
  }

  private agrees(slack: number): boolean {
    const { curves, next } = this;
    const { from, to } = this.elimination;
    for (let q = 0; q < curves.bentCount; q++) {
      const e = curves.bent[q]!;
      if (curves.pieceAt(e, next[from[e]!]! - next[to[e]!]!, slack) !== curves.piece[e]) return false;
    }
    return true;
  }

  /** Moves the part `along` of the way to `next` and takes the pieces there; on a corner, as `look` says. */
  private advance(along: number, slack: number): void {
    const { curves, x, next } = this;
    const { from, to } = this.elimination;
    for (let q = 0; q < curves.bentCount; q++) {
      const e = curves.bent[q]!;
      const i = from[e]!;
      const j = to[e]!;
      const volts = x[i]! - x[j]!;
      const way = next[i]! - next[j]! - volts;
      const ahead = along === 0 || along === 1 ? 0 : this.look * Math.sign(way) * slack;
      curves.hold(e, curves.pieceAt(e, volts + along * way + ahead, 0));
    }
    if (along === 1) x.set(next);
    else for (let k = 0; k < x.length; k++) x[k]! += along * (next[k]! - x[k]!);
  }

  /** Part of the way to `next`, 0 to 1, at which the co-content stops falling. */
  private lowestAlong(pushed: number): number {
    const { curves, x, next } = this;
    const { from, to } = this.elimination;
    let stiffness = 0;
    for (let e = 0; e < from.length; e++) {
      const i = from[e]!;
      const j = to[e]!;
      const way = next[i]! - x[i]! - (next[j]! - x[j]!);
      stiffness += curves.conductance[e]! * way * way;
    }
    const slopeAt = (t: number): number => {
      let slope = stiffness * (t - 1) - pushed;
      for (let q = 0; q < curves.bentCount; q++) {
        const e = curves.bent[q]!;
        const i = from[e]!;
        const j = to[e]!;
        const way = next[i]! - x[i]! - (next[j]! - x[j]!);
        if (way !== 0) slope += way * curves.beyondPiece(e, x[i]! - x[j]! + t * way);
      }
      return slope;
    };
    const level = 1e-12 * (stiffness + pushed);
    let upper = slopeAt(1);
    if (!(upper > (pushed > 0 ? -level : 0))) return 1;
    const corners = this.cornersAlong();
    let low = 0;
    let lower = slopeAt(0);
    let high = 1;
    let first = 0;
    let last = corners.length;
    while (first < last) {
      const middle = (first + last) >> 1;
      const slope = slopeAt(corners[middle]!);
      if (slope >= -level) {
        high = corners[middle]!;
        upper = slope;
        last = middle;
      } else {
        low = corners[middle]!;
        lower = slope;
        first = middle + 1;
      }
    }
    if (!(lower < 0)) return low;
    // On the level from there on, as when something pushes an open end up to its ceiling: it stays on the near side.
    if (upper <= level) {
      this.look = -1;
      return high;
    }
    return low + ((high - low) * -lower) / (upper - lower);
  }

  private cornersAlong(): Float64Array {
    const { curves, corners, x, next } = this;
    const { from, to } = this.elimination;
    let count = 0;
    for (let q = 0; q < curves.bentCount; q++) {
      const e = curves.bent[q]!;
      const volts = x[from[e]!]! - x[to[e]!]!;
      const way = next[from[e]!]! - next[to[e]!]! - volts;
      if (way === 0) continue;
      const end = curves.corners(e, corners, count);
      for (let c = count; c < end; c++) {
        const t = (corners[c]! - volts) / way;
        if (t > 0 && t < 1) corners[count++] = t;
      }
    }
    return corners.subarray(0, count).sort();
  }

  /**
   * A dead end behind a diode that carries nothing may stand anywhere in a range of voltages, and would keep the place
   * where the search left it. Lets go of all elements that conduct without current (`currents` of `finish`) or with so
   * little that rounding decides on it: the dead ends start again at 0 V. Returns whether there were any; then it must
   * settle again.
   */
  release(currents: Float64Array): boolean {
    const { curves } = this;
    let amps = -1;
    let released = false;
    for (let q = 0; q < curves.bentCount; q++) {
      const e = curves.bent[q]!;
      const g = curves.conductance[e]!;
      const blocking = g > 0 ? curves.blockingBeside(e) : -1;
      if (blocking < 0) continue;
      if (amps < 0) amps = largest(currents);
      if (Math.abs(currents[e]!) > NOTHING * amps + 10 * SLACK * curves.scale * g) continue;
      curves.hold(e, blocking);
      released = true;
    }
    if (released) {
      this.x.fill(0);
      this.started = false;
    }
    return released;
  }

  /** Volts by position, where it now stands; those of islands without path to the chassis included. */
  get standing(): Float64Array {
    return this.x;
  }

  /** Volts of a minus volts of b of branch `e`, where it now stands. */
  voltsAcross(e: number): number {
    return this.x[this.elimination.from[e]!]! - this.x[this.elimination.to[e]!]!;
  }

  /** Current from a to b of branch `e`, where it now stands. */
  currentThrough(e: number): number {
    const { conductance, emf, current } = this.curves;
    return conductance[e]! * (this.voltsAcross(e) - emf[e]!) + current[e]!;
  }

  /** Whether conductance joins the ends of branch `e`. */
  joined(e: number): boolean {
    const { island, from, to } = this.elimination;
    return island[from[e]!] === island[to[e]!];
  }

  /** Resistance of the rest of the network, pieces held, between the ends of branch `e`. */
  resistanceAcross(e: number): number {
    const { elimination, high, low, next } = this;
    const i = elimination.from[e]!;
    const j = elimination.to[e]!;
    high.fill(0);
    low.fill(0);
    next.fill(0);
    addExactly(high, low, i, 1);
    addExactly(high, low, j, -1);
    elimination.solve(high, low, next, 0);
    return next[i]! - next[j]!;
  }

  /**
   * Currents by branch (a to b) into `currents`; returns the voltages by position. The voltages at the ends of a joint
   * agree in nearly all digits, so their difference leaves a current that is off by (1e-16 of the volts) / resistance.
   * What the nodes then lack is sent through the network once more and added. `moved`: currents of branches were set
   * since it settled. `plainly`: what they lack is told by plain sums, which is enough for currents; voltages stay, as
   * a leak would make volts of what such sums lose.
   */
  finish(currents: Float64Array, moved: boolean, plainly = false): Float64Array {
    const { elimination, curves, high, low, next, x } = this;
    const { from, to, size: chassis } = elimination;
    const { conductance, emf, current } = curves;
    if (moved) {
      this.substitute(0);
      x.set(next);
    }
    high.fill(0);
    low.fill(0);
    for (let e = 0; e < from.length; e++) {
      const i = from[e]!;
      const j = to[e]!;
      const through = conductance[e]! * (x[i]! - x[j]! - emf[e]!) + current[e]!;
      currents[e] = through;
      if (through === 0) continue;
      if (plainly) {
        high[i]! -= through;
        high[j]! += through;
        continue;
      }
      // What the chassis lacks is what the others lack together.
      if (i !== chassis) addExactly(high, low, i, -through);
      if (j !== chassis) addExactly(high, low, j, through);
    }
    next.fill(0);
    for (let k = 0; k < high.length; k++) high[k]! += low[k]!;
    elimination.correct(high, next);
    for (let e = 0; e < from.length; e++) currents[e]! += conductance[e]! * (next[from[e]!]! - next[to[e]!]!);
    if (!plainly) for (let k = 0; k < x.length; k++) x[k]! += next[k]!;
    return x;
  }
}

function largest(currents: Float64Array): number {
  let most = 0;
  for (let e = 0; e < currents.length; e++) {
    const amps = Math.abs(currents[e]!);
    if (amps > most) most = amps;
  }
  return most;
}
