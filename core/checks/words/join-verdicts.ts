/** What is told of a traction pack that is joined to the chassis or to the 12 V side, or where nobody knows. */
import type { Analysis, Pack } from "../../circuit/analysis.ts";
import { ISOLATION_DC } from "../../standards/isolation.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import type { Facts, Failure, Remedy, Report } from "../define.ts";
import { unknownBarriers } from "./barriers.ts";
import type { Join } from "./joins.ts";
import { partPlace } from "./places.ts";

/** A join at the minus of a pack of at most 60 V that the drawing declares to be meant: a notice, else a danger. */
export function joinFailure(
  analysis: Analysis,
  pack: Pack,
  join: Join,
  remedies: () => readonly Remedy[],
  more: Facts = {},
): Failure {
  const declared = analysis.network.project.sharedNegative === true && pack.highest <= CLASS_B_DC && join.atNegative;
  return {
    message: declared ? "declared" : "joined",
    severity: declared ? "NOTICE" : "DANGER",
    facts: {
      place: { place: join.place },
      way: { places: join.places },
      ohms: { value: join.ohms, dimension: "resistance" },
      limit: { value: ISOLATION_DC * pack.rest, dimension: "resistance" },
      volts: { value: pack.highest, dimension: "voltage" },
      ...more,
    },
    where: [join.place],
    states: join.states,
    value: join.ohms,
    limit: ISOLATION_DC * pack.rest,
    unit: "ohm",
    touches: [...join.places, ...pack.blocks.map(partPlace)],
    remedies: declared ? [] : remedies(),
  };
}

/** A pack that is joined nowhere: not checked at each part of which nobody said whether it isolates, else passed. */
export function tellBarriers(analysis: Analysis, pack: Pack, side: "chassis" | "auxiliary", report: Report): void {
  const unknown = unknownBarriers(analysis, pack).filter(({ beyond }) => beyond[side]);
  for (const { part, missing } of unknown) {
    const place = partPlace(part);
    report.notChecked({ where: [place], reason: "barrier", facts: { part: { place } }, missing: [missing] });
  }
  const [first] = pack.blocks;
  if (unknown.length === 0 && first !== undefined) report.passes(partPlace(first));
}
