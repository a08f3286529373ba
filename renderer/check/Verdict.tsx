/** How things stand where no finding counts. */
import type { CheckDocument } from "../../core/checks/report-json.ts";
import { nothingFound } from "../../core/documents/verdict.ts";

export function Verdict({ document }: { readonly document: CheckDocument }) {
  return (
    <p className="verdict">
      {nothingFound(document.counts)} This is no proof: have the makers&apos; data, the local rules and a competent
      person confirm it.
    </p>
  );
}
