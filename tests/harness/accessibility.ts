/** What axe finds wrong with a page as it stands, by the rules of WCAG 2.2 A and AA, in one line each. */
import { AxeBuilder } from "@axe-core/playwright";
import type { Page } from "playwright-core";

export async function accessibilityProblems(page: Page): Promise<readonly string[]> {
  // Its own helper page would be a blank window, which the strict policy of ours has no say in: the old way stays inside.
  const { violations } = await new AxeBuilder({ page })
    .setLegacyMode(true)
    .withTags(["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"])
    .analyze();
  return violations.flatMap(({ id, help, nodes }) =>
    nodes.map(({ target, failureSummary }) => `${id}: ${help}: ${target.join(" ")}: ${failureSummary ?? ""}`),
  );
}
