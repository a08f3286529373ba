/** The name of a circuit's voltage ("48 V"): what 33 CFR 183.455(c) means by circuits below and above 50 V. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { CHEMISTRIES, packNominal, restEmf } from "../../standards/cells.ts";
import type { Feed } from "./feeds.ts";

/** Nominal voltage of a pack from its rest voltage, by chemistry; rest voltage itself where the chemistry is mixed or unstated. */
export function nominalVoltage(analysis: Analysis, feed: Feed): Volt {
  const { pack } = feed;
  if (pack !== undefined) {
    const chemistry = CHEMISTRIES.find((each) => each === pack.chemistry);
    return chemistry === undefined ? pack.rest : (pack.rest * packNominal(chemistry, 1)) / restEmf(chemistry, 1, 1);
  }
  const index = feed.sources[0]?.index;
  return analysis.states.reduce((most, { elements }) => {
    const element = index === undefined ? undefined : elements[index];
    return element?.type === "limited-source" ? Math.max(most, element.emf) : most;
  }, 0);
}
