import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import { ISOLATION_SOURCE } from "../../standards/isolation.ts";
import { defineCheck } from "../define.ts";
import { takeOffJoin } from "../remedies/take-off-join.ts";
import type { Place, Report } from "../define.ts";
import { placeId } from "../finding.ts";
import { belongingAt } from "../../studies/words/belongs.ts";
import { joinFailure, tellBarriers } from "../words/join-verdicts.ts";
import { isGraver } from "../words/joins.ts";
import type { Join } from "../words/joins.ts";
import { auxiliaryJoin, twelveVoltSide } from "../words/traction-joins.ts";
import { tractionPacks } from "../../studies/words/live.ts";
import { partPlace } from "../words/places.ts";

function run(analysis: Analysis, report: Report): void {
  const others = twelveVoltSide(analysis);
  // Per join, not per pack: a join in the middle makes two packs of one string.
  const byPlace = new Map<string, { pack: Pack; join: Join; partners: Map<string, Place> }>();
  for (const pack of tractionPacks(analysis)) {
    const first = pack.blocks[0];
    if (first === undefined) continue;
    if (others.length === 0) {
      report.doesNotApply(partPlace(first));
      continue;
    }
    let found = false;
    for (const partner of others) {
      const join = auxiliaryJoin(analysis, pack, partner);
      const block = partner.blocks[0];
      if (join === undefined || block === undefined) continue;
      found = true;
      const known = byPlace.get(placeId(join.place)) ?? { pack, join, partners: new Map<string, Place>() };
      known.partners.set(block.part.id, partPlace(block));
      byPlace.set(placeId(join.place), isGraver({ pack, join }, known) ? { ...known, pack, join } : known);
    }
    if (found) continue;
    tellBarriers(analysis, pack, "auxiliary", report);
  }
  for (const { pack, join, partners: joinedTo } of byPlace.values()) {
    fail(analysis, report, pack, join, [...joinedTo.values()]);
  }
}

function fail(analysis: Analysis, report: Report, pack: Pack, join: Join, others: readonly Place[]): void {
  // A wire that bolts the pack to the chassis is traction-on-chassis's; that the 12 V side hangs there too follows.
  const byChassis = join.ontoChassis && belongingAt(analysis, CHASSIS_NODE).traction.includes(pack);
  if (byChassis) {
    report.doesNotApply(join.place);
    return;
  }
  const remedies = () => takeOffJoin(analysis, join);
  report.fails(joinFailure(analysis, pack, join, remedies, { others: { places: others } }));
}

export const tractionOnAuxiliary = defineCheck({
  id: "traction-on-auxiliary",
  group: "shock",
  title: "Traction circuit joined to the 12 V side",
  about:
    "Looks in every operating state for a way from the traction pack to a 12 V battery, or to the output of a converter that is not isolated, through less than 100 ohm per volt. " +
    "Where a wire bolts the pack to the chassis and the 12 V side hangs on the chassis too, traction-on-chassis says so instead.",
  severities: ["DANGER", "NOTICE"],
  source: ISOLATION_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    joined: {
      title:
        "At {place} the traction circuit is joined to the 12 V side of {others}, by way of {way}: {ohms}, where at least {limit} must part them.",
      why: "One slip or one chafed cable on the pack's other side then puts up to {volts} on every lamp, radio and switch of the 12 V side, and on whoever touches them.",
      mend: "Part the two at {place}: take that connection off, or fit an isolated part there.",
    },
    declared: {
      title:
        "Pack and 12 V side of {others} share their minus, as declared for this vehicle: joined at {place} through {ohms}.",
      why: "At up to {volts} this is accepted for a low-voltage vehicle, but a broken minus wire sends the pack's current through the 12 V wiring.",
      mend: "Keep the shared minus in one stout conductor; nothing else has to be done while this is what you intend.",
    },
  },
  reasons: {
    barrier:
      "Nobody stated whether {part} isolates its two sides, so that the pack may be joined to the 12 V side in it.",
  },
  foldsUnder: ["isolated-returns-joined", "serial-port-live", "logic-overvoltage"],
  run,
});
