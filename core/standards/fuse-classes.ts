/** What the classes of fuses are made for: highest direct voltage, largest rating, what they can break. */
import type { Ampere, Kelvin, Ratio, Volt } from "../quantity/kinds.ts";
import type { FuseClass } from "./fuse-times.ts";
import type { Source } from "./source.ts";

export interface FuseClassLimits {
  readonly fuseClass: FuseClass;
  /** Highest DC voltage for which the class is made; undefined: by its own print alone. */
  readonly volts: Volt | undefined;
  readonly rating: Ampere | undefined;
  /** Least breaking capacity of the class; undefined: by its own print alone. */
  readonly interrupting: Ampere | undefined;
  readonly source: Source;
}

/** In the order in which they are proposed: the simplest first. */
export const FUSE_CLASSES: readonly FuseClassLimits[] = [
  {
    fuseClass: "blade",
    volts: 58,
    rating: 100,
    interrupting: 1000,
    source: { text: "ISO 8820-3:2015: blade fuses for 32 V or 58 V, up to 100 A, breaking 1000 A", known: "seen" },
  },
  {
    fuseClass: "bolted-strip",
    volts: 58,
    rating: 500,
    interrupting: undefined,
    source: { text: "ISO 8820-5: bolt-in strip fuses for 32 V or 58 V, up to 500 A", known: "memory" },
  },
  {
    fuseClass: "traction-gR",
    volts: undefined,
    rating: undefined,
    interrupting: undefined,
    source: { text: "IEC 60269-4, utilisation class gR: overloads and short circuits", known: "seen" },
  },
];

/** The surroundings at which a fuse carries its rating, and what it loses for each kelvin above: half a per cent. */
export const FUSE_AMBIENT: Kelvin = 298.15;
export const FUSE_AMBIENT_LOSS: Ratio = 0.005;
export const FUSE_AMBIENT_SOURCE: Source = { text: "Common practice, no source", known: "none" };

/** The part of its rating that a fuse carries in such air. */
export function fuseAmbientFactor(ambient: Kelvin): Ratio {
  return Math.max(0.1, 1 - FUSE_AMBIENT_LOSS * Math.max(0, ambient - FUSE_AMBIENT));
}
