import { tractionPacks } from "../../studies/words/live.ts";
import { defineCheck } from "../define.ts";
import { contactForVolts } from "../remedies/exchange-contact.ts";
import { chemistryRange } from "../words/chemistry-range.ts";
import { packLoops } from "../words/pack-loops.ts";
import { partPlace } from "../words/places.ts";

export const prechargeContactLow = defineCheck({
  id: "precharge-contact-low",
  group: "precharge",
  title: "Pre-charge contact not made for the pack",
  about:
    "Holds the DC voltage rating of every contact that lies in series with a pre-charge resistor against the pack's highest voltage. It breaks no more current than the resistor lets through, so that this is a notice; contacts that break the pack itself belong to another check.",
  severities: ["NOTICE"],
  source: { text: "Rating of the contact against the voltage it holds back; common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    low: {
      title: "{part}, in series with the pre-charge resistor, is rated for {rating}; the pack reaches {volts}.",
      why: "If the capacitors never fill, because something draws or is shorted, the contact has to break what the resistor lets through at the full voltage, and may burn or stay closed.",
      mend: "Replace {part} by a relay whose contacts are rated for at least {volts} DC.",
    },
  },
  reasons: {
    unrated:
      "Whether {part}, in series with the pre-charge resistor, is made for the pack cannot be told, as its voltage rating is not stated.",
    chemistry:
      "Whether {part}, in series with the pre-charge resistor, is made for the pack depends on the chemistry of the pack, which is not stated.",
  },
  run(analysis, report) {
    const packs = tractionPacks(analysis).map((pack) => {
      const direct = packLoops(analysis, pack, false);
      const loops = packLoops(analysis, pack, true);
      return { range: chemistryRange([pack]), own: new Set([...loops].filter((index) => !direct.has(index))) };
    });
    const [any] = analysis.states;
    let applies = false;
    for (const part of analysis.network.parts) {
      const specs = part.kind.contacts?.(part.values) ?? [];
      if (specs.length === 0) continue;
      const branches = analysis.network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount);
      const found = specs.flatMap((spec) => {
        const branch = branches.find(({ name }) => name === spec.element);
        if (branch === undefined || any?.elements[branch.index]?.type !== "contact") return [];
        const ranges = packs.filter(({ own }) => own.has(branch.index)).map(({ range }) => range);
        return ranges.length === 0 ? [] : [{ spec, ranges }];
      });
      const [first] = found;
      if (first === undefined) continue;
      applies = true;
      const place = partPlace(part);
      const { voltage: rating, voltageParameter } = first.spec;
      const ranges = found.flatMap((each) => each.ranges);
      const least = Math.max(...ranges.map((range) => range.least));
      const most = Math.max(...ranges.map((range) => range.most));
      const facts = { part: { place }, volts: { value: most, dimension: "voltage" } } as const;
      if (rating === undefined)
        report.notChecked({
          where: [place],
          reason: "unrated",
          facts,
          missing: [{ part: part.part.id, parameter: voltageParameter }],
        });
      else if (rating >= most) report.passes(place);
      else if (rating >= least)
        report.notChecked({
          where: [place],
          reason: "chemistry",
          facts,
          missing: ranges.flatMap(({ missing }) => missing),
        });
      else {
        report.fails({
          message: "low",
          facts: { ...facts, rating: { value: rating, dimension: "voltage" } },
          severity: "NOTICE",
          where: [place],
          value: most,
          limit: rating,
          unit: "V",
          remedies: [contactForVolts(part, voltageParameter, most)],
        });
      }
    }
    if (!applies) report.doesNotApply();
  },
});
