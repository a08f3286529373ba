/** Resistance of a wire from its size, length and temperature, with its two joints. */
import type { Kelvin, Metre, Ohm } from "../quantity/kinds.ts";
import { parseQuantity, parseSize } from "../quantity/parse.ts";
import type { ConductorSize } from "../quantity/size.ts";
import type { Wire } from "../project/document.ts";
import type { Conductor } from "./network.ts";

/** One bolted or crimped joint. Common practice, no source. */
export const JOINT: Ohm = 50e-6;
/** A wire without a stated length is taken to be this long: the figure is then approximate. Common practice, no source. */
export const ASSUMED_LENGTH: Metre = 1;
/** A wire without a stated size is taken to have this in all, joints included. Common practice, no source. */
export const UNSIZED: Ohm = 1e-3;

const celsius = (degrees: number): Kelvin => degrees + 273.15;
const COLD: Kelvin = celsius(20);
/** PVC, the lowest class in common use (IEC 60227: 70 C). */
const UNSTATED_LIMIT: Kelvin = celsius(70);

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
    resistancePerMetre(size.size, temperature) * (length ?? ASSUMED_LENGTH) + 2 * JOINT;
  return { area: size.size.area, cold: at(COLD), hot: at(limit), assumed };
}

function read(text: string | null | undefined, dimension: "length" | "temperature"): number | undefined {
  if (text == null) return undefined;
  const reading = parseQuantity(text, dimension);
  return reading.ok ? reading.value : undefined;
}

function resistancePerMetre(size: ConductorSize, temperature: Kelvin): number {
  return (1.7241e-8 / size.area) * (1 + 0.00393 * (temperature - COLD));
}
