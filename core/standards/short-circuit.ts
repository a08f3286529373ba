/** What a short circuit does to a conductor before the device clears it. */
import type { Ampere, Kelvin, Metre, Second, SquareMetre } from "../quantity/kinds.ts";
import { circularMils } from "../quantity/size.ts";
import type { Source } from "./source.ts";

/** Insulation materials of the table: temperature in service, at the end of the short circuit (C), k of copper. */
export const K_FACTORS = {
  "PVC 70": { initial: 70, final: 160, k: 115 },
  "PVC 90": { initial: 90, final: 160, k: 100 },
  XLPE: { initial: 90, final: 250, k: 143 },
  "rubber 60": { initial: 60, final: 200, k: 141 },
  "rubber 85": { initial: 85, final: 220, k: 134 },
  silicone: { initial: 180, final: 350, k: 132 },
} as const;
export const K_SOURCE: Source = {
  text: "IEC 60364-5-54 and BS 7671, k of copper conductors up to 300 mm2",
  known: "seen",
};

/**
 * k of copper in A s^0.5/mm2 between two temperatures: 226 sqrt(ln(1 + (Tf - Ti)/(234.5 + Ti))) with Celsius inside.
 * Source: IEC 60949, form from memory; it reproduces the table.
 */
export function kFactor(initial: Kelvin, final: Kelvin): number {
  return 226 * Math.sqrt(Math.log(1 + (final - initial) / (234.5 + (initial - 273.15))));
}

/** Least area that withstands a current for a time: S = sqrt(I2 t)/k (IEC 60364-5-54). */
export function adiabaticArea(current: Ampere, time: Second, k: number): SquareMetre {
  return (Math.sqrt(current ** 2 * time) / k) * 1e-6;
}

/** How long a conductor withstands a current: t = (k S/I)2. More than 5 s means that heat is lost meanwhile: it lasts longer. */
export function withstandTime(area: SquareMetre, current: Ampere, k: number): Second {
  return ((k * area * 1e6) / current) ** 2;
}

/** The let-through energy I2t, in A2s, that a conductor withstands: (k S)2. */
export function withstandEnergy(area: SquareMetre, k: number): number {
  return (k * area * 1e6) ** 2;
}

export const MELTING_SOURCE: Source = { text: "Onderdonk's equation for copper, melting at 1083 C", known: "seen" };

/** Current that melts copper in a time (Onderdonk; up to some 10 s): A sqrt(log10((Tm - Ta)/(234 + Ta) + 1)/(33 t)), A in circular mils. */
export function meltingCurrent(area: SquareMetre, time: Second, ambient: Kelvin): Ampere {
  const celsius = ambient - 273.15;
  return circularMils(area) * Math.sqrt(Math.log10((1083 - celsius) / (234 + celsius) + 1) / (33 * time));
}

/** Current that melts a thin copper wire in free air in the end (Preece): 10244 d^1.5, d in inches. */
export function fusingCurrent(diameter: Metre): Ampere {
  return 10244 * (diameter / 0.0254) ** 1.5;
}
