/** What hands, tools and loose leads reach, and how lugs are stacked. Common practice of the trade, no source. */
import type { Metre, Volt } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const PRACTICE_SOURCE: Source = { text: "Common practice, no source", known: "none" };

/** A spanner dropped or slipped across two terminals. */
export const SPANNER_LENGTH: Metre = 0.2;
/** Two bare terminals within a spanner's length matter above this. */
export const SPANNER_VOLTAGE: Volt = 30;
/** How far a loose plug swings on its lead when its lead's length is unstated. */
export const LOOSE_LEAD: Metre = 0.1;
/** Lugs that one stud holds well (common marine practice). */
export const LUGS_ON_STUD = 4;
