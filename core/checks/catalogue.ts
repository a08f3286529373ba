/** Every check, in the order in which a person should mend: what kills first, what is only untidy last. */
import type { Check } from "./define.ts";

export const CHECKS: readonly Check[] = [];
