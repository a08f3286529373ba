/** Ratings that nobody has confirmed: the usual figure of the kind stands in for that of the real part. */
import type { NetworkPart } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
import { defineCheck } from "../define.ts";
import { partPlace } from "../words/places.ts";

/** Parameters by which a part is judged: those marked so, its limits, its contacts' ratings. */
function ratings({ kind, values }: NetworkPart): readonly string[] {
  const marked = Object.entries(kind.parameters).flatMap(([name, { rating }]) => (rating === true ? [name] : []));
  const limits = kind.limits(values).map(({ parameter }) => parameter);
  const contacts = (kind.contacts?.(values) ?? []).flatMap((contact) => [
    contact.voltageParameter,
    contact.continuousParameter,
  ]);
  return [...new Set([...marked, ...limits, ...contacts])];
}

interface Assumed {
  readonly parts: NetworkPart[];
  readonly figures: readonly string[];
}

export const limitsUnstated = defineCheck({
  id: "limits-unstated",
  group: "drawing",
  title: "Ratings not confirmed",
  about:
    "Lists the ratings that a part has only because its kind usually has them: cells of a battery, pick-up of a coil, voltage of a converter, resistance of a throttle. Parts that lack the same ratings are listed together. A rating that has no usual figure is not assumed at all; what then could not be checked is listed as missing data.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "Whether a rating was stated is always in the document." },
  messages: {
    assumed: {
      title: "Taken as usual and confirmed by nobody: {figures}, at {parts}.",
      why: "Every check of these parts rests on a guess; a part that differs passes here and fails in the vehicle.",
      mend: "Look at the plate or the data sheet of {parts}, and state the figures, also where the usual one is right.",
    },
  },
  reasons: {},
  run({ network }, report) {
    const groups = new Map<string, Assumed>();
    const parts = [...network.parts].sort((a, b) => compareNatural(a.part.id, b.part.id));
    for (const part of parts) {
      const names = ratings(part);
      const assumed = names.filter((name) => part.values.stated(name) === "default");
      if (assumed.length === 0) {
        if (names.some((name) => part.values.stated(name) === "confirmed")) report.passes(partPlace(part));
        else report.doesNotApply(partPlace(part));
        continue;
      }
      const figures = assumed.map(
        (name) => `${part.kind.parameters[name]?.title ?? name} ${part.values.text(name) ?? ""}`,
      );
      const key = figures.join(", ");
      const group = groups.get(key);
      if (group === undefined) groups.set(key, { parts: [part], figures });
      else group.parts.push(part);
    }
    for (const { parts: group, figures } of groups.values()) {
      const places = group.map(partPlace);
      report.fails({
        message: "assumed",
        facts: { figures: figures.join(", "), parts: { places } },
        severity: "NOTICE",
        where: places,
      });
    }
  },
});
