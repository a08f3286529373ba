/** Does a conductor or contact carry current that something energises on purpose, beyond what it carried before? */
import type { Ampere, Ratio } from "../../quantity/kinds.ts";

/** What a lighter load on the battery alone adds is less (common practice, no source). */
const RISE: Ratio = 1.2;
/** Below this only leaks flow: an input of 100 kohm on 12 V takes 120 microamperes. */
const LEAST: Ampere = 1e-6;

/** Both are sizes of a current, whatever its direction. */
export function carriesMore(now: Ampere, before: Ampere): boolean {
  return now > LEAST && now > RISE * before;
}
