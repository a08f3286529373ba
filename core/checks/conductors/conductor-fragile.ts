import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { SquareMetre } from "../../quantity/kinds.ts";
import {
  LEAST_AREA_ALONE,
  LEAST_AREA_IN_SHEATH,
  SHORT_ALONE,
  SMALL_CONDUCTOR_SOURCE,
} from "../../standards/small-conductors.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { coverOf, wireLength } from "../../studies/words/run-length.ts";
import { carriesLoad, sizeOf, thickerWire } from "../remedies/thicker-wire.ts";

/** A size written in round figures may lie this much below the limit. */
const ROUNDING = 1e-6;

export const conductorFragile = defineCheck({
  id: "conductor-fragile",
  group: "conductors",
  title: "Wire too thin to last in a vehicle",
  about:
    "Compares the size of every wire with the least that stands shaking and pulling: 1 mm2 by itself (0.2 m of it may be thinner), 0.75 mm2 as a core in a sheath, a conduit or inside one box. Whether a conductor is stranded, as it has to be in a vehicle, no drawing states.",
  severities: ["CAUTION"],
  source: SMALL_CONDUCTOR_SOURCE,
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    thin: {
      title: "{wire} has a conductor of {area}; at least {limit} is needed where it lies.",
      why: "So thin a conductor breaks at its lug or under a cable tie after some months of shaking, and the fault then comes and goes.",
      mend: "Use at least {limit} there, or lead it as a core of a sheathed cable with cores of {core} or more.",
    },
  },
  reasons: {
    size: "The size of {wire} is not stated.",
    length: "How long {wire} is, which decides how thin it may be by itself, is not stated.",
    sheath: "Whether {wire} lies in a sheath throughout, and so may be thinner, is not stated.",
  },
  run(analysis, report) {
    for (const conductor of analysis.network.conductors) look(analysis, conductor, report);
  },
});

function look(analysis: Analysis, conductor: Conductor, report: Report): void {
  const { wire } = conductor;
  const place = { wire: wire.id };
  const size = sizeOf(wire);
  const open = (reason: string, ...fields: readonly string[]): void => {
    const missing = fields.map((field): MissingField => ({ wire: wire.id, field }));
    report.notChecked({ where: [place], reason, facts: { wire: { place } }, missing });
  };
  if (size === undefined) {
    open("size", "size");
    return;
  }
  const holds = (area: SquareMetre, limit: SquareMetre): boolean => area >= limit * (1 - ROUNDING);
  const cover = coverOf(analysis, conductor);
  const covered = cover === "sheath" || cover === "enclosure";
  const limit = covered ? LEAST_AREA_IN_SHEATH : LEAST_AREA_ALONE;
  if (holds(size.area, limit)) {
    report.passes(place);
    return;
  }
  if (!covered) {
    const length = wireLength(conductor);
    if (length !== undefined && length <= SHORT_ALONE && (cover === "none" || holds(size.area, LEAST_AREA_IN_SHEATH))) {
      report.doesNotApply(place);
      return;
    }
    if (cover === "unstated" && (holds(size.area, LEAST_AREA_IN_SHEATH) || (length ?? 0) <= SHORT_ALONE)) {
      open("sheath", "sheath", ...(length === undefined ? ["length"] : []));
      return;
    }
    if (length === undefined) {
      open("length", "length");
      return;
    }
  }
  report.fails({
    message: "thin",
    facts: {
      wire: { place },
      area: { value: size.area, dimension: "size" },
      limit: { value: limit, dimension: "size" },
      core: { value: LEAST_AREA_IN_SHEATH, dimension: "size" },
    },
    severity: "CAUTION",
    where: [place],
    value: size.area,
    limit,
    unit: "m2",
    remedies: thickerWire(wire, (thicker) => holds(thicker.area, limit) && carriesLoad(analysis, conductor, thicker)),
  });
}
