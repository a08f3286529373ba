/**
 * The curve of each element, written out from its definition in core/parts/element.ts and from nothing else: what the
 * solver's own curves are held against.
 */
import type { Element } from "../../core/parts/element.ts";

/** i(a to b) = (v - emf) / ohms + amps between `from` and `to` volts (a minus b); ohms Infinity = no slope. */
export interface Piece {
  readonly from: number;
  readonly to: number;
  readonly ohms: number;
  readonly emf: number;
  readonly amps: number;
}

const UNBOUNDED = Infinity;
const blocks = (from: number, to: number): Piece => ({ from, to, ohms: UNBOUNDED, emf: 0, amps: 0 });
const slope = (from: number, to: number, ohms: number, emf: number): Piece => ({ from, to, ohms, emf, amps: 0 });
const flat = (from: number, to: number, amps: number): Piece => ({ from, to, ohms: UNBOUNDED, emf: 0, amps });

/** Pieces by rising voltage; undefined for constant power, which has no straight pieces. */
export function curveLaw(element: Element): readonly Piece[] | undefined {
  switch (element.type) {
    case "resistance":
    case "coil":
      return [slope(-UNBOUNDED, UNBOUNDED, element.resistance, 0)];
    case "source":
      return [slope(-UNBOUNDED, UNBOUNDED, element.resistance, element.emf)];
    case "contact":
      return [element.closed ? slope(-UNBOUNDED, UNBOUNDED, element.resistance, 0) : blocks(-UNBOUNDED, UNBOUNDED)];
    case "capacitor":
      return [blocks(-UNBOUNDED, UNBOUNDED)];
    case "diode":
      return [blocks(-UNBOUNDED, element.drop), slope(element.drop, UNBOUNDED, element.resistance, element.drop)];
    case "clamp": {
      const back = element.oneWay ? 0.7 : element.clamp;
      return [
        slope(-UNBOUNDED, -back, element.resistance, -back),
        blocks(-back, element.clamp),
        slope(element.clamp, UNBOUNDED, element.resistance, element.clamp),
      ];
    }
    case "limited-source": {
      const knee = element.emf - element.limit * element.resistance;
      const top = element.oneWay ? element.emf : UNBOUNDED;
      const pieces = [flat(-UNBOUNDED, knee, -element.limit), slope(knee, top, element.resistance, element.emf)];
      return element.oneWay ? [...pieces, blocks(top, UNBOUNDED)] : pieces;
    }
    case "current-port": {
      if (element.current >= 0) {
        const knee = element.current * element.resistance;
        return [slope(-UNBOUNDED, knee, element.resistance, 0), flat(knee, UNBOUNDED, element.current)];
      }
      const ceiling = element.ceiling ?? 0;
      const knee = ceiling + element.current * element.resistance;
      return [
        flat(-UNBOUNDED, knee, element.current),
        slope(knee, ceiling, element.resistance, ceiling),
        blocks(ceiling, UNBOUNDED),
      ];
    }
    case "power-port":
      return undefined;
  }
}
