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

/** How a branch is kept. */
const LINEAR = 0;
const BENT = 1;
const PORT = 2;
const CAPACITOR = 3;

export class Curves {
  /** By branch: the piece now held. */
  readonly conductance: Float64Array;
  readonly emf: Float64Array;
  readonly current: Float64Array;
  readonly piece: Int8Array;
  /** By branch: 1 where a current counts as positive when it leaves at a (sources), so against a to b. */
  readonly delivers: Uint8Array;
  /** Branches with more than one piece, the first `bentCount` of them. */
  readonly bent: Int32Array;
  bentCount = 0;
  /** Constant-power branches, the first `portCount` of them. */
  readonly ports: Int32Array;
  portCount = 0;
  /** Largest voltage that any curve mentions: what accuracy is stated against. */
  scale = 0;

  /** Elements as last read: most stay the same objects from state to state, and their curves with them. */
  private readonly read: (Element | undefined)[];
  private readonly form: Uint8Array;
  private readonly ownScale: Float64Array;
  private readonly normal: Int8Array;
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
    this.delivers = new Uint8Array(branchCount);
    this.bent = new Int32Array(branchCount);
    this.ports = new Int32Array(branchCount);
    this.read = new Array<Element | undefined>(branchCount).fill(undefined);
    this.form = new Uint8Array(branchCount);
    this.ownScale = new Float64Array(branchCount);
    this.normal = new Int8Array(branchCount);
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
    const { read, form, ownScale } = this;
    let bentCount = 0;
    let portCount = 0;
    let scale = 0;
    for (let e = 0; e < elements.length; e++) {
      const element = elements[e]!;
      if (read[e] !== element) {
        this.parse(e, element);
        read[e] = element;
      }
      const kept = form[e]!;
      if (kept === BENT) {
        this.bent[bentCount++] = e;
        const given = start === undefined ? -1 : start[e]!;
        this.hold(e, given >= 0 && given < this.pieceCount[e]! ? given : this.normal[e]!);
      } else if (kept === PORT) {
        this.ports[portCount++] = e;
        this.current[e] = 0;
        this.piece[e] = 0;
      } else if (kept === CAPACITOR) {
        const volts = capacitorVolts?.get(e);
        this.conductance[e] = volts === undefined ? 0 : 1 / CAPACITOR_RESISTANCE;
        this.emf[e] = volts ?? 0;
        scale = Math.max(scale, Math.abs(volts ?? 0));
      }
      if (ownScale[e]! > scale) scale = ownScale[e]!;
    }
    this.bentCount = bentCount;
    this.portCount = portCount;
    this.scale = scale;
  }

  /** Gives a straight branch an EMF behind a conductance, until its element is another. */
  give(e: number, emf: number, siemens: number): void {
    this.emf[e] = emf;
    this.conductance[e] = siemens;
    this.scale = Math.max(this.scale, Math.abs(emf));
  }

  private parse(e: number, element: Element): void {
    this.form[e] = LINEAR;
    this.conductance[e] = 0;
    this.emf[e] = 0;
    this.current[e] = 0;
    this.piece[e] = 0;
    this.ownScale[e] = 0;
    this.delivers[e] = element.type === "source" || element.type === "limited-source" ? 1 : 0;
    switch (element.type) {
      case "resistance":
      case "coil":
        this.conductance[e] = conductanceOf(element, element.resistance);
        return;
      case "contact":
        if (element.closed) this.conductance[e] = conductanceOf(element, element.resistance);
        return;
      case "source":
        this.conductance[e] = conductanceOf(element, element.resistance);
        this.emf[e] = element.emf;
        this.ownScale[e] = Math.abs(element.emf);
        return;
      case "capacitor":
        this.form[e] = CAPACITOR;
        return;
      case "power-port":
        this.form[e] = PORT;
        this.ownScale[e] = Math.abs(element.minimum);
        return;
      default:
        this.form[e] = BENT;
        this.bend(e, element);
    }
  }

  private bend(e: number, element: Element): void {
    const at = e * WIDTH;
    switch (element.type) {
      case "diode": {
        const g = conductanceOf(element, element.resistance);
        this.set(at, element.drop, 0, 0, 0);
        this.set(at + 1, Infinity, g, element.drop, 0);
        this.shape(e, 2, NORMAL.diode);
        return;
      }
      case "clamp": {
        const g = conductanceOf(element, element.resistance);
        const back = element.oneWay ? FORWARD_DROP : element.clamp;
        this.set(at, -back, g, -back, 0);
        this.set(at + 1, element.clamp, 0, 0, 0);
        this.set(at + 2, Infinity, g, element.clamp, 0);
        this.shape(e, 3, NORMAL.clamp);
        return;
      }
      case "limited-source": {
        const count = this.limited(at, element, element.emf, element.resistance, element.limit, element.oneWay);
        this.shape(e, count, NORMAL.source);
        return;
      }
      case "current-port": {
        if (element.current < 0) {
          // Without a ceiling nothing would bound the voltage of an open circuit: then it pushes nothing.
          const push = element.ceiling === undefined ? 0 : -element.current;
          const count = this.limited(at, element, element.ceiling ?? 0, element.resistance, push, true);
          this.shape(e, count, NORMAL.regenerate);
        } else {
          const g = conductanceOf(element, element.resistance);
          this.set(at, element.current / g, g, 0, 0);
          this.set(at + 1, Infinity, 0, 0, element.current);
          this.shape(e, 2, NORMAL.draw);
        }
        return;
      }
      default:
        throw new RangeError(`element "${element.name}" has no current-voltage curve`);
    }
  }

  /** Pieces of a source of `emf` behind a resistance that delivers at most `limit`: 0 at the limit, 1 holding, 2 blocking. */
  private limited(at: number, element: Element, emf: number, ohms: number, limit: number, oneWay: boolean): number {
    const g = conductanceOf(element, ohms);
    const most = Math.max(limit, 0);
    this.set(at, emf - most / g, 0, 0, -most);
    this.set(at + 1, oneWay ? emf : Infinity, g, emf, 0);
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

  private shape(e: number, count: number, normal: number): void {
    this.pieceCount[e] = count;
    this.normal[e] = normal;
    let scale = 0;
    for (let k = 0; k < count; k++) {
      scale = Math.max(scale, Math.abs(this.offset[e * WIDTH + k]!));
      const corner = Math.abs(this.upper[e * WIDTH + k]!);
      if (corner < Infinity) scale = Math.max(scale, corner);
    }
    this.ownScale[e] = scale;
  }

  /** Puts bent branch `e` into a piece. */
  hold(e: number, piece: number): void {
    const at = e * WIDTH + piece;
    this.piece[e] = piece;
    this.conductance[e] = this.slope[at]!;
    this.emf[e] = this.offset[at]!;
    this.current[e] = this.constant[at]!;
  }

  /** The piece that bent branch `e` is in at `volts`; keeps the one it holds while that is off by no more than `slack`. */
  pieceAt(e: number, volts: number, slack: number): number {
    const held = this.piece[e]!;
    const at = e * WIDTH;
    if (volts <= this.upper[at + held]! + slack && (held === 0 || volts >= this.upper[at + held - 1]! - slack))
      return held;
    return this.within(e, volts);
  }

  private within(e: number, volts: number): number {
    const last = this.pieceCount[e]! - 1;
    let k = 0;
    while (k < last && volts > this.upper[e * WIDTH + k]!) k++;
    return k;
  }

  /** How far the curve at `volts` lies above the held piece drawn on to there, in amperes. */
  beyondPiece(e: number, volts: number): number {
    const k = this.within(e, volts);
    if (k === this.piece[e]!) return 0;
    const at = e * WIDTH + k;
    const curve = this.slope[at]! * (volts - this.offset[at]!) + this.constant[at]!;
    return curve - (this.conductance[e]! * (volts - this.emf[e]!) + this.current[e]!);
  }

  /** A piece next to the held one in which bent branch `e` lets nothing through, or -1. */
  blockingBeside(e: number): number {
    const held = this.piece[e]!;
    for (const k of [held - 1, held + 1]) {
      const at = e * WIDTH + k;
      if (k >= 0 && k < this.pieceCount[e]! && this.slope[at] === 0 && this.constant[at] === 0) return k;
    }
    return -1;
  }

  /** Voltages at which bent branch `e` changes piece, appended to `into` from `at`; returns where it ended. */
  corners(e: number, into: Float64Array, at: number): number {
    for (let k = 0; k + 1 < this.pieceCount[e]!; k++) into[at++] = this.upper[e * WIDTH + k]!;
    return at;
  }
}

/** Siemens of a resistance; an unbounded one is open. */
export function conductanceOf(element: Element, ohms: number): number {
  if (Number.isNaN(ohms)) throw new RangeError(`element "${element.name}" has no resistance`);
  return 1 / (ohms > LEAST_RESISTANCE ? ohms : LEAST_RESISTANCE);
}
