import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setEnclosure } from "../../project/commands/set-enclosure.ts";
import { compareNatural } from "../../project/designation.ts";
import type { Enclosure } from "../../project/document.ts";
import { MARK_SOURCE } from "../../standards/contact-protection.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { workingOfPart } from "../words/class-b.ts";
import { partPlace } from "../words/places.ts";
import { throughJoin, tractionTerminals } from "../words/traction-joins.ts";

/** Parts in an enclosure on which class B stands, and those of which it cannot be told. */
function liveParts(analysis: Analysis, enclosure: Enclosure): readonly (readonly [NetworkPart, "B" | "unstated"])[] {
  return analysis.network.parts
    .filter(({ part }) => part.enclosure === enclosure.id)
    .sort((a, b) => compareNatural(a.part.id, b.part.id))
    .flatMap((part): (readonly [NetworkPart, "B" | "unstated"])[] => {
      const { voltageClass } = workingOfPart(analysis, part);
      return voltageClass === "B" || voltageClass === "unstated" ? [[part, voltageClass]] : [];
    });
}

function look(analysis: Analysis, report: Report, enclosure: Enclosure): void {
  const live = liveParts(analysis, enclosure);
  const [first] = live;
  if (first === undefined) return;
  const place = partPlace(first[0]);
  // What only somebody under the vehicle could open needs no sign (UN R100, 5.1.1.5.2).
  const isUnderneath = analysis.network.project.zones.find(({ id }) => id === enclosure.zone)?.kind === "underfloor";
  if (enclosure.voltageSign === true) {
    if (live.some(([, voltageClass]) => voltageClass === "B")) report.passes(...live.map(([part]) => partPlace(part)));
    else report.doesNotApply(place);
    return;
  }
  if (isUnderneath) {
    report.doesNotApply(place);
    return;
  }
  const facts = {
    enclosure: enclosure.name,
    parts: { places: live.map(([part]) => partPlace(part)) },
    limit: { value: CLASS_B_DC, dimension: "voltage" },
  } as const;
  if (enclosure.voltageSign !== false) {
    const missing = [{ enclosure: enclosure.id, field: "voltageSign" }];
    report.notChecked({ where: [place], reason: "sign", facts, missing });
    return;
  }
  if (!live.some(([, voltageClass]) => voltageClass === "B")) {
    const { missing } = workingOfPart(analysis, first[0]);
    report.notChecked({ where: [place], reason: "voltage", facts, missing });
    return;
  }
  const nodes = live.flatMap(([part]) => [...part.nodes.values()]);
  report.fails({
    ...throughJoin(analysis, tractionTerminals(analysis), nodes),
    message: "missing",
    severity: "NOTICE",
    facts,
    where: live.map(([part]) => partPlace(part)),
    variant: enclosure.id,
    remedies: [
      {
        id: "add-sign",
        label: "Put the voltage sign on it",
        apply: (project) =>
          execute(project, setEnclosure, { enclosure: enclosure.id, fields: { voltageSign: true } }, KINDS).project,
      },
    ],
  });
}

export const warningMarkMissing = defineCheck({
  id: "warning-mark-missing",
  group: "shock",
  title: "Enclosure without the voltage sign",
  about:
    "Looks at every enclosure that holds a part on which a traction pack of more than 60 V stands in some operating state: it carries the yellow triangle with the black flash. " +
    "Enclosures under the floor are exempt. Batteries outside any enclosure are not looked at.",
  severities: ["NOTICE"],
  source: MARK_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    missing: {
      title: "The enclosure {enclosure} holds parts above {limit} ({parts}) and carries no voltage sign.",
      why: "Whoever opens it, a helper or a rescuer, does not see that what lies inside can kill.",
      mend: "Put the yellow triangle with the black flash on the enclosure and on every cover that uncovers live parts.",
    },
  },
  reasons: {
    sign: "The enclosure {enclosure} holds parts above {limit}; whether it carries the voltage sign is not stated.",
    voltage:
      "The enclosure {enclosure} carries no voltage sign; whether it needs one cannot be told while the chemistry of the battery is not stated.",
  },
  run(analysis, report) {
    for (const enclosure of analysis.network.project.enclosures) look(analysis, report, enclosure);
  },
});
