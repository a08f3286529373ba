/**
 * Numbers to text for people: the unit of the trade, four significant digits at most (three for sizes), never an
 * exponent. What is printed without brackets can be typed in again.
 */
import type { Dimension, SquareMetre } from "./kinds.ts";
import { circularMils, gaugeArea, gaugeName, largestGaugeNotAbove, THICKEST_GAUGE } from "./size.ts";

export interface Preference {
  readonly size?: "mm2" | "AWG";
  readonly length?: "metric" | "imperial";
  readonly temperature?: "celsius" | "fahrenheit";
  readonly torque?: "metric" | "imperial";
  /** Significant digits at most, in the unit printed; four unless told. Sizes, counts and temperatures keep their own. */
  readonly digits?: number;
}

/** One step of a scale: used from `least` (SI) upwards. */
type Step = readonly [least: number, symbol: string, factor: number];

const SCALES: Readonly<Partial<Record<Dimension | "resistance-per-volt", readonly Step[]>>> = {
  voltage: [
    [1e4, "kV", 1e3],
    [0.1, "V", 1],
    [1e-4, "mV", 1e-3],
    [0, "uV", 1e-6],
  ],
  current: [
    [1e4, "kA", 1e3],
    [1, "A", 1],
    [1e-3, "mA", 1e-3],
    [0, "uA", 1e-6],
  ],
  resistance: [
    [1e9, "Gohm", 1e9],
    [1e6, "Mohm", 1e6],
    [1e3, "kohm", 1e3],
    [1, "ohm", 1],
    [1e-4, "mohm", 1e-3],
    [0, "uohm", 1e-6],
  ],
  "resistance-per-volt": [
    [1e7, "Mohm/V", 1e6],
    [1e4, "kohm/V", 1e3],
    [0, "ohm/V", 1],
  ],
  power: [
    [1e7, "MW", 1e6],
    [1e3, "kW", 1e3],
    [1, "W", 1],
    [0, "mW", 1e-3],
  ],
  energy: [
    [1e7, "MJ", 1e6],
    [1e4, "kJ", 1e3],
    [0.1, "J", 1],
    [1e-4, "mJ", 1e-3],
    [0, "uJ", 1e-6],
  ],
  capacitance: [
    [10, "F", 1],
    [1e-2, "mF", 1e-3],
    [1e-6, "uF", 1e-6],
    [1e-9, "nF", 1e-9],
    [0, "pF", 1e-12],
  ],
  inductance: [
    [0.1, "H", 1],
    [1e-3, "mH", 1e-3],
    [0, "uH", 1e-6],
  ],
  time: [
    [2 * 86400, "d", 86400],
    [7200, "h", 3600],
    [180, "min", 60],
    [1, "s", 1],
    [1e-3, "ms", 1e-3],
    [0, "us", 1e-6],
  ],
  charge: [
    [360, "Ah", 3600],
    [0, "mAh", 3.6],
  ],
  "temperature-difference": [[0, "K", 1]],
  ratio: [[0, "%", 0.01]],
};
const UNSCALED: Step = [0, "", 1];
const METRIC_LENGTH: readonly Step[] = [
  [1, "m", 1],
  [0, "mm", 1e-3],
];
const IMPERIAL_LENGTH: readonly Step[] = [
  [3 * 0.3048, "ft", 0.3048],
  [0, "in", 0.0254],
];

/**
 * A value in SI as text. Sizes carry the other system in brackets. A value that is not a number (an open
 * circuit's resistance, say) is told in words.
 */
export function printQuantity(
  value: number,
  dimension: Dimension | "resistance-per-volt",
  preference: Preference = {},
): string {
  if (Number.isNaN(value)) return "unknown";
  if (!Number.isFinite(value)) return "beyond measure";
  switch (dimension) {
    case "size":
      return printSize(value, preference.size);
    case "count":
      return plainNumber(value, 6);
    case "length":
      return scaled(value, preference.length === "imperial" ? IMPERIAL_LENGTH : METRIC_LENGTH, preference.digits);
    case "temperature":
      return preference.temperature === "fahrenheit"
        ? `${oneDecimal((value - 273.15) * 1.8 + 32)} °F`
        : `${oneDecimal(value - 273.15)} °C`;
    case "torque":
      return preference.torque === "imperial"
        ? scaled(value, [[0, "in-lb", 0.1129848]], preference.digits)
        : scaled(value, [[0, "Nm", 1]], preference.digits);
    default:
      return scaled(value, SCALES[dimension] ?? [UNSCALED], preference.digits);
  }
}

/** Significant digits without exponent and without trailing zeros; whole digits are never rounded away below 1e6. */
export function plainNumber(value: number, digits = 4): string {
  const large = Math.abs(value);
  if (large === 0) return "0";
  const whole = Math.floor(Math.log10(large)) + 1;
  const decimals = Math.min(12, Math.max(0, digits - whole));
  const text = value.toFixed(decimals);
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return short === "-0" ? "0" : short;
}

function oneDecimal(value: number): string {
  return plainNumber(Number(value.toFixed(1)), 6);
}

function scaled(value: number, scale: readonly Step[], digits = 4): string {
  const large = Math.abs(value);
  // 999.96 uA would print as 1000 uA: the value is rounded before the step is chosen.
  const rounded = large === 0 ? 0 : Number(large.toPrecision(4));
  const [, symbol, factor] = scale.find(([least]) => rounded >= least) ?? UNSCALED;
  // Zero is told in the plain unit, not in the smallest one.
  if (rounded === 0) return `0 ${(scale.find(([, , each]) => each === 1) ?? [0, symbol, factor])[1]}`;
  return `${plainNumber(Number((value / factor).toPrecision(digits)), digits)} ${symbol}`;
}

/**
 * A conductor's area: "2/0 AWG (67.4 mm2)", "35 mm2 (between 2 and 1 AWG)", "253 kcmil (128 mm2)". Without a
 * preference, an area that is a gauge is told as one.
 */
function printSize(area: SquareMetre, preference?: "mm2" | "AWG"): string {
  const metric = `${plainNumber(area * 1e6, 3)} mm2`;
  const { text, exact } = gaugeText(area);
  const gaugeFirst = preference === "AWG" || (preference === undefined && exact);
  return gaugeFirst ? `${text} (${metric})` : `${metric} (${text})`;
}

function gaugeText(area: SquareMetre): { readonly text: string; readonly exact: boolean } {
  const below = largestGaugeNotAbove(area);
  if (below === undefined) return { text: "thinner than 30 AWG", exact: false };
  if (Math.abs(gaugeArea(below) / area - 1) < 0.002) return { text: `${gaugeName(below)} AWG`, exact: true };
  if (below === THICKEST_GAUGE) {
    const kcmil = circularMils(area) / 1000;
    const whole = Math.abs(kcmil / Math.round(kcmil / 50) / 50 - 1) < 0.0005;
    return { text: `${plainNumber(kcmil, 3)} kcmil`, exact: whole };
  }
  const above = [...Array(below - THICKEST_GAUGE).keys()].map((step) => below - 1 - step).find(isSold);
  return { text: `between ${gaugeName(below)} and ${gaugeName(above ?? below - 1)} AWG`, exact: false };
}

function isSold(gauge: number): boolean {
  return gauge <= 4 || gauge % 2 === 0;
}
