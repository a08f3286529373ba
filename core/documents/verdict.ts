/** How things stand, in one or two sentences. It never says that a drawing is sound: only what was looked at. */
import { SEVERITIES } from "../checks/define.ts";
import type { Counts } from "../checks/finding.ts";

const times = (count: number): string => (count === 1 ? "once" : `${String(count)} times`);

/** What is said where no finding counts. */
export function nothingFound({ passed, doesNotApply, notChecked, accepted }: Counts): string {
  const looked = `Checks passed ${times(passed)} and did not apply ${times(doesNotApply)}.`;
  const had =
    notChecked === 0
      ? "Every check had what it needed."
      : `${String(notChecked)} could not be made; what they need is listed below.`;
  const kept = accepted === 0 ? "" : ` ${String(accepted)} accepted with a reason.`;
  return `Nothing found. ${looked} ${had}${kept}`;
}

/** How many findings stand open and of what worth the worst is; what could not be checked counts as open as well. */
export function verdict(counts: Counts): string {
  const open = SEVERITIES.reduce((sum, severity) => sum + counts[severity], 0);
  const worst = SEVERITIES.find((severity) => counts[severity] > 0);
  if (worst === undefined) return nothingFound(counts);
  const stand = open === 1 ? "One finding stands open" : `${String(open)} findings stand open`;
  const lacking =
    counts.notChecked === 0
      ? "Every check had what it needed."
      : `Checks could not be made at ${counts.notChecked === 1 ? "one place" : `${String(counts.notChecked)} places`}: none of them counts as passed.`;
  const still = worst === "DANGER" ? " Nothing is to be energised while a DANGER stands open." : "";
  return `${stand}, ${open === 1 ? `a ${worst}` : `the worst a ${worst}`}.${still} ${lacking}`;
}
