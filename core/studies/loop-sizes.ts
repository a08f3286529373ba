/**
 * Voltage drop over whole loops: begins with the smallest size that each wire may have for other reasons, and raises
 * the wire that loses the most until every loop keeps its voltage. Numbers only.
 */
import type { Ampere, Kelvin, Metre, Volt } from "../quantity/kinds.ts";
import { nextLargerSize } from "../quantity/size.ts";
import type { ConductorSize } from "../quantity/size.ts";
import { dropOf } from "./cable-size.ts";

export interface LoopWire<Key> {
  readonly key: Key;
  readonly length: Metre;
  readonly insulation: Kelvin | undefined;
  readonly amperes: Ampere;
}

export interface Loop<Key> {
  readonly wires: readonly LoopWire<Key>[];
  /** Volts that it may lose. */
  readonly allowed: Volt;
}

/** Raising a wire is worth most where it loses most; a hundredth of a millivolt over is rounding. */
const SLACK: Volt = 1e-5;

/**
 * Sizes for which every loop loses no more than it may. A wire without a start is left out of its loops.
 * @returns undefined for a wire that would have to be larger than any size sold: the loop is too long for one conductor
 */
export function sizesForLoops<Key>(
  loops: readonly Loop<Key>[],
  start: ReadonlyMap<Key, ConductorSize>,
): ReadonlyMap<Key, ConductorSize | undefined> {
  const sizes = new Map<Key, ConductorSize | undefined>(start);
  const lost = ({ key, amperes, length, insulation }: LoopWire<Key>): Volt => {
    const size = sizes.get(key);
    return size === undefined ? 0 : dropOf(size, amperes, length, insulation);
  };
  for (const { wires, allowed } of loops) {
    const known = wires.filter(({ key }) => sizes.get(key) !== undefined);
    while (known.reduce((sum, wire) => sum + lost(wire), 0) > allowed + SLACK) {
      const most = known.reduce((best, wire) => (lost(wire) > lost(best) ? wire : best));
      const size = sizes.get(most.key);
      const next = size === undefined ? undefined : nextLargerSize(size);
      sizes.set(most.key, next);
      if (next === undefined) break;
    }
  }
  return sizes;
}
