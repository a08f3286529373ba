import type { Stage } from "./editor-store.ts";

/** The stages of the job as they stand along the top edge. */
export const STAGE_NAMES: Readonly<Record<Stage, string>> = {
  plan: "Plan",
  draw: "Draw",
  check: "Check",
  build: "Build",
  energise: "Energise",
};
