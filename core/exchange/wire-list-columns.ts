/** The columns of the two tables of a wire list; the first two of each are required. Their meaning: README of this folder. */

export const PART_COLUMNS = ["designation", "kind", "parameters", "zone", "enclosure", "x", "y"] as const;
export const WIRE_COLUMNS = [
  "from",
  "to",
  "number",
  "size",
  "length",
  "colour",
  "insulation",
  "cable",
  "core",
  "sheath",
  "zone",
  "conduit",
  "lug-from",
  "lug-to",
  "boot-from",
  "boot-to",
  "note",
] as const;
export type PartColumn = (typeof PART_COLUMNS)[number];
export type WireColumn = (typeof WIRE_COLUMNS)[number];
