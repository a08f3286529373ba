/** How thick the conductor must be that bonds a metal case: by the thickest live conductor of the part. */
import type { SquareMetre } from "../quantity/kinds.ts";
import type { Source } from "./source.ts";

export const PROTECTIVE_SOURCE: Source = {
  text: "IEC 60364-5-54, table 54.2: least area of protective conductors of the same metal",
  known: "memory",
};

const SAME_UP_TO: SquareMetre = 16e-6;
const HALF_FROM: SquareMetre = 35e-6;

/** Up to 16 mm2 as thick as the live conductor, 16 mm2 up to 35 mm2, half of it beyond. */
export function protectiveArea(live: SquareMetre): SquareMetre {
  if (live <= SAME_UP_TO * 1.0001) return live;
  return live <= HALF_FROM * 1.0001 ? SAME_UP_TO : live / 2;
}
