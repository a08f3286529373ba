/** How large a project may be (common practice, no source): far beyond a vehicle, small enough to stay quick. */
export const LIMITS = {
  bytes: 20_000_000,
  parts: 20_000,
  wires: 60_000,
  /** Characters of one text. */
  text: 10_000,
  /** Objects and lists within one another. */
  nesting: 20,
  /** Texts, numbers, lists and objects in all: twice what the most parts and wires need. */
  values: 3_000_000,
  /** Sheets, zones, enclosures, cables and the other short lists, entries each. */
  entries: 20_000,
  /** Coordinates lie within this many millimetres of the origin: ten times the longest roll of paper. */
  millimetres: 100_000,
} as const;

/** Sheets, symbols and pins lie on this grid, mm (IEC 60617 drawings use a module of 2.5 mm: memory). */
export const GRID = 2.5;
