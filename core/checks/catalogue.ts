/** Every check, in the order in which a person should mend: what kills first, what is only untidy last. */
import type { Check } from "./define.ts";
import { terminalUnconnected } from "./connections/terminal-unconnected.ts";
import { wireLooseEnd } from "./connections/wire-loose-end.ts";
import { noReturnPath } from "./connections/no-return-path.ts";
import { designationDuplicate } from "./connections/designation-duplicate.ts";
import { studCrowded } from "./connections/stud-crowded.ts";
import { lugMisfit } from "./connections/lug-misfit.ts";
import { connectorMismatch } from "./connections/connector-mismatch.ts";

export const CHECKS: readonly Check[] = [
  terminalUnconnected,
  wireLooseEnd,
  noReturnPath,
  designationDuplicate,
  studCrowded,
  lugMisfit,
  connectorMismatch,
];
