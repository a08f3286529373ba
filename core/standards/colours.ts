/** Letter codes of conductor colours: IEC 60757. */
import type { Source } from "./source.ts";

export const COLOUR_SOURCE: Source = { text: "IEC 60757, table 1", known: "memory" };

/** Codes in the order of the standard's table, in which they are joined. */
export const COLOURS = {
  BK: "black",
  BN: "brown",
  RD: "red",
  OG: "orange",
  YE: "yellow",
  GN: "green",
  BU: "blue",
  VT: "violet",
  GY: "grey",
  WH: "white",
  PK: "pink",
  GD: "gold",
  TQ: "turquoise",
  SR: "silver",
} as const;
export type ColourCode = keyof typeof COLOURS;

const ORDER = Object.keys(COLOURS) as ColourCode[];

/**
 * Several colours of one conductor as one code, in the order of the table without separator: red and blue are RDBU.
 * Green and yellow together are GNYE, the protective conductor (seen).
 */
export function joinColours(codes: readonly ColourCode[]): string {
  const sorted = ORDER.filter((code) => codes.includes(code));
  return sorted.join("") === "YEGN" ? "GNYE" : sorted.join("");
}
