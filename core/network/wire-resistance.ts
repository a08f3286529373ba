/** Resistance of a wire from its size, length and temperature, with its two joints. */
import type { Kelvin, Metre, Ohm } from "../quantity/kinds.ts";
import { parseQuantity, parseSize } from "../quantity/parse.ts";
import { conductorResistance, REFERENCE_TEMPERATURE } from "../standards/conductors.ts";
import type { Wire } from "../project/document.ts";
import type { Conductor } from "./network.ts";

/** One bolted or crimped joint. Common practice, no source. */
export const JOINT: Ohm = 50e-6;
/** A wire without a stated length is taken to be this long: the figure is then approximate. Common practice, no source. */
export const ASSUMED_LENGTH: Metre = 1;
/** A wire without a stated size is taken to have this in all, joints included. Common practice, no source. */
export const UNSIZED: Ohm = 1e-3;

/** Limit of insulation that nobody stated: 70 C, as PVC (IEC 60227), the lowest class in common use. */
const UNSTATED_LIMIT: Kelvin = 343.15;

/** Area, resistance at 20 C and at the insulation's limit, and what was assumed for want of data. */
export function conductorFigures(wire: Wire): Pick<Conductor, "area" | "cold" | "hot" | "assumed"> {
  const size = wire.size == null ? undefined : parseSize(wire.size);
  const length = read(wire.length, "length");
  const assumed = [
    ...(length === undefined ? (["length"] as const) : []),
    ...(size?.ok === true ? [] : (["size"] as const)),
  ];
  if (size?.ok !== true) return { area: undefined, cold: UNSIZED, hot: UNSIZED, assumed };
  const limit = read(wire.insulation?.temperature, "temperature") ?? UNSTATED_LIMIT;
  const at = (temperature: Kelvin): Ohm =>
    conductorResistance(size.size, length ?? ASSUMED_LENGTH, temperature) + 2 * JOINT;
  return { area: size.size.area, cold: at(REFERENCE_TEMPERATURE), hot: at(limit), assumed };
}

function read(text: string | null | undefined, dimension: "length" | "temperature"): number | undefined {
  if (text == null) return undefined;
  const reading = parseQuantity(text, dimension);
  return reading.ok ? reading.value : undefined;
}
