/**
 * Elements as straight pieces of a current-voltage curve. With v = volts of a minus volts of b and i = current from a
 * to b, each piece is i = conductance * (v - emf) + current. Curves never fall, so that a network of them has one
 * solution. Pieces are numbered by rising voltage; `pieces` of a solution holds these numbers:
 *
 *   diode           0 blocks, 1 conducts
 *   clamp           0 conducts b to a, 1 blocks, 2 conducts a to b
 *   limited-source  0 at its limit, 1 holds its voltage, 2 blocks (one-way only)
 *   current-port    drawing: 0 fully on (a resistance), 1 draws its current;
 *                   regenerating: 0 pushes its current, 1 holds its ceiling, 2 pushes nothing
 *   power-port      0 below its minimum, draws nothing; 1 draws its power; 2 the feed cannot carry it, draws nothing
 *   all others      0
 */
import type { Element } from "../parts/element.ts";

/** Every resistance counts as at least this: a joint of 1 uohm is the least that metal does. */
export const LEAST_RESISTANCE = 1e-6;
/** A capacitor with a given voltage is an EMF behind this. */
export const CAPACITOR_RESISTANCE = 1e-3;
/** Forward drop of a silicon junction, here of a zener used forward. Common practice, no source. */
export const FORWARD_DROP = 0.7;

export const POWER_BELOW_MINIMUM = 0;
export const POWER_ON = 1;
export const POWER_WEAK_FEED = 2;

/** Pieces that an element without a predecessor starts in. */
const NORMAL = { diode: 0, clamp: 1, source: 1, draw: 0, regenerate: 0 } as const;
const WIDTH = 3;

export class Curves {
  /** By branch: the piece now held. */
  readonly conductance: Float64Array;
  readonly emf: Float64Array;
  readonly current: Float64Array;
  readonly piece: Int8Array;
  /** Branches with more than one piece, the first `bentCount` of them. */
  readonly bent: Int32Array;
  bentCount = 0;
  /** Constant-power branches, the first `portCount` of them. */
  readonly ports: Int32Array;
  portCount = 0;
  /** Largest voltage that any curve mentions: what accuracy is stated against. */
  scale = 0;

  private readonly pieceCount: Int8Array;
  private readonly upper: Float64Array;
  private readonly slope: Float64Array;
  private readonly offset: Float64Array;
  private readonly constant: Float64Array;

  constructor(branchCount: number) {
    this.conductance = new Float64Array(branchCount);
    this.emf = new Float64Array(branchCount);
    this.current = new Float64Array(branchCount);
    this.piece = new Int8Array(branchCount);
    this.bent = new Int32Array(branchCount);
    this.ports = new Int32Array(branchCount);
    this.pieceCount = new Int8Array(branchCount);
    this.upper = new Float64Array(branchCount * WIDTH);
    this.slope = new Float64Array(branchCount * WIDTH);
    this.offset = new Float64Array(branchCount * WIDTH);
    this.constant = new Float64Array(branchCount * WIDTH);
  }

  /** Reads the elements; pieces are those of `start`, else the normal ones. */
  load(
    elements: readonly Element[],
    start: Int8Array | undefined,
    capacitorVolts: ReadonlyMap<number, number> | undefined,
  ): void {
    this.bentCount = 0;
    this.portCount = 0;
    this.scale = 0;
    for (let e = 0; e < elements.length; e++) {
      const element = elements[e]!;
      let g = 0;
      let emf = 0;
      this.current[e] = 0;
      this.piece[e] = 0;
      switch (element.type) {
        case "resistance":
        case "coil":
          g = conductanceOf(element, element.resistance);
          break;
        case "contact":
          if (element.closed) g = conductanceOf(element, element.resistance);
          break;
        case "source":
          g = conductanceOf(element, element.resistance);
          emf = element.emf;
          break;
        case "capacitor": {
          const volts = capacitorVolts?.get(e);
          if (volts !== undefined) {
            g = 1 / CAPACITOR_RESISTANCE;
            emf = volts;
          }
          break;
        }
        case "power-port":
          this.ports[this.portCount++] = e;
          this.scale = Math.max(this.scale, Math.abs(element.minimum));
          break;
        default:
          this.bend(e, element, start);
          continue;
      }
      this.conductance[e] = g;
      this.emf[e] = emf;
      const size = Math.abs(emf);
      if (size > this.scale) this.scale = size;
    }
  }

  private bend(e: number, element: Element, start: Int8Array | undefined): void {
    let normal: number;
    let count: number;
    const at = this.bentCount * WIDTH;
    switch (element.type) {
      case "diode": {
        const g = conductanceOf(element, element.resistance);
        this.set(at, element.drop, 0, 0, 0);
        this.set(at + 1, Infinity, g, element.drop, 0);
        count = 2;
        normal = NORMAL.diode;
        break;
      }
      case "clamp": {
        const g = conductanceOf(element, element.resistance);
        const back = element.oneWay ? FORWARD_DROP : element.clamp;
        this.set(at, -back, g, -back, 0);
        this.set(at + 1, element.clamp, 0, 0, 0);
        this.set(at + 2, Infinity, g, element.clamp, 0);
        count = 3;
        normal = NORMAL.clamp;
        break;
      }
      case "limited-source":
        count = this.limited(at, element, element.emf, element.resistance, element.limit, element.oneWay);
        normal = NORMAL.source;
        break;
      case "current-port": {
        if (element.current < 0) {
          // Without a ceiling nothing would bound the voltage of an open circuit: then it pushes nothing.
          const push = element.ceiling === undefined ? 0 : -element.current;
          count = this.limited(at, element, element.ceiling ?? 0, element.resistance, push, true);
          normal = NORMAL.regenerate;
        } else {
          const g = conductanceOf(element, element.resistance);
          this.set(at, element.current / g, g, 0, 0);
          this.set(at + 1, Infinity, 0, 0, element.current);
          count = 2;
          normal = NORMAL.draw;
        }
        break;
      }
      default:
        throw new RangeError(`element "${element.name}" has no current-voltage curve`);
    }
    this.pieceCount[this.bentCount] = count;
    this.bent[this.bentCount] = e;
    for (let k = 0; k + 1 < count; k++) {
      const size = Math.abs(this.upper[at + k]!);
      if (size > this.scale && size < Infinity) this.scale = size;
    }
    const given = start?.[e];
    this.hold(this.bentCount++, given !== undefined && given >= 0 && given < count ? given : normal);
  }

  /** Pieces of a source of `emf` behind a resistance that delivers at most `limit`: 0 at the limit, 1 holding, 2 blocking. */
  private limited(at: number, element: Element, emf: number, ohms: number, limit: number, oneWay: boolean): number {
    const g = conductanceOf(element, ohms);
    const most = Math.max(limit, 0);
    this.set(at, emf - most / g, 0, 0, -most);
    this.set(at + 1, oneWay ? emf : Infinity, g, emf, 0);
    this.scale = Math.max(this.scale, Math.abs(emf));
    if (!oneWay) return 2;
    this.set(at + 2, Infinity, 0, 0, 0);
    return 3;
  }

  private set(at: number, upper: number, slope: number, offset: number, constant: number): void {
    this.upper[at] = upper;
    this.slope[at] = slope;
    this.offset[at] = offset;
    this.constant[at] = constant;
  }

  /** Puts bent branch number `q` into a piece. */
  hold(q: number, piece: number): void {
    const e = this.bent[q]!;
    const at = q * WIDTH + piece;
    this.piece[e] = piece;
    this.conductance[e] = this.slope[at]!;
    this.emf[e] = this.offset[at]!;
    this.current[e] = this.constant[at]!;
  }

  /** The piece that bent branch `q` is in at `volts`; keeps the one it holds while that is off by no more than `slack`. */
  pieceAt(q: number, volts: number, slack: number): number {
    const held = this.piece[this.bent[q]!]!;
    const at = q * WIDTH;
    const count = this.pieceCount[q]!;
    if (volts <= this.upper[at + held]! + slack && (held === 0 || volts >= this.upper[at + held - 1]! - slack))
      return held;
    let k = 0;
    while (k + 1 < count && volts > this.upper[at + k]!) k++;
    return k;
  }

  /** How far the curve at `volts` lies above the held piece drawn on to there, in amperes. */
  beyondPiece(q: number, volts: number): number {
    const at = q * WIDTH;
    const count = this.pieceCount[q]!;
    let k = 0;
    while (k + 1 < count && volts > this.upper[at + k]!) k++;
    const e = this.bent[q]!;
    if (k === this.piece[e]!) return 0;
    const curve = this.slope[at + k]! * (volts - this.offset[at + k]!) + this.constant[at + k]!;
    return curve - (this.conductance[e]! * (volts - this.emf[e]!) + this.current[e]!);
  }

  /** A piece next to the held one in which bent branch `q` lets nothing through, or -1. */
  blockingBeside(q: number): number {
    const held = this.piece[this.bent[q]!]!;
    for (const k of [held - 1, held + 1]) {
      const at = q * WIDTH + k;
      if (k >= 0 && k < this.pieceCount[q]! && this.slope[at] === 0 && this.constant[at] === 0) return k;
    }
    return -1;
  }

  /** Voltages at which bent branch `q` changes piece, appended to `into` from `at`; returns where it ended. */
  corners(q: number, into: Float64Array, at: number): number {
    for (let k = 0; k + 1 < this.pieceCount[q]!; k++) into[at++] = this.upper[q * WIDTH + k]!;
    return at;
  }
}

/** Siemens of a resistance; an unbounded one is open. */
function conductanceOf(element: Element, ohms: number): number {
  if (Number.isNaN(ohms)) throw new RangeError(`element "${element.name}" has no resistance`);
  return 1 / (ohms > LEAST_RESISTANCE ? ohms : LEAST_RESISTANCE);
}
