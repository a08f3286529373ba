import type { Analysis } from "../../circuit/analysis.ts";
import { devices } from "../../studies/words/devices.ts";
import type { Device } from "../../studies/words/devices.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { branchLoad } from "../../studies/words/branch-load.ts";
import { allowedBehind, smallerDevice } from "../remedies/device-choice.ts";
import { partPlace } from "../words/places.ts";

export const holderUnderrated = defineCheck({
  id: "holder-underrated",
  group: "overcurrent",
  title: "Fuse holder too weak for its fuse",
  about:
    "Compares what a fuse holder is made for with the rating of the fuse in it and with the steady current through it. Loose or corroded contacts in a holder it cannot see.",
  severities: ["WARNING"],
  source: { text: "The holder's own rating, by the meaning of the word", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    rating: {
      title: "The fuse of {device} is rated {rating}; its holder is made for {holder}.",
      why: "A holder that carries more than it is made for gets so hot that its plastic softens, and it burns long before the fuse opens.",
      mend: "Fit a holder for at least {rating}, or a fuse of at most {holder} if the load allows it.",
    },
    current: {
      title: "{device} carries {current} in {states}; its holder is made for {holder}.",
      why: "A holder that carries more than it is made for gets so hot that its plastic softens and burns.",
      mend: "Fit a holder for more than {current}, or divide the load.",
    },
  },
  reasons: {
    holder: "What the holder of {device} is made for is not stated.",
    rating: "The rating of {device} is not stated, so that its holder cannot be judged.",
  },
  foldsUnder: ["source-shorted", "strings-unequal", "block-reversed", "supply-reversed", "load-bypassed"],
  run(analysis, report) {
    for (const device of devices(analysis).values()) {
      if ("holderRating" in device.part.kind.parameters) look(analysis, device, report);
    }
  },
});

function look(analysis: Analysis, device: Device, report: Report): void {
  const { part, rating, ratingField } = device;
  const place = partPlace(part);
  const facts = { device: { place } } as const;
  const open = (reason: string, ...missing: readonly MissingField[]): void =>
    report.notChecked({ where: [place], reason, facts, missing });
  const holder = part.values.number("holderRating");
  if (holder === undefined) {
    open("holder", { part: part.part.id, parameter: "holderRating" });
    return;
  }
  const common = { severity: "WARNING", where: [place], limit: holder, unit: "A" } as const;
  const limit = { value: holder, dimension: "current" } as const;
  if (rating !== undefined && rating > holder) {
    report.fails({
      ...common,
      message: "rating",
      facts: { ...facts, rating: { value: rating, dimension: "current" }, holder: limit },
      value: rating,
      remedies: smallerDevice(analysis, device, (each) => each <= Math.min(holder, allowedBehind(analysis, device))),
    });
    return;
  }
  const load = branchLoad(analysis, device.branch);
  if (load.low > holder) {
    report.fails({
      ...common,
      message: "current",
      facts: {
        ...facts,
        current: { value: load.low, dimension: "current" },
        holder: limit,
        states: { states: load.states },
      },
      states: load.states,
      value: load.low,
    });
  } else if (rating === undefined) open("rating", ratingField);
  // A fuse that fits its holder keeps the current within what both carry.
  else report.passes(place);
}
