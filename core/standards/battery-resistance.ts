/**
 * Internal resistance of batteries whose resistance nobody stated: a range, scaled by capacity, because a cell of twice
 * the capacity has about half the resistance. A check fails or passes only where both ends of the range agree.
 */
import type { Coulomb, Ohm } from "../quantity/kinds.ts";
import type { Chemistry } from "./cells.ts";
import type { Source } from "./source.ts";

const AMPERE_HOUR = 3600;
const MILLIOHM = 1e-3;

interface Range {
  /** Resistance of one cell times its capacity, in milliohm ampere-hours: least and most. */
  readonly perCell: readonly [number, number];
  readonly source: Source;
}

/** What the figures of the blocks quoted in the sources give for one cell: mohm x Ah / cells. */
const RANGES: Readonly<Record<Chemistry, Range>> = {
  // 12 V 100 Ah 5 to 8 mohm; 6 V 225 Ah 2 to 4 mohm.
  "flooded-lead": {
    perCell: [83, 300],
    source: {
      text: "Usual resistance of flooded 100 Ah 12 V and 225 Ah 6 V blocks, scaled by capacity",
      known: "memory",
    },
  },
  // 12 V 7 Ah 25 mohm (seen); 12 V 100 Ah 3 to 6 mohm.
  "agm-lead": {
    perCell: [29, 100],
    source: {
      text: "Published resistance of a 7 Ah sealed block (25 mohm) and usual ones of 100 Ah blocks, scaled by capacity",
      known: "memory",
    },
  },
  "gel-lead": {
    perCell: [29, 133],
    source: { text: "Usual resistance of sealed and flooded blocks, scaled by capacity", known: "memory" },
  },
  // 100 Ah prismatic cell 0.3 to 0.6 mohm.
  lifepo4: {
    perCell: [30, 60],
    source: {
      text: "Usual resistance of a 100 Ah prismatic cell (0.3 to 0.6 mohm), scaled by capacity",
      known: "memory",
    },
  },
  nmc: {
    perCell: [20, 100],
    source: { text: "Usual resistance of cells of the chemistry, scaled by capacity", known: "memory" },
  },
  lto: {
    perCell: [10, 60],
    source: { text: "Usual resistance of cells of the chemistry, scaled by capacity", known: "memory" },
  },
  nimh: {
    perCell: [20, 100],
    source: { text: "Usual resistance of cells of the chemistry, scaled by capacity", known: "memory" },
  },
};

/** Least and greatest resistance of cells in series, for a capacity. */
export function resistanceRange(
  chemistry: Chemistry,
  cells: number,
  capacity: Coulomb,
): { readonly range: readonly [Ohm, Ohm]; readonly source: Source } {
  const { perCell, source } = RANGES[chemistry];
  const scale = (cells * MILLIOHM) / (capacity / AMPERE_HOUR);
  return { range: [perCell[0] * scale, perCell[1] * scale], source };
}

/** Capacity that is assumed where nobody stated one: from the smallest to the largest block of a conversion. */
export const UNSTATED_CAPACITY: readonly [Coulomb, Coulomb] = [7 * AMPERE_HOUR, 225 * AMPERE_HOUR];

/** The range where even the capacity is unknown: the largest block's least to the smallest block's greatest. */
export function widestResistanceRange(chemistry: Chemistry, cells: number): readonly [Ohm, Ohm] {
  const [small, large] = UNSTATED_CAPACITY;
  return [resistanceRange(chemistry, cells, large).range[0], resistanceRange(chemistry, cells, small).range[1]];
}
