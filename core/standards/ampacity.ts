/**
 * What a copper conductor may carry for ever: 33 CFR 183.425 table 5 (30 C around it, single, not bundled), with
 * its engine-space and bundling notes.
 */
import type { Ampere, Kelvin, Ratio, Volt } from "../quantity/kinds.ts";
import { gaugeName, largestGaugeNotAbove } from "../quantity/size.ts";
import type { ConductorSize } from "../quantity/size.ts";
import type { Source } from "./source.ts";

export const AMPACITY_SOURCE: Source = { text: "33 CFR 183.425, table 5", known: "seen" };

/** Temperature classes of insulation, in Celsius: the columns of the table. */
export const INSULATION_CLASSES = [60, 75, 80, 90, 105, 125, 200] as const;
export type InsulationClass = (typeof INSULATION_CLASSES)[number];

/** Amperes by gauge number, in the order of the columns. */
const TABLE_5: Readonly<Record<number, readonly [number, number, number, number, number, number, number]>> = {
  18: [10, 10, 15, 20, 20, 25, 25],
  16: [15, 15, 20, 25, 25, 30, 35],
  14: [20, 20, 25, 30, 35, 40, 45],
  12: [25, 25, 35, 40, 45, 50, 55],
  10: [40, 40, 50, 55, 60, 70, 70],
  8: [55, 65, 70, 70, 80, 90, 100],
  6: [80, 95, 100, 100, 120, 125, 135],
  4: [105, 125, 130, 135, 160, 170, 180],
  3: [120, 145, 150, 155, 180, 195, 210],
  2: [140, 170, 175, 180, 210, 225, 240],
  1: [165, 195, 210, 210, 245, 265, 280],
  0: [195, 230, 245, 245, 285, 305, 325],
  [-1]: [225, 265, 285, 285, 330, 355, 370],
  [-2]: [260, 310, 330, 330, 385, 410, 430],
  [-3]: [300, 360, 385, 385, 445, 475, 510],
};
/** Gauges that the table lists. */
export const TABLE_5_GAUGES: readonly number[] = Object.keys(TABLE_5).map(Number);

/** Factors of note 1 for an engine space at 50 C, in the order of the columns. 0.85 for 105 C is seen, the rest memory. */
const ENGINE_SPACE: Readonly<Record<InsulationClass, Ratio>> = {
  60: 0.58,
  75: 0.75,
  80: 0.78,
  90: 0.82,
  105: 0.85,
  125: 0.89,
  200: 1,
};
export function engineSpaceFactor(column: InsulationClass): { readonly factor: Ratio; readonly source: Source } {
  return {
    factor: ENGINE_SPACE[column],
    source: { text: "33 CFR 183.425, table 5, note 1 (engine space, 50 C)", known: column === 105 ? "seen" : "memory" },
  };
}

/** Note 2: from 50 V, by how many conductors lie in one bundle. Up to two, and below 50 V, no factor. */
export function bundleFactor(conductors: number, volts: Volt): Ratio {
  if (volts < 50 || conductors < 3) return 1;
  if (conductors === 3) return 0.7;
  if (conductors <= 6) return 0.6;
  return conductors <= 24 ? 0.5 : 0.4;
}
export const BUNDLE_SOURCE: Source = {
  text: "33 CFR 183.425, table 5, note 2 (bundles at 50 V or more)",
  known: "seen",
};

/** The column that an insulation may use: the greatest class not above its own; undefined below 60 C. */
export function insulationClass(insulation: Kelvin): InsulationClass | undefined {
  const celsius = insulation - 273.15 + 1e-6;
  return INSULATION_CLASSES.findLast((column) => column <= celsius);
}

export interface Ampacity {
  readonly amperes: Ampere;
  /** The row and column that were read: "2 AWG", 105. */
  readonly row: string;
  readonly column: InsulationClass;
  /** The temperature class is unstated, so that the lowest column was read. */
  readonly approximate: boolean;
  /** The conductor is thicker than the table's last row: it may carry more than this. */
  readonly atLeast: boolean;
}

/**
 * Ampacity at 30 C, not bundled. A metric size is read as the largest gauge not above its area; insulation of
 * unstated class as 60 C, marked approximate. Undefined where the table is silent: below 18 AWG, below 60 C.
 */
export function ampacity(size: ConductorSize, insulation: Kelvin | undefined): Ampacity | undefined {
  const gauge = largestGaugeNotAbove(size.area, TABLE_5_GAUGES);
  const column = insulation === undefined ? 60 : insulationClass(insulation);
  if (gauge === undefined || column === undefined) return undefined;
  const amperes = TABLE_5[gauge]?.[INSULATION_CLASSES.indexOf(column)];
  if (amperes === undefined) return undefined;
  const atLeast = gauge === -3 && size.area > 1.001 * 107.219e-6;
  return { amperes, row: `${gaugeName(gauge)} AWG`, column, approximate: insulation === undefined, atLeast };
}

export interface Surroundings {
  readonly engineSpace: boolean;
  /** Current-carrying conductors in one bundle, sheath or conduit, this one counted. */
  readonly bundled: number;
  readonly volts: Volt;
}

/** Ampacity where the conductor lies: the table's value times engine-space and bundle factors. */
export function deratedAmpacity(
  size: ConductorSize,
  insulation: Kelvin | undefined,
  surroundings: Surroundings,
): (Ampacity & { readonly factor: Ratio; readonly source: Source }) | undefined {
  const base = ampacity(size, insulation);
  if (base === undefined) return undefined;
  const engine = surroundings.engineSpace ? engineSpaceFactor(base.column) : { factor: 1, source: AMPACITY_SOURCE };
  const factor = engine.factor * bundleFactor(surroundings.bundled, surroundings.volts);
  return { ...base, amperes: base.amperes * factor, factor, source: engine.source };
}

export const AMBIENT_SOURCE: Source = {
  text: "NEC 310.15, ampacity at another ambient temperature: square root of the remaining rise",
  known: "memory",
};

/**
 * Correction of an ampacity from 30 C to another ambient temperature: sqrt((Tc - Ta)/(Tc - 30 C)) (NEC 310.15,
 * formula from memory; it reproduces the published tables). Zero where the surroundings are as hot as the insulation may get.
 */
export function ambientFactor(insulation: Kelvin, ambient: Kelvin): Ratio {
  return Math.sqrt(Math.max(0, insulation - ambient) / (insulation - 303.15));
}

/** NEC 310.15(C)(1): more than three current-carrying conductors in one raceway or cable (seen). */
export function racewayFactor(conductors: number): Ratio {
  if (conductors <= 3) return 1;
  if (conductors <= 6) return 0.8;
  if (conductors <= 9) return 0.7;
  if (conductors <= 20) return 0.5;
  if (conductors <= 30) return 0.45;
  return conductors <= 40 ? 0.4 : 0.35;
}
