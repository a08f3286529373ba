import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { ISOLATION_SOURCE } from "../../standards/isolation.ts";
import { defineCheck } from "../define.ts";
import { takeOffJoin } from "../remedies/take-off-join.ts";
import type { Report } from "../define.ts";
import { placeId } from "../finding.ts";
import { joinFailure, tellBarriers } from "../words/join-verdicts.ts";
import { isGraver } from "../words/joins.ts";
import type { Join } from "../words/joins.ts";
import { chassisJoin } from "../words/traction-joins.ts";
import { tractionPacks } from "../../studies/words/live.ts";

function run(analysis: Analysis, report: Report): void {
  // A join in the middle makes two packs of one string: still one join.
  const joins = new Map<string, { readonly pack: Pack; readonly join: Join }>();
  for (const pack of tractionPacks(analysis)) {
    const join = chassisJoin(analysis, pack);
    if (join !== undefined) {
      const known = joins.get(placeId(join.place));
      if (known === undefined || isGraver({ pack, join }, known)) joins.set(placeId(join.place), { pack, join });
      continue;
    }
    tellBarriers(analysis, pack, "chassis", report);
  }
  for (const { pack, join } of joins.values())
    report.fails(joinFailure(analysis, pack, join, () => takeOffJoin(analysis, join)));
}

export const tractionOnChassis = defineCheck({
  id: "traction-on-chassis",
  group: "shock",
  title: "Traction circuit joined to the chassis",
  about:
    "Looks in every operating state for a way from the traction pack to the vehicle's metal through less than 100 ohm per volt, through wires, contacts and parts alike. " +
    "Stated leaks and isolation monitors do not count here but in isolation-low. It cannot see a chafed wire that is not drawn.",
  severities: ["DANGER", "NOTICE"],
  source: ISOLATION_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    joined: {
      title:
        "At {place} the traction circuit is joined to the chassis, by way of {way}: {ohms}, where at least {limit} must part them.",
      why: "The pack, up to {volts}, then needs only one more touch, tool or worn cable between its other side and the vehicle's metal for a shock or an arc that no fuse may clear.",
      mend: "Part the two at {place}, so that no part of the pack touches the chassis: take that connection off, or fit an isolated part where traction and 12 V meet.",
    },
    declared: {
      title: "The chassis is the pack's minus, as declared for this vehicle: joined at {place} through {ohms}.",
      why: "At up to {volts} this is accepted for a low-voltage vehicle, but every slip between the plus side and the vehicle's metal is a short circuit.",
      mend: "Keep the plus side covered and fused right at the pack; nothing else has to be done while this is what you intend.",
    },
  },
  reasons: {
    barrier:
      "Nobody stated whether {part} isolates its two sides, so that the pack may be joined to the chassis in it.",
  },
  foldsUnder: ["isolated-returns-joined", "traction-on-auxiliary", "serial-port-live", "logic-overvoltage"],
  run,
});
