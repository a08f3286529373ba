/** The source of a limit, and how well it is known, in words. */
import type { Source } from "../checks/define.ts";

const KNOWN: Readonly<Record<Source["known"], string>> = {
  seen: "read in the source itself",
  memory: "from memory, to be confirmed",
  calc: "calculated",
  none: "no published source",
};

/** "33 CFR 183.425, table 5 (read in the source itself)"; what says itself that it has no source is not told so twice. */
export const sourceWords = ({ text, known }: Source): string =>
  known === "none" && /\bno (published )?source\b/.test(text) ? text : `${text} (${KNOWN[known]})`;
