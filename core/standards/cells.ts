/** Voltages of battery cells by chemistry. */
import type { Ratio, Volt } from "../quantity/kinds.ts";
import { interpolate } from "./interpolate.ts";
import type { Source } from "./source.ts";

/** Choices of the parameter `chemistry`. */
export const CHEMISTRIES = ["flooded-lead", "agm-lead", "gel-lead", "lifepo4", "nmc", "lto", "nimh"] as const;
export type Chemistry = (typeof CHEMISTRIES)[number];

/** As people call them. */
export const CHEMISTRY_NAMES: Readonly<Record<Chemistry, string>> = {
  "flooded-lead": "flooded lead-acid",
  "agm-lead": "sealed lead-acid (AGM)",
  "gel-lead": "sealed lead-acid (gel)",
  lifepo4: "lithium iron phosphate",
  nmc: "lithium nickel manganese cobalt",
  lto: "lithium titanate",
  nimh: "nickel-metal hydride",
};

export interface Cell {
  readonly nominal: Volt;
  /** Open circuit by state of charge (0 to 1), rested for hours. */
  readonly rest: readonly (readonly [charge: Ratio, emf: Volt])[];
  /** Where the rest curve comes from. */
  readonly restSource: Source;
  /** Highest in ordinary charging: absorption of lead-acid, end of charge of the others. */
  readonly chargeMax: Volt;
  readonly chargeSource: Source;
  /** Equalising charge, where the chemistry has one. */
  readonly equaliseMax?: Volt;
  /** End of discharge. */
  readonly empty: Volt;
  /** Below this the cell is damaged; undefined where no figure is published. */
  readonly absoluteMin?: Volt;
  readonly source: Source;
}

const LEAD_TABLE: Source = {
  text: "Published table of lead-acid open-circuit voltage by state of charge, 12 V block",
  known: "seen",
};
const LEAD_SHIFTED: Source = {
  text: "Lead-acid open-circuit table, raised to 12.9 V for a full sealed block (published range 12.8 to 13.0 V)",
  known: "memory",
};
const LITHIUM_SUMMARY: Source = { text: "Published summary table of lithium chemistries", known: "seen" };
const LEAD_CHARGE: Source = { text: "Lead-acid absorption voltage, upper end of the usual range", known: "memory" };
const REST_FROM_MEMORY: Source = { text: "Usual open-circuit curve of the chemistry", known: "memory" };

/** Volts of a rested 12 V flooded block by per cent of charge, the safer (lower) of the published tables. */
const FLOODED_BLOCK: readonly (readonly [percent: number, volts: Volt])[] = [
  [0, 10.5],
  [10, 11.31],
  [20, 11.58],
  [30, 11.75],
  [40, 11.9],
  [50, 12.06],
  [60, 12.2],
  [70, 12.32],
  [80, 12.42],
  [90, 12.5],
  [100, 12.7],
];

function blockCurve(rise: Volt): readonly (readonly [Ratio, Volt])[] {
  return FLOODED_BLOCK.map(([percent, volts]) => [percent / 100, (volts + (percent === 0 ? 0 : rise)) / 6] as const);
}

const SEALED = { nominal: 2, rest: blockCurve(0.2), restSource: LEAD_SHIFTED, empty: 1.75 } as const;

const CELLS: Readonly<Record<Chemistry, Cell>> = {
  "flooded-lead": {
    nominal: 2,
    rest: blockCurve(0),
    restSource: LEAD_TABLE,
    chargeMax: 2.47,
    chargeSource: LEAD_CHARGE,
    equaliseMax: 2.67,
    empty: 1.75,
    source: LEAD_TABLE,
  },
  "agm-lead": { ...SEALED, chargeMax: 2.45, chargeSource: LEAD_CHARGE, source: LEAD_SHIFTED },
  "gel-lead": { ...SEALED, chargeMax: 2.4, chargeSource: LEAD_CHARGE, source: LEAD_SHIFTED },
  lifepo4: {
    nominal: 3.2,
    rest: [
      [0, 2.5],
      [0.1, 3.0],
      [0.2, 3.2],
      [0.3, 3.22],
      [0.4, 3.25],
      [0.5, 3.26],
      [0.6, 3.27],
      [0.7, 3.3],
      [0.8, 3.32],
      [0.9, 3.35],
      [1, 3.4],
    ],
    restSource: REST_FROM_MEMORY,
    chargeMax: 3.65,
    chargeSource: LITHIUM_SUMMARY,
    empty: 2.5,
    absoluteMin: 2,
    source: LITHIUM_SUMMARY,
  },
  nmc: {
    nominal: 3.6,
    rest: [
      [0, 3.0],
      [0.1, 3.45],
      [0.3, 3.62],
      [0.5, 3.72],
      [0.7, 3.89],
      [0.9, 4.08],
      [1, 4.2],
    ],
    restSource: REST_FROM_MEMORY,
    chargeMax: 4.2,
    chargeSource: LITHIUM_SUMMARY,
    empty: 3,
    absoluteMin: 2.5,
    source: LITHIUM_SUMMARY,
  },
  lto: {
    nominal: 2.4,
    rest: [
      [0, 1.8],
      [0.1, 2.15],
      [0.5, 2.35],
      [0.9, 2.55],
      [1, 2.7],
    ],
    restSource: REST_FROM_MEMORY,
    chargeMax: 2.85,
    chargeSource: LITHIUM_SUMMARY,
    empty: 1.8,
    absoluteMin: 1.5,
    source: LITHIUM_SUMMARY,
  },
  nimh: {
    nominal: 1.2,
    rest: [
      [0, 1.0],
      [0.1, 1.2],
      [0.5, 1.29],
      [0.9, 1.35],
      [1, 1.4],
    ],
    restSource: REST_FROM_MEMORY,
    chargeMax: 1.55,
    chargeSource: { text: "Peak of a nickel-metal-hydride cell on charge", known: "memory" },
    empty: 1,
    absoluteMin: 0.8,
    source: { text: "Nickel cells: 1.2 V nominal, 1.0 to 1.4 V working range", known: "seen" },
  },
};

export function cellOf(chemistry: Chemistry): Cell {
  return CELLS[chemistry];
}

export function isLithium(chemistry: Chemistry): boolean {
  return chemistry === "lifepo4" || chemistry === "nmc" || chemistry === "lto";
}

/** What a battery is doing: at rest, delivering, nearly empty, taking back current, being charged. */
export type PackCondition = "rest" | "loaded" | "low" | "taking-current" | "on-charge";

/** Charge that is left where a state says "low". */
export const LOW_CHARGE: Ratio = 0.1;

/** Open-circuit voltage of cells in series at a state of charge, 0 to 1. */
export function restEmf(chemistry: Chemistry, cells: number, charge: Ratio): Volt {
  return cells * interpolate(CELLS[chemistry].rest, charge);
}

/**
 * EMF behind a block's resistance. At rest, loaded, or taking current: its open-circuit voltage at its charge (full
 * unless stated). Low: at 10 % or at its stated charge, whichever is less. On charge: the highest of ordinary charging.
 */
export function blockEmf(chemistry: Chemistry, cells: number, condition: PackCondition, charge: Ratio = 1): Volt {
  if (condition === "on-charge") return packHighest(chemistry, cells);
  return restEmf(chemistry, cells, condition === "low" ? Math.min(charge, LOW_CHARGE) : charge);
}

/** Highest voltage in ordinary use: absorption or end of charge. Parts are rated against this. */
export function packHighest(chemistry: Chemistry, cells: number): Volt {
  return cells * CELLS[chemistry].chargeMax;
}

/** Highest while equalising; the same as `packHighest` where the chemistry is not equalised. */
export function packEqualising(chemistry: Chemistry, cells: number): Volt {
  return cells * (CELLS[chemistry].equaliseMax ?? CELLS[chemistry].chargeMax);
}

export function packNominal(chemistry: Chemistry, cells: number): Volt {
  return cells * CELLS[chemistry].nominal;
}

export function packEmpty(chemistry: Chemistry, cells: number): Volt {
  return cells * CELLS[chemistry].empty;
}

/** State of charge, 0 to 1, of rested cells at an open-circuit voltage. */
export function chargeAt(chemistry: Chemistry, cells: number, volts: Volt): Ratio {
  const byVolts = CELLS[chemistry].rest.map(([charge, emf]) => [emf, charge] as const);
  return interpolate(byVolts, volts / cells);
}
