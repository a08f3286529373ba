/** How things stand, in one or two sentences. It never says that a drawing is sound: only what was looked at. */
import type { CheckDocument } from "../../core/checks/report-json.ts";

const times = (count: number): string => (count === 1 ? "once" : `${String(count)} times`);

/** What is said where no finding counts. */
export function nothingFound({ counts }: CheckDocument): string {
  const { passed, doesNotApply, notChecked, accepted } = counts;
  const looked = `Checks passed ${times(passed)} and did not apply ${times(doesNotApply)}.`;
  const had =
    notChecked === 0
      ? "Every check had what it needed."
      : `${String(notChecked)} could not be made; what they need is listed below.`;
  const kept = accepted === 0 ? "" : ` ${String(accepted)} accepted with a reason.`;
  return `Nothing found. ${looked} ${had}${kept}`;
}

export function Verdict({ document }: { readonly document: CheckDocument }) {
  return (
    <p className="verdict">
      {nothingFound(document)} This is no proof: have the makers&apos; data, the local rules and a competent person
      confirm it.
    </p>
  );
}
