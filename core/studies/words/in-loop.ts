/** Which devices count as standing in the loop of a fault's current. */
import type { Ratio } from "../../quantity/kinds.ts";

/**
 * A device whose current is less than this share of the wire's is not in the wire's loop: what it carries comes through
 * loads beside the fault, and it would never end it (common practice, no source).
 */
export const IN_LOOP: Ratio = 0.05;
