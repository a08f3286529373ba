/**
 * Constant power: a port that draws P / v, more the less it is given. Its current is held while the rest settles, and
 * found from round to round: from no load upwards the voltages only fall, towards the highest operating point that
 * there is. Each round solves each port exactly against the rest of the network as it stands (Thevenin equivalent), so
 * that one port alone needs one round. Where there is no operating point above its minimum, the port is switched off.
 */
import type { Element, PowerPort } from "../parts/element.ts";
import { type Curves, POWER_BELOW_MINIMUM, POWER_ON, POWER_WEAK_FEED } from "./pieces.ts";
import type { Settling } from "./settling.ts";

const ROUNDS = 60;
/** Relative change of a current at which a round is the last; after all rounds, that at which a port counts as settled. */
const STILL = 1e-12;
const STILL_ENOUGH = 1e-9;
const NONE = -1;

export class Supply {
  private readonly curves: Curves;
  private readonly settling: Settling;
  private readonly partOf: Int32Array | undefined;

  /** `partOf`: part number of each branch, to tell which element a `follows` means. */
  constructor(curves: Curves, settling: Settling, partOf: Int32Array | undefined) {
    this.curves = curves;
    this.settling = settling;
    this.partOf = partOf;
  }

  /**
   * Settles the network with its ports; false if some step did not settle. One port at most is switched off at a time,
   * the one farthest below its minimum, and the others begin again: the result depends on the network alone.
   */
  settle(elements: readonly Element[]): boolean {
    const { curves, settling } = this;
    const ports = curves.ports.subarray(0, curves.portCount);
    for (const e of ports) curves.piece[e] = POWER_ON;
    for (;;) {
      for (const e of ports) curves.current[e] = 0;
      let settled = settling.settle();
      for (const e of ports) if (curves.piece[e] !== POWER_WEAK_FEED) curves.piece[e] = this.atNoLoad(elements, e);
      let failing = NONE;
      for (let round = 1; ; round++) {
        const found = this.round(elements, ports);
        failing = found.failing;
        if (failing !== NONE || found.change < STILL) break;
        if (round === ROUNDS) {
          if (found.change > STILL_ENOUGH) failing = found.restless;
          break;
        }
        settled = settling.settle();
      }
      if (failing === NONE) return settled;
      curves.piece[failing] = POWER_WEAK_FEED;
    }
  }

  private atNoLoad(elements: readonly Element[], e: number): number {
    const volts = this.settling.voltsAcross(e);
    const runs = this.settling.joined(e) && volts > 0 && volts >= portAt(elements, e).minimum;
    return runs ? POWER_ON : POWER_BELOW_MINIMUM;
  }

  /** Sets the current of each port that is on. `failing`: the port that finds no operating point, the worst of them. */
  private round(
    elements: readonly Element[],
    ports: Int32Array,
  ): { failing: number; change: number; restless: number } {
    const { curves, settling } = this;
    let failing = NONE;
    let weakest = Infinity;
    let change = 0;
    let restless = NONE;
    for (const e of ports) {
      if (curves.piece[e] !== POWER_ON) continue;
      const port = portAt(elements, e);
      const power = this.power(elements, e, port);
      const ohms = settling.resistanceAcross(e);
      const open = settling.voltsAcross(e) + ohms * curves.current[e]!;
      // v = open - ohms * power / v, the upper of its two solutions.
      const root = open * open - 4 * ohms * power;
      const volts = root >= 0 ? (open + Math.sqrt(root)) / 2 : 0;
      if (volts <= 0 || volts < port.minimum) {
        const share = volts / Math.max(port.minimum, Number.MIN_VALUE);
        if (share < weakest) {
          weakest = share;
          failing = e;
        }
        continue;
      }
      const current = power / volts;
      const step = Math.abs(current - curves.current[e]!) / Math.max(current, Number.MIN_VALUE);
      if (step > change) {
        change = step;
        restless = e;
      }
      curves.current[e] = current;
    }
    return { failing, change, restless };
  }

  /** Watts: its own, or what the element it follows now delivers, by its efficiency. */
  private power(elements: readonly Element[], e: number, port: PowerPort): number {
    if (port.follows === undefined) return Math.max(port.power ?? 0, 0);
    const followed = this.followed(elements, e, port.follows);
    if (followed === NONE) return 0;
    const taken = this.settling.voltsAcross(followed) * this.settling.currentThrough(followed);
    const delivered = this.curves.delivers[followed] === 1 ? -taken : taken;
    return Math.max(delivered, 0) / port.efficiency;
  }

  /** The nearest branch of that name, in the same part where parts are known. */
  private followed(elements: readonly Element[], e: number, name: string): number {
    const { partOf } = this;
    for (let away = 1; away < elements.length; away++) {
      for (const other of [e - away, e + away]) {
        if (elements[other]?.name === name && partOf?.[other] === partOf?.[e]) return other;
      }
    }
    return NONE;
  }
}

function portAt(elements: readonly Element[], e: number): PowerPort {
  const element = elements[e];
  if (element?.type !== "power-port") throw new RangeError(`branch ${e} draws no constant power`);
  return element;
}
