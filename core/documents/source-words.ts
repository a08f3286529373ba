/** How well the source of a limit is known, in words. */
import type { Source } from "../checks/define.ts";

export const KNOWN_WORDS: Readonly<Record<Source["known"], string>> = {
  seen: "read in the source itself",
  memory: "from memory, to be confirmed",
  calc: "calculated",
  none: "no published source",
};
