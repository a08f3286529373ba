/**
 * Conductor sizes. A gauge stays a gauge: the area is computed from it, never the other way round.
 * AWG geometry: ASTM B258 (No. 36 = 0.005 in, No. 0000 = 0.46 in, 39 equal ratios between them): seen.
 * Metric sizes: IEC 60228: seen.
 */
import type { Metre, SquareMetre } from "./kinds.ts";
import { CIRCULAR_MIL } from "./units.ts";

export interface ConductorSize {
  readonly area: SquareMetre;
  readonly system: "AWG" | "kcmil" | "mm2";
  /** AWG number; 1/0 is 0, 2/0 is -1, 3/0 is -2, 4/0 is -3. Absent for other systems. */
  readonly gauge?: number;
  /** As stored: "2/0 AWG", "250 kcmil", "35 mm2". */
  readonly text: string;
}

export type SizeReading =
  | { readonly ok: true; readonly size: ConductorSize }
  | { readonly ok: false; readonly why: string };

/** The thickest and the thinnest gauge that this program knows. */
export const THICKEST_GAUGE = -3;
export const THINNEST_GAUGE = 40;

/** Nominal cross-sections in mm2 (IEC 60228 from 0.5 on; below it DIN VDE 0295): seen. */
export const METRIC_SIZES: readonly number[] = [
  0.05, 0.08, 0.11, 0.14, 0.22, 0.25, 0.34, 0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185,
  240,
];

/** Gauges that are sold, thickest first: 4/0 to 1, then 2, 3, 4 and the even ones. */
const GAUGES_SOLD: readonly number[] = [-3, -2, -1, 0, 1, 2, 3, 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24, 26, 28, 30];

/** Diameter of a solid conductor of AWG number n: 0.005 in x 92^((36 - n)/39) (ASTM B258). */
export function gaugeDiameter(gauge: number): Metre {
  return 0.000127 * 92 ** ((36 - gauge) / 39);
}

/** Area of AWG number n: pi/4 of its diameter squared (ASTM B258). */
export function gaugeArea(gauge: number): SquareMetre {
  return (Math.PI / 4) * gaugeDiameter(gauge) ** 2;
}

/** Circular mils of an area: (diameter in mils) squared. */
export function circularMils(area: SquareMetre): number {
  return area / CIRCULAR_MIL;
}

/** "2/0" for -1, "14" for 14. */
export function gaugeName(gauge: number): string {
  return gauge <= 0 ? `${1 - gauge}/0` : String(gauge);
}

export function sizeFromGauge(gauge: number): ConductorSize {
  return { area: gaugeArea(gauge), system: "AWG", gauge, text: `${gaugeName(gauge)} AWG` };
}

export function sizeFromSquareMillimetres(mm2: number): ConductorSize {
  return { area: mm2 * 1e-6, system: "mm2", text: `${mm2} mm2` };
}

/**
 * The thickest of the given gauges whose area is not above this one; undefined where even the thinnest is thicker.
 * So a metric conductor is looked up in a gauge table on the safe side. A ten-thousandth is allowed for rounding.
 */
export function largestGaugeNotAbove(area: SquareMetre, among: readonly number[] = GAUGES_SOLD): number | undefined {
  let best: number | undefined;
  for (const gauge of among) {
    if (gaugeArea(gauge) <= area * 1.0001 && (best === undefined || gauge < best)) best = gauge;
  }
  return best;
}

/** The next size up in the same system; undefined at the end of its list. */
export function nextLargerSize(size: ConductorSize): ConductorSize | undefined {
  return smallestSizeAbove(size.area * 1.0001, size.system === "mm2" ? "mm2" : "AWG");
}

/** The smallest size of a system that has at least this area; undefined where none is thick enough. */
export function smallestSizeAbove(area: SquareMetre, system: "AWG" | "mm2"): ConductorSize | undefined {
  if (system === "mm2") {
    const mm2 = METRIC_SIZES.find((each) => each * 1e-6 >= area);
    return mm2 === undefined ? undefined : sizeFromSquareMillimetres(mm2);
  }
  const gauge = GAUGES_SOLD.findLast((each) => gaugeArea(each) >= area);
  return gauge === undefined ? undefined : sizeFromGauge(gauge);
}

const ZEROS = String.raw`(\d{1,2}) ?\/ ?0|(0{1,4})|(\d{1,2})`;
const GAUGE_FIRST = new RegExp(String.raw`^(?:#|no\.? ?)?(?:${ZEROS}) ?(?:AWG|ga|gauge)$`, "i");
const GAUGE_LAST = new RegExp(String.raw`^(?:AWG ?|AWG ?#|#)(?:${ZEROS})$`, "i");
/** "2/0" alone: only gauges are written so. */
const ZEROS_ALONE = /^([1-4]) ?\/ ?0$/;

/**
 * The gauge that a tidied text names: a number, "none" if it is not written as a gauge, or a sentence fragment if
 * there is no such gauge.
 */
export function gaugeOf(text: string): number | "none" | { readonly why: string } {
  const match = GAUGE_FIRST.exec(text) ?? GAUGE_LAST.exec(text) ?? ZEROS_ALONE.exec(text);
  if (match === null) return "none";
  const [, overZero, zeros, number] = match;
  const gauge = overZero !== undefined ? 1 - Number(overZero) : zeros !== undefined ? 1 - zeros.length : Number(number);
  if (gauge < THICKEST_GAUGE || gauge > THINNEST_GAUGE || overZero === "0") {
    return {
      why: `there is no such gauge: AWG runs from 4/0 (thickest) to ${THINNEST_GAUGE}; thicker ones are given in kcmil`,
    };
  }
  return gauge;
}
