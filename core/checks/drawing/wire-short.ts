import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { WireEnd } from "../../project/document.ts";
import type { Metre } from "../../quantity/kinds.ts";
import { BENDING_SOURCE, bendAllowance } from "../../standards/bending.ts";
import { distance, spotsOf } from "../../studies/words/panel.ts";
import type { Spot } from "../../studies/words/panel.ts";
import { defineCheck } from "../define.ts";
import { lengthen } from "../remedies/state-wire.ts";
import type { MissingField, Report } from "../define.ts";
import { endPlaces } from "../words/places.ts";
import { wireLength } from "../../studies/words/run-length.ts";

const REDRAWN = "A wire cut in two has two lengths, and the part put into it has no place on the panel.";

export const wireShort = defineCheck({
  id: "wire-short",
  group: "drawing",
  title: "Wire shorter than its way",
  about:
    "Compares the stated length of a wire with the straight distance of its two terminals, where both parts have a place on the same panel, plus what a bend at either end takes. Real ways are longer: a wire that passes may still be too short. Pins of a plug are left out.",
  severities: ["NOTICE"],
  source: BENDING_SOURCE,
  reads: "document",
  withstands: { splice: REDRAWN, busbar: REDRAWN, connector: REDRAWN, contact: REDRAWN, rename: true },
  without: {},
  messages: {
    short: {
      title: "{wire} is stated as {length} long, but from {from} to {to} it takes at least {needed}.",
      why: "A wire cut to this length does not reach, or pulls at both lugs until one of them breaks.",
      mend: "State at least {needed} plus what its way takes, or move the parts closer together.",
    },
  },
  reasons: {
    length: "How long {wire} is, whose ends are both on one panel, is not stated.",
    size: "Whether {wire} is long enough for its bends depends on its size, which is not stated.",
  },
  // A block drawn the wrong way round has its posts where the jumpers do not reach.
  foldsUnder: ["block-reversed"],
  run(analysis, report) {
    for (const conductor of analysis.network.conductors) look(analysis, conductor, report);
  },
});

function look(analysis: Analysis, conductor: Conductor, report: Report): void {
  const { wire, area } = conductor;
  const place = { wire: wire.id };
  const straight = onOnePanel(analysis, conductor);
  if (straight === undefined) {
    report.doesNotApply(place);
    return;
  }
  const length = wireLength(conductor);
  const open = (field: "length" | "size"): void => {
    const missing: readonly MissingField[] = [{ wire: wire.id, field }];
    report.notChecked({ where: [place], reason: field, facts: { wire: { place } }, missing });
  };
  const needed = straight + (area === undefined ? 0 : bendAllowance(area));
  if (length === undefined) open("length");
  else if (length < needed - 1e-9) {
    const [from, to] = wire.ends;
    report.fails({
      message: "short",
      facts: {
        wire: { place },
        length: { value: length, dimension: "length" },
        needed: { value: needed, dimension: "length" },
        from: from === null ? "" : { place: { part: from[0], terminal: from[1] } },
        to: to === null ? "" : { place: { part: to[0], terminal: to[1] } },
      },
      severity: "NOTICE",
      where: [place],
      value: length,
      limit: needed,
      unit: "m",
      touches: endPlaces(analysis.network, wire),
      remedies: [lengthen(wire, needed)],
    });
  } else if (area === undefined) open("size");
  else report.passes(place);
}

/** The straight distance of its terminals, if both parts have a place on the panel of one box (or of none). */
function onOnePanel(analysis: Analysis, { wire }: Conductor): Metre | undefined {
  const [a, b] = wire.ends.map((end) => (end === null ? undefined : spotOf(analysis, end)));
  if (a === undefined || b === undefined || a.part === b.part) return undefined;
  if (a.part.part.enclosure !== b.part.part.enclosure) return undefined;
  return distance(a, b) / 1000;
}

function spotOf(analysis: Analysis, [id, terminal]: WireEnd): Spot | undefined {
  const { project, partById } = analysis.network;
  const part = partById.get(id);
  if (part?.part.panel === undefined) return undefined;
  return spotsOf(project, part).find((spot) => spot.terminal.id === terminal);
}
