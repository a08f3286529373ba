import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import { ISOLATION_DC, ISOLATION_SOURCE } from "../../standards/isolation.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import { takeOffJoin } from "../remedies/take-off-join.ts";
import type { Report } from "../define.ts";
import { placeId } from "../finding.ts";
import { unknownBarriers } from "../words/barriers.ts";
import { belongingAt } from "../../studies/words/belongs.ts";
import { isGraver, joinOf } from "../words/joins.ts";
import type { Join } from "../words/joins.ts";
import { tractionPacks } from "../../studies/words/live.ts";
import { partPlace } from "../words/places.ts";

const CHASSIS = new Set([CHASSIS_NODE]);

function fail(analysis: Analysis, report: Report, pack: Pack, join: Join): void {
  const declared = analysis.network.project.sharedNegative === true && pack.highest <= CLASS_B_DC && join.atNegative;
  report.fails({
    message: declared ? "declared" : "joined",
    severity: declared ? "NOTICE" : "DANGER",
    facts: {
      place: { place: join.place },
      way: { places: join.places },
      ohms: { value: join.ohms, dimension: "resistance" },
      limit: { value: ISOLATION_DC * pack.rest, dimension: "resistance" },
      volts: { value: pack.highest, dimension: "voltage" },
    },
    where: [join.place],
    states: join.states,
    value: join.ohms,
    limit: ISOLATION_DC * pack.rest,
    unit: "ohm",
    touches: [...join.places, ...pack.blocks.map(partPlace)],
    remedies: declared ? [] : takeOffJoin(analysis, join),
  });
}

function run(analysis: Analysis, report: Report): void {
  // A join in the middle makes two packs of one string: still one join.
  const joins = new Map<string, { readonly pack: Pack; readonly join: Join }>();
  for (const pack of tractionPacks(analysis)) {
    const first = pack.blocks[0];
    if (first === undefined) continue;
    const joined = belongingAt(analysis, CHASSIS_NODE).traction.includes(pack);
    const join = joined ? joinOf(analysis, pack, CHASSIS) : undefined;
    if (join !== undefined) {
      const known = joins.get(placeId(join.place));
      if (known === undefined || isGraver({ pack, join }, known)) joins.set(placeId(join.place), { pack, join });
      continue;
    }
    const unknown = unknownBarriers(analysis, pack).filter(({ beyond }) => beyond.chassis);
    for (const { part, missing } of unknown) {
      report.notChecked({
        where: [partPlace(part)],
        reason: "barrier",
        facts: { part: { place: partPlace(part) } },
        missing: [missing],
      });
    }
    if (unknown.length === 0) report.passes(partPlace(first));
  }
  for (const { pack, join } of joins.values()) fail(analysis, report, pack, join);
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
        "At {place} the traction circuit is joined to the chassis: {ohms} by way of {way}, where at least {limit} must part them.",
      why: "The pack, up to {volts}, then needs only one more touch, tool or worn cable between its other side and the vehicle's metal for a shock or an arc that no fuse may clear.",
      mend: "Take that connection away, so that no part of the pack touches the chassis, and use isolated parts where traction and 12 V meet.",
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
