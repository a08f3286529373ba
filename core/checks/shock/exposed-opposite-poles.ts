import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import { PRACTICE_SOURCE, SPANNER_LENGTH, SPANNER_VOLTAGE } from "../../standards/working-distances.ts";
import { spannerBridges, spannerSpots } from "../../studies/reach.ts";
import type { SpannerBridge } from "../../studies/reach.ts";
import { missingCover, panels } from "../../studies/words/panel.ts";
import type { Spot } from "../../studies/words/panel.ts";
import { defineCheck } from "../define.ts";
import { fitBoots, oneOfEach } from "../remedies/cover-terminals.ts";
import type { MissingField, Report } from "../define.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const keyOf = ({ a, b }: SpannerBridge): string =>
  [a, b].map((spot) => `${spot.part.part.id}:${spot.terminal.id}`).join(" ");
const bareAt = ({ part, terminal }: Spot) => ({ part, terminal: terminal.id });
const placeOf = (spot: Spot) => terminalPlace(spot.part, spot.terminal.id);

function worse(a: SpannerBridge, b: SpannerBridge): SpannerBridge {
  if (Math.abs(a.volts - b.volts) > 1e-3) return a.volts > b.volts ? a : b;
  if (Math.abs(a.apart - b.apart) > 1e-6) return a.apart < b.apart ? a : b;
  return keyOf(a) < keyOf(b) ? a : b;
}

function look(analysis: Analysis, report: Report, parts: readonly NetworkPart[]): void {
  const spots = spannerSpots(analysis, parts);
  if (spots.length === 0) return;
  const all = spannerBridges(analysis, spots);
  const bare = all.filter(({ a, b }) => a.cover === "bare" && b.cover === "bare");
  const [one, ...more] = bare;
  const settled = new Set<NetworkPart>();
  if (one !== undefined) {
    const worst = more.reduce(worse, one);
    const others = [...new Set(bare.flatMap(({ a, b }) => [a, b]))].filter(
      (spot) => spot !== worst.a && spot !== worst.b,
    );
    for (const { a, b } of bare) settled.add(a.part).add(b.part);
    report.fails({
      message: more.length > 0 ? "several" : "bare",
      severity: "WARNING",
      facts: {
        a: { place: placeOf(worst.a) },
        b: { place: placeOf(worst.b) },
        apart: { value: worst.apart / 1000, dimension: "length" },
        spanner: { value: SPANNER_LENGTH, dimension: "length" },
        volts: { value: worst.volts, dimension: "voltage" },
        limit: { value: SPANNER_VOLTAGE, dimension: "voltage" },
        count: String(bare.length),
      },
      where: [placeOf(worst.a), placeOf(worst.b), ...others.map(placeOf)],
      states: worst.states,
      value: worst.volts,
      limit: SPANNER_VOLTAGE,
      unit: "V",
      remedies: fitBoots(oneOfEach(bare.map(({ a, b }) => [bareAt(a), bareAt(b)]))),
    });
  }
  const open = new Map<NetworkPart, MissingField[]>();
  for (const spot of all.filter((reach) => !bare.includes(reach)).flatMap(({ a, b }) => [a, b])) {
    if (spot.cover !== "unstated") continue;
    const fields = open.get(spot.part) ?? [];
    const field = missingCover(analysis.network.project, spot.part, spot.terminal.id);
    if (!fields.some((known) => JSON.stringify(known) === JSON.stringify(field))) fields.push(field);
    open.set(spot.part, fields);
  }
  for (const [part, missing] of open) {
    settled.add(part);
    report.notChecked({
      where: [partPlace(part)],
      reason: "cover",
      facts: { part: { place: partPlace(part) } },
      missing,
    });
  }
  for (const part of new Set(spots.map((spot) => spot.part))) if (!settled.has(part)) report.passes(partPlace(part));
}

function run(analysis: Analysis, report: Report): void {
  for (const parts of panels(analysis.network.parts)) look(analysis, report, parts);
}

export const exposedOppositePoles = defineCheck({
  id: "exposed-opposite-poles",
  group: "shock",
  title: "A spanner can bridge two bare terminals",
  about:
    "Looks for two bare terminals of the traction circuit that a dropped or slipped spanner of 200 mm bridges, with more than 30 V between them in some state, the pack at its highest. " +
    "It measures on the face of each part and, where both places are stated, between parts on one panel.",
  severities: ["WARNING"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    bare: {
      title:
        "Up to {volts} stand between the bare terminals {a} and {b}, {apart} apart, where a spanner of {spanner} bridges more than {limit}.",
      why: "A spanner that slips across them welds itself fast, sprays molten metal and can burst a battery, and nothing may clear the current.",
      mend: "Cover one of the two with a boot or a fixed cover, or change the order of the blocks so that terminals of high difference lie apart; work with insulated tools.",
    },
    several: {
      title:
        "Up to {volts} stand between the bare terminals {a} and {b}, {apart} apart, where a spanner of {spanner} bridges more than {limit}; here {count} pairs of terminals stand so.",
      why: "A spanner that slips across them welds itself fast, sprays molten metal and can burst a battery, and nothing may clear the current.",
      mend: "Cover one terminal of each pair with a boot or a fixed cover, or change the order of the blocks so that terminals of high difference lie apart; work with insulated tools.",
    },
  },
  reasons: {
    cover: "Nobody stated whether the terminals of {part} are bare or covered.",
  },
  run,
});
