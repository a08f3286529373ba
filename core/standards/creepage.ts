/** Distance along a surface between live parts: IEC 60664-1 table F.4 (F.5 in the 2020 edition). */
import type { Metre, Volt } from "../quantity/kinds.ts";
import { interpolate } from "./interpolate.ts";
import type { Source } from "./source.ts";

export const CREEPAGE_SOURCE: Source = { text: "IEC 60664-1, table F.4", known: "seen" };

/** 2: only dry dirt, now and then condensation; 3: conductive dirt, or dirt that condensation makes conductive. */
export type PollutionDegree = 2 | 3;
/** By comparative tracking index: I from 600, II from 400, III below (IEC 60664-1, from memory). */
export type MaterialGroup = "I" | "II" | "III";

type Row = readonly [
  volts: Volt,
  pd2I: number,
  pd2II: number,
  pd2III: number,
  pd3I: number,
  pd3II: number,
  pd3III: number,
];
/** Working voltage, rms or DC, and millimetres of basic insulation. */
const TABLE: readonly Row[] = [
  [10, 0.4, 0.4, 0.4, 1.0, 1.0, 1.0],
  [12.5, 0.42, 0.42, 0.42, 1.05, 1.05, 1.05],
  [16, 0.45, 0.45, 0.45, 1.1, 1.1, 1.1],
  [20, 0.48, 0.48, 0.48, 1.2, 1.2, 1.2],
  [25, 0.5, 0.5, 0.5, 1.25, 1.25, 1.25],
  [32, 0.53, 0.53, 0.53, 1.3, 1.3, 1.3],
  [40, 0.56, 0.8, 1.1, 1.4, 1.6, 1.8],
  [50, 0.6, 0.85, 1.2, 1.5, 1.7, 1.9],
  [63, 0.63, 0.9, 1.25, 1.6, 1.8, 2.0],
  [80, 0.67, 0.95, 1.3, 1.7, 1.9, 2.1],
  [100, 0.71, 1.0, 1.4, 1.8, 2.0, 2.2],
  [125, 0.75, 1.05, 1.5, 1.9, 2.1, 2.4],
  [160, 0.8, 1.1, 1.6, 2.0, 2.2, 2.5],
  [200, 1.0, 1.4, 2.0, 2.5, 2.8, 3.2],
  [250, 1.25, 1.8, 2.5, 3.2, 3.6, 4.0],
  [320, 1.6, 2.2, 3.2, 4.0, 4.5, 5.0],
  [400, 2.0, 2.8, 4.0, 5.0, 5.6, 6.3],
  [500, 2.5, 3.6, 5.0, 6.3, 7.1, 8.0],
  [630, 3.2, 4.5, 6.3, 8.0, 9.0, 10.0],
  [800, 4.0, 5.6, 8.0, 10.0, 11.0, 12.5],
  [1000, 5.0, 7.1, 10.0, 12.5, 14.0, 16.0],
];
const COLUMNS = { 2: { I: 1, II: 2, III: 3 }, 3: { I: 4, II: 5, III: 6 } } as const;

/**
 * Least creepage of basic insulation for a working voltage: the row at or above it. Group III unless the material
 * is known. Undefined above 1000 V.
 */
export function creepage(volts: Volt, pollution: PollutionDegree, group: MaterialGroup = "III"): Metre | undefined {
  const row = TABLE.find(([each]) => each >= Math.abs(volts) - 1e-9);
  return row === undefined ? undefined : row[COLUMNS[pollution][group]] / 1000;
}

/** The same, read on the straight line between two rows, which the standard allows for basic insulation (from memory). */
export function interpolatedCreepage(
  volts: Volt,
  pollution: PollutionDegree,
  group: MaterialGroup = "III",
): Metre | undefined {
  if (Math.abs(volts) > 1000) return undefined;
  const column = TABLE.map((row) => [row[0], row[COLUMNS[pollution][group]]] as const);
  return interpolate(column, Math.abs(volts)) / 1000;
}
