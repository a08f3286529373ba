/**
 * What a short circuit does to a conductor before it is cleared: how long it stands the current, and how hot it gets
 * (adiabatic method of IEC 60949 and IEC 60364-5-54: up to 5 s all heat stays in the copper).
 */
import type { Conductor } from "../network/network.ts";
import type { Ampere, Kelvin, Second, SquareMetre } from "../quantity/kinds.ts";
import { parseQuantity } from "../quantity/parse.ts";
import { K_FACTORS, K_SOURCE, kFactor, withstandTime } from "../standards/short-circuit.ts";
import type { Source } from "../standards/source.ts";
import type { MissingField } from "./missing-field.ts";

/** Longer than this, heat leaves the conductor meanwhile: it stands more than the method says. */
export const ADIABATIC_LIMIT: Second = 5;

const celsius = (degrees: number): Kelvin => degrees + 273.15;

/** What insulation of a material stands at the end of a short circuit (IEC 60364-5-54). */
const FINAL: readonly (readonly [names: readonly string[], final: Kelvin, usual: Kelvin])[] = [
  [["pvc"], celsius(K_FACTORS["PVC 70"].final), celsius(K_FACTORS["PVC 70"].initial)],
  [["xlpe", "epr", "pex"], celsius(K_FACTORS.XLPE.final), celsius(K_FACTORS.XLPE.initial)],
  [["rubber"], celsius(K_FACTORS["rubber 60"].final), celsius(K_FACTORS["rubber 60"].initial)],
  [["silicone"], celsius(K_FACTORS.silicone.final), celsius(K_FACTORS.silicone.initial)],
];
/** Of the listed materials the one that stands least and the one that stands most at temperatures of a vehicle's wires. */
const LOWEST_FINAL: Kelvin = celsius(K_FACTORS["PVC 70"].final);
/** Vehicle cable of a material is sold in classes up to this much above the table's: PVC to 105 C, XLPE to 125 C. */
const CLASS_SPREAD = 35;
/** Nothing stated: PVC of the highest class, as hot as it may get; lower than any k of the table. */
const LOWEST = kFactor(celsius(K_FACTORS["PVC 70"].initial + CLASS_SPREAD), celsius(K_FACTORS["PVC 70"].final));
const HIGHEST_FINAL: Kelvin = celsius(K_FACTORS.silicone.final);

export interface KRange {
  /** A s^0.5/mm2: for sure, and at best. Alike where material and temperature class are stated. */
  readonly low: number;
  readonly high: number;
  readonly source: Source;
  readonly missing: readonly ("insulation.material" | "insulation.temperature")[];
}

const K_FORMULA: Source = {
  text: "IEC 60949, k from the temperatures before and after; IEC 60364-5-54 for what insulation stands",
  known: "memory",
};

/**
 * k of a copper conductor with its insulation, which begins at its highest temperature in service. A material that
 * the table of IEC 60364-5-54 does not list, or none: from the weakest to the strongest of the listed ones.
 * @param material "PVC", "XLPE", "EPR", "rubber", "silicone", in any case; undefined: unstated
 * @param temperature class of the insulation; undefined: unstated
 */
export function kOf(material: string | undefined, temperature: Kelvin | undefined): KRange {
  const word = material?.trim().toLowerCase() ?? "";
  const listed = FINAL.find(([names]) => names.includes(word));
  const missing = [
    ...(listed === undefined ? (["insulation.material"] as const) : []),
    ...(temperature === undefined ? (["insulation.temperature"] as const) : []),
  ];
  if (temperature === undefined) {
    if (listed === undefined) return { low: LOWEST, high: K_FACTORS.XLPE.k, source: K_SOURCE, missing };
    const [, final, usual] = listed;
    // Insulation of a higher class starts hotter and so stands less.
    return { low: kFactor(usual + CLASS_SPREAD, final), high: kFactor(usual, final), source: K_FORMULA, missing };
  }
  const k = (final: Kelvin): number => (final <= temperature ? 0 : kFactor(temperature, final));
  const [low, high] = listed === undefined ? [k(LOWEST_FINAL), k(HIGHEST_FINAL)] : [k(listed[1]), k(listed[1])];
  return { low, high, source: K_FORMULA, missing };
}

/** k of a drawn wire, from its insulation as stated. */
export function kOfWire({ wire }: Conductor): KRange {
  const typed = wire.insulation?.temperature;
  const reading = typed == null ? undefined : parseQuantity(typed, "temperature");
  return kOf(wire.insulation?.material, reading?.ok === true ? reading.value : undefined);
}

export interface AdiabaticLimit {
  /** It stands the current this long for sure; beyond 5 s even longer, as heat leaves it. */
  readonly least: Second;
  /** It stands the current no longer than this; Infinity beyond 5 s, where the method gives no upper end. */
  readonly most: Second;
  readonly source: Source;
  /** What to state so that both ends become one. */
  readonly missing: readonly MissingField[];
}

/**
 * How long a drawn wire stands a current: t = (k S/I)2, from its highest temperature in service.
 * @returns undefined where its size is unstated
 */
export function adiabaticLimit(conductor: Conductor, current: Ampere): AdiabaticLimit | undefined {
  const { area, wire } = conductor;
  if (area === undefined) return undefined;
  const { low, high, source, missing } = kOfWire(conductor);
  const fields = missing.map((field): MissingField => ({ wire: wire.id, field }));
  if (current === 0) return { least: Infinity, most: Infinity, source, missing: fields };
  const most = withstandTime(area, Math.abs(current), high);
  return {
    least: withstandTime(area, Math.abs(current), low),
    most: most > ADIABATIC_LIMIT ? Infinity : most,
    source,
    missing: fields,
  };
}

/** Constants of copper in the formula of IEC 60949. */
const K_COPPER = 226;
const BETA = 234.5;

/**
 * Temperature of a copper conductor after a pulse, no heat leaving it: the formula of k turned round,
 * Tf = (Ti + 234.5) exp(I2t/(226 S)2) - 234.5 in Celsius.
 * @param energy I2t in A2s
 */
export function temperatureAfter(area: SquareMetre, initial: Kelvin, energy: number): Kelvin {
  const start = initial - 273.15;
  return celsius((start + BETA) * Math.exp(energy / (K_COPPER * area * 1e6) ** 2) - BETA);
}
