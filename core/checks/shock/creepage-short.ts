import type { Analysis } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Metre, Volt } from "../../quantity/kinds.ts";
import { clearance, ratedImpulse } from "../../standards/clearance.ts";
import { creepage, CREEPAGE_SOURCE } from "../../standards/creepage.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { distance, spotsOf } from "../../studies/words/panel.ts";
import type { Spot } from "../../studies/words/panel.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { workingAt } from "../words/class-b.ts";
import { partPlace, terminalPlace } from "../words/places.ts";
import { voltageRange } from "../words/voltage-range.ts";
import type { VoltageRange } from "../words/voltage-range.ts";

/** Vehicles are dirty and damp: conductive dirt, material of unknown tracking (the longest column). */
const POLLUTION = 3;
/** A pack that is charged from the mains (overvoltage category II, practice). */
const CATEGORY = 2;

/** Least distance along a surface; never less than through air (IEC 60664-1). Undefined above 1000 V. */
function leastDistance(volts: Volt): Metre | undefined {
  const along = creepage(volts, POLLUTION);
  if (along === undefined) return undefined;
  const impulse = ratedImpulse(volts, CATEGORY);
  const through = impulse === undefined ? undefined : clearance(impulse, POLLUTION)?.length;
  return Math.max(along, through ?? 0);
}

interface Pair extends VoltageRange {
  readonly a: Spot;
  readonly b: Spot;
  readonly apart: Metre;
}

const known = new WeakMap<Analysis, Map<string, VoltageRange>>();

/** The same for every pair of terminals of the same two nets. */
function betweenNets(analysis: Analysis, a: NodeIndex, b: NodeIndex): VoltageRange {
  let ranges = known.get(analysis);
  if (ranges === undefined) known.set(analysis, (ranges = new Map<string, VoltageRange>()));
  const key = [a, b]
    .map((node) => analysis.network.netOfNode[node] ?? -1)
    .sort((one, other) => one - other)
    .join(" ");
  let range = ranges.get(key);
  if (range === undefined) ranges.set(key, (range = voltageRange(analysis, a, b)));
  return range;
}

/** Beyond this the table asks for nothing. */
const NEAR: Metre = 0.02;

/** Pairs of class B terminals of one part that are different nets, but not two pins of a plug; near ones, or the first. */
function pairsOf(analysis: Analysis, part: NetworkPart): readonly Pair[] {
  const { netOfNode, project } = analysis.network;
  const isLive = (node: NodeIndex): boolean => ["B", "unstated"].includes(workingAt(analysis, node).voltageClass);
  const spots = spotsOf(project, part).flatMap((spot) => {
    const node = part.nodes.get(spot.terminal.id);
    return node !== undefined && isLive(node) ? [{ spot, node }] : [];
  });
  const pairs: Pair[] = [];
  spots.forEach(({ spot: a, node: one }, index) => {
    for (const { spot: b, node: other } of spots.slice(index + 1)) {
      if (a.terminal.form === "pin" && b.terminal.form === "pin") continue;
      const apart = distance(a, b) / 1000;
      if (netOfNode[one] === netOfNode[other] || (apart > NEAR && pairs.length > 0)) continue;
      const range = betweenNets(analysis, one, other);
      if (range.most > CLASS_B_DC) pairs.push({ ...range, a, b, apart });
    }
  });
  return pairs;
}

function lookAtPart(analysis: Analysis, report: Report, part: NetworkPart): void {
  const place = partPlace(part);
  const pairs = pairsOf(analysis, part);
  if (pairs.length === 0) {
    report.doesNotApply(place);
    return;
  }
  if (part.part.face === undefined) {
    const missing = [{ part: part.part.id, parameter: "face" }];
    report.notChecked({ where: [place], reason: "face", facts: { part: { place } }, missing });
    return;
  }
  const short = pairs.flatMap((pair) => {
    const limit = leastDistance(pair.most);
    return limit !== undefined && pair.apart < limit - 1e-9 ? [{ pair, limit }] : [];
  });
  if (short.length === 0) {
    if (pairs.some(({ least }) => least > CLASS_B_DC)) report.passes(place);
    else report.doesNotApply(place);
  }
  for (const { pair, limit } of short) {
    const [a, b] = [pair.a, pair.b].map((spot) => terminalPlace(part, spot.terminal.id));
    if (a === undefined || b === undefined) continue;
    const sure = leastDistance(pair.least);
    if (pair.least <= CLASS_B_DC || sure === undefined || pair.apart >= sure - 1e-9) {
      report.notChecked({
        where: [a],
        reason: "voltage",
        facts: { a: { place: a }, b: { place: b } },
        missing: pair.missing,
      });
      continue;
    }
    report.fails({
      message: "short",
      severity: "WARNING",
      facts: {
        a: { place: a },
        b: { place: b },
        apart: { value: pair.apart, dimension: "length" },
        volts: { value: pair.volts, dimension: "voltage" },
        limit: { value: limit, dimension: "length" },
      },
      where: [a, b],
      states: pair.states,
      value: pair.apart,
      limit,
      unit: "m",
    });
  }
}

export const creepageShort = defineCheck({
  id: "creepage-short",
  group: "shock",
  title: "Live terminals too close on one part",
  about:
    "Measures on the stated face of a part from centre to centre between terminals with more than 60 V between them, and holds it against the distance along a dirty, damp surface (pollution degree 3). " +
    "The bare way along the surface is shorter than from centre to centre, so that a pass does not replace a look at the part; pins of one plug and faces that nobody stated are left out.",
  severities: ["WARNING"],
  source: CREEPAGE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    short: {
      title:
        "{a} and {b} are {apart} apart, with up to {volts} between them; on a dirty, damp surface they need {limit}.",
      why: "Dirt and damp lay a conducting track between the two, which chars, grows and in the end carries an arc that the pack feeds.",
      mend: "Set the two further apart, put an insulating rib between them, or use a part that is made for this voltage.",
    },
  },
  reasons: {
    face: "More than 60 V stand between terminals of {part}; how far they are apart nobody stated.",
    voltage:
      "{a} and {b} are close together; the voltage between them is not known while the battery's chemistry is not stated.",
  },
  run(analysis, report) {
    for (const part of analysis.network.parts) lookAtPart(analysis, report, part);
  },
});
