/** The smallest conductors that withstand a vehicle, and how they are held. */
import type { Metre, SquareMetre } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const SMALL_CONDUCTOR_SOURCE: Source = { text: "ISO 10133:2012, 7.7", known: "seen" };
/** A conductor by itself that is longer than SMALL_CONDUCTOR_LENGTH. */
export const LEAST_AREA_ALONE: SquareMetre = 1e-6;
export const SMALL_CONDUCTOR_LENGTH: Metre = 0.2;
/** A core in a sheath, which may leave it by SHEATH_EXIT at most. */
export const LEAST_AREA_IN_SHEATH: SquareMetre = 0.75e-6;
export const SHEATH_EXIT: Metre = 0.8;

export const SUPPORT_SOURCE: Source = { text: "ISO 10133:2012, 7.3 and 7.4", known: "seen" };
export const SUPPORT_SPACING: Metre = 0.45;
export const BATTERY_CABLE_SUPPORT_SPACING: Metre = 0.3;
