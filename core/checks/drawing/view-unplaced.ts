/** Views of parts that stand on no sheet, all of one part in one finding. */
import type { Network, NetworkPart } from "../../network/network.ts";
import type { View } from "../../parts/define.ts";
import { defineCheck } from "../define.ts";
import { placeViews } from "../remedies/place-views.ts";
import { partPlace } from "../words/places.ts";

export const viewUnplaced = defineCheck({
  id: "view-unplaced",
  group: "drawing",
  title: "Part on no sheet",
  about:
    "Looks whether every view of every part stands on a sheet. The part counts in all other checks wherever it stands. A view none of whose terminals carries a wire, such as an auxiliary contact that is not used, may stay off the sheets as long as the part itself is on one.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "Where a view stands is always in the document." },
  messages: {
    part: {
      title: "{part} is on no sheet.",
      why: "Who reads the drawing or wires the vehicle from it does not know that {part} is there, nor what leads to it.",
      mend: "Take {part} from the list of what is on no sheet and place it, or delete it if it is not built in.",
    },
    view: {
      title: "Part of {part} is on no sheet: {views}.",
      why: "The wires that lead there end nowhere on paper, so that nobody can follow them.",
      mend: "Take the rest of {part} from the list of what is on no sheet and place it.",
    },
  },
  reasons: {},
  run({ network }, report) {
    if (network.parts.length === 0) report.doesNotApply();
    for (const part of network.parts) {
      const place = partPlace(part);
      const views = part.kind.views(part.values);
      const placed = new Set(part.part.views.map(({ view }) => view));
      const off = views.filter(({ id }) => !placed.has(id));
      const lacking = off.length === views.length ? off : off.filter((view) => isWired(network, part, view));
      if (lacking.length === 0) {
        report.passes(place);
        continue;
      }
      report.fails({
        message: off.length === views.length ? "part" : "view",
        facts: { part: { place }, views: { states: lacking.map(({ title }) => title.toLowerCase()) } },
        severity: "NOTICE",
        where: [place],
        remedies: placeViews(
          network,
          part,
          lacking.map(({ id }) => id),
        ),
      });
    }
  },
});

function isWired(network: Network, part: NetworkPart, { pins }: View): boolean {
  return pins.some(({ terminal }) => network.wiresAt([part.part.id, terminal]).length > 0);
}
