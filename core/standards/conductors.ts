/** Resistance of copper conductors. */
import type { Kelvin, Metre, Ohm, SquareMetre } from "../quantity/kinds.ts";
import type { ConductorSize } from "../quantity/size.ts";
import type { Source } from "./source.ts";

/** Resistivity of annealed copper at 20 C in ohm m: 100 % of the international standard, 1/58 ohm mm2/m. */
export const COPPER_RESISTIVITY = 1.7241e-8;
export const COPPER_SOURCE: Source = {
  text: "International annealed copper standard (NBS Handbook 100), 0.017241 ohm mm2/m at 20 C",
  known: "seen",
};

export const GAUGE_SOURCE: Source = { text: "ASTM B258, area of the gauge, with annealed copper", known: "calc" };

/** The temperature to which published resistances belong: 20 C. */
export const REFERENCE_TEMPERATURE: Kelvin = 293.15;

export const TEMPERATURE_SOURCE: Source = {
  text: "IEC 60228, R = R20 x (234.5 + t)/254.5 for copper",
  known: "memory",
};

/** Greatest DC resistance at 20 C in ohm/km, plain copper, by nominal area in mm2: [mm2, class 5 flexible, class 2 stranded]. */
export const IEC_60228: readonly (readonly [mm2: number, class5: number, class2: number])[] = [
  [0.5, 39.0, 36.0],
  [0.75, 26.0, 24.5],
  [1, 19.5, 18.1],
  [1.5, 13.3, 12.1],
  [2.5, 7.98, 7.41],
  [4, 4.95, 4.61],
  [6, 3.3, 3.08],
  [10, 1.91, 1.83],
  [16, 1.21, 1.15],
  [25, 0.78, 0.727],
  [35, 0.554, 0.524],
  [50, 0.386, 0.387],
  [70, 0.272, 0.268],
  [95, 0.206, 0.193],
  [120, 0.161, 0.153],
  [150, 0.129, 0.124],
  [185, 0.106, 0.0991],
  [240, 0.0801, 0.0754],
];
export const IEC_60228_SOURCE: Source = {
  text: "IEC 60228, class 5, plain copper, greatest resistance at 20 C",
  known: "seen",
};

/** Flexible conductors below 0.5 mm2, plain copper, ohm/km at 20 C. */
const DIN_VDE_0295: readonly (readonly [mm2: number, class5: number])[] = [
  [0.05, 380],
  [0.08, 237],
  [0.11, 170],
  [0.14, 134],
  [0.22, 96],
  [0.25, 76],
  [0.34, 53],
];
const FLEXIBLE: readonly (readonly [mm2: number, class5: number])[] = [
  ...DIN_VDE_0295,
  ...IEC_60228.map(([mm2, class5]) => [mm2, class5] as const),
];

/** By how much copper's resistance at a temperature exceeds that at 20 C (form of IEC 60228). */
export function copperFactor(temperature: Kelvin): number {
  return (234.5 + (temperature - 273.15)) / 254.5;
}

/**
 * Resistance of one conductor of a size and length. Metric sizes: the greatest that IEC 60228 allows a flexible
 * conductor; a size between two rows has the material of the row below it. Gauges and kcmil: area and resistivity.
 * @param temperature of the copper; 20 C unless given
 */
export function conductorResistance(
  size: ConductorSize,
  length: Metre,
  temperature: Kelvin = REFERENCE_TEMPERATURE,
): Ohm {
  return resistancePerMetre(size) * length * copperFactor(temperature);
}

function resistancePerMetre(size: ConductorSize): number {
  if (size.system !== "mm2") return COPPER_RESISTIVITY / size.area;
  return flexibleResistivity(size.area) / size.area;
}

/** Resistance times area of the table's row at or below an area: strands lie at an angle, so it exceeds plain copper's. */
function flexibleResistivity(area: SquareMetre): number {
  const mm2 = area * 1e6 * (1 + 1e-9);
  const row = FLEXIBLE.findLast(([nominal]) => nominal <= mm2) ?? FLEXIBLE[0];
  return row === undefined ? COPPER_RESISTIVITY : row[0] * 1e-6 * row[1] * 1e-3;
}

/** Where the resistance of a size comes from, for the note beside a figure. */
export function resistanceSource(size: ConductorSize): Source {
  return size.system === "mm2" ? IEC_60228_SOURCE : GAUGE_SOURCE;
}
