/** Distance through air between live parts: IEC 60664-1 tables F.1 and F.2, up to 2000 m above the sea. */
import type { Metre, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

type Row = readonly [impulse: Volt, pd1: number, pd2: number, pd3: number, known: "seen" | "memory"];
/** Rated impulse voltage and millimetres in an inhomogeneous field. */
const TABLE_F2: readonly Row[] = [
  [330, 0.01, 0.2, 0.8, "memory"],
  [500, 0.04, 0.2, 0.8, "memory"],
  [800, 0.1, 0.2, 0.8, "memory"],
  [1000, 0.15, 0.2, 0.8, "memory"],
  [1200, 0.25, 0.25, 0.8, "memory"],
  [1500, 0.5, 0.5, 0.8, "seen"],
  [2000, 1.0, 1.0, 1.0, "memory"],
  [2500, 1.5, 1.5, 1.5, "seen"],
  [3000, 2.0, 2.0, 2.0, "memory"],
  [4000, 3.0, 3.0, 3.0, "seen"],
  [5000, 4.0, 4.0, 4.0, "memory"],
  [6000, 5.5, 5.5, 5.5, "seen"],
  [8000, 8.0, 8.0, 8.0, "memory"],
  [12000, 14.0, 14.0, 14.0, "memory"],
];

/** Least clearance for a rated impulse voltage: the row at or above it; undefined above 12 kV. */
export function clearance(
  impulse: Volt,
  pollution: 1 | 2 | 3,
): { readonly length: Metre; readonly source: Source } | undefined {
  const row = TABLE_F2.find(([each]) => each >= impulse - 1e-9);
  if (row === undefined) return undefined;
  return { length: row[pollution] / 1000, source: { text: "IEC 60664-1, table F.2", known: row[4] } };
}

/** Line-to-earth voltage and rated impulse voltage in overvoltage categories I to IV (table F.1). */
const TABLE_F1: readonly (readonly [volts: Volt, one: Volt, two: Volt, three: Volt, four: Volt])[] = [
  [50, 330, 500, 800, 1500],
  [100, 500, 800, 1500, 2500],
  [150, 800, 1500, 2500, 4000],
  [300, 1500, 2500, 4000, 6000],
  [600, 2500, 4000, 6000, 8000],
];
export const IMPULSE_SOURCE: Source = { text: "IEC 60664-1, table F.1", known: "memory" };

/**
 * Rated impulse voltage of a circuit. A floating traction battery counts as category I or II, one that is charged
 * without isolation from the mains as II (practice). Undefined above 600 V.
 */
export function ratedImpulse(volts: Volt, category: 1 | 2 | 3 | 4): Volt | undefined {
  return TABLE_F1.find(([each]) => each >= Math.abs(volts) - 1e-9)?.[category];
}
