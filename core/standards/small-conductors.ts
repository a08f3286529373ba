/** The smallest conductors that withstand a vehicle. */
import type { Metre, SquareMetre } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const SMALL_CONDUCTOR_SOURCE: Source = { text: "ISO 10133:2012, 7.7", known: "seen" };
/** A conductor by itself may be thinner up to this length. */
export const SHORT_ALONE: Metre = 0.2;
/** A conductor by itself that is longer. */
export const LEAST_AREA_ALONE: SquareMetre = 1e-6;
/** A core in a sheath, which may leave it by 0.8 m at most. */
export const LEAST_AREA_IN_SHEATH: SquareMetre = 0.75e-6;
