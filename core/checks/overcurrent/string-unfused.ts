import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import { PACK_ROLES } from "../../network/strings.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Ratio, Volt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { Remedy, Report } from "../define.ts";
import type { Feed } from "../../studies/words/feeds.ts";
import { faults } from "../../studies/words/faults.ts";
import { polesOn, walks } from "../../studies/words/fault-walk.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { fitFuse } from "../remedies/fit-fuse.ts";
import { partPlace } from "../words/places.ts";
import { feedWalks, polesWithRuns } from "../words/pole-runs.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";

/** From this voltage on a fuse near the middle splits what an accident can short. */
const MIDDLE_FROM: Volt = 100;
/** "Near its middle": at least this share of the string on either side (common practice, no source). */
const LEAST_SHARE: Ratio = 1 / 3;

export const stringUnfused = defineCheck({
  id: "string-unfused",
  group: "overcurrent",
  title: "String of batteries without fuse",
  about:
    "Looks at each traction string: is there a fuse or breaker between its blocks, inside the pack, or at its end on the way to the drive, and in every loop that parallel strings form with each other? Above 100 V it also wants one near the middle, with at least a third of the string on either side. It does not judge the size of that device.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "Fuse in each string, and near the middle above 100 V: common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    unfused: {
      title: "No fuse or breaker lies in or at the end of the string of {blocks}, {volts} when charged.",
      why: "A short circuit across it, a loose lug that arcs or a dropped spanner is then fed by the whole pack until something burns through.",
      mend: "Put a fuse rated for direct current at the string's end, within 178 mm of the post, or between two blocks near its middle.",
    },
    parallel: {
      title: "Parallel strings feed each other without a fuse: {blocks}.",
      why: "When a block in one string fails short, the others push all they have through it, and no fuse towards the drive sees that current.",
      mend: "Give each string a fuse of its own before the point where the strings are joined.",
    },
    middle: {
      title: "No fuse or breaker lies near the middle of the string of {blocks}, {volts} when charged.",
      why: "A fuse at the end does not help against a short circuit between blocks; one in the middle opens most of those, and pulled out it halves the voltage for whoever works on the pack.",
      mend: "Add a fuse between two blocks near the middle of the string, with at least a third of the blocks on either side.",
    },
  },
  reasons: {
    inside: "Whether there is a fuse inside {part} is not stated.",
    chemistry: "The chemistry of {part} is not stated, so that the voltage of its string is not known.",
  },
  // A string that something shorts or closes to a ring has no end to put a fuse at.
  foldsUnder: ["source-shorted", "block-reversed"],
  run(analysis, report) {
    for (const walk of feedWalks(analysis)) {
      if (!walk.feed.storage) continue;
      if (walk.feed.duty === "traction") look(analysis, walk, report);
      else report.doesNotApply(partPlace(first(walk.feed)));
    }
  },
});

const byId = (a: NetworkPart, b: NetworkPart): number => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1));

function first(feed: Feed): NetworkPart {
  const [part] = [...feed.parts].sort(byId);
  if (part === undefined) throw new Error("a pack without blocks");
  return part;
}

function look(analysis: Analysis, walk: Walk, report: Report): void {
  const { feed } = walk;
  const place = partPlace(first(feed));
  const volts = feed.pack?.highest ?? 0;
  const blocks = [...feed.parts].sort(byId).map(partPlace);
  const facts = { blocks: { places: blocks }, volts: { value: volts, dimension: "voltage" } } as const;
  const unstated = feed.parts.filter(
    ({ kind, values }) => "internalFuseRating" in kind.parameters && values.number("internalFuseRating") === undefined,
  );
  const looped = inLoopWithoutDevice(analysis, feed);
  const fused = isFused(analysis, walk);
  if (looped.length > 0 || !fused) {
    if (unstated.length > 0) {
      for (const { part } of unstated) {
        const missing = [{ part: part.id, parameter: "internalFuseRating" }];
        report.notChecked({
          where: [{ part: part.id }],
          reason: "inside",
          facts: { part: { place: { part: part.id } } },
          missing,
        });
      }
      return;
    }
    const message = fused ? "parallel" : "unfused";
    const remedies = fused ? [] : fuseAtEnd(analysis, walk);
    report.fails({ message, facts, severity: "WARNING", where: [place], touches: blocks, variant: message, remedies });
    return;
  }
  const open = middleUnknown(feed);
  if (volts <= MIDDLE_FROM && open === undefined) {
    report.passes(place);
    return;
  }
  if (open !== undefined) {
    const missing = [{ part: open.part.id, parameter: "chemistry" }];
    report.notChecked({ where: [place], reason: "chemistry", facts: { part: { place: partPlace(open) } }, missing });
    return;
  }
  if (hasMiddleDevice(walk)) {
    report.passes(place);
    return;
  }
  if (unstated.length > 0) {
    const [{ part } = first(feed)] = unstated;
    const missing = [{ part: part.id, parameter: "internalFuseRating" }];
    report.notChecked({
      where: [{ part: part.id }],
      reason: "inside",
      facts: { part: { place: { part: part.id } } },
      missing,
    });
    return;
  }
  report.fails({
    message: "middle",
    facts,
    severity: "NOTICE",
    where: [place],
    touches: blocks,
    variant: "middle",
    remedies: fuseInMiddle(analysis, walk),
  });
}

/** At the plus of a single string whose one lead feeds everything. */
function fuseAtEnd(analysis: Analysis, walk: Walk): readonly Remedy[] {
  const { network } = analysis;
  const [near, ...others] = polesOn(walk, "plus");
  const end = near === undefined ? undefined : network.terminalOfNode[near];
  const [wire, ...more] = end === undefined ? [] : network.wiresAt(end);
  const first = wire === undefined ? undefined : network.conductorByWire.get(wire.id);
  if (near === undefined || first === undefined || others.length + more.length > 0) return [];
  const behind = faults(analysis).filter(
    ({ walk: { feed }, way, devices }) => feed === walk.feed && devices.length === 0 && way[0]?.conductor === first,
  );
  const wires = behind.flatMap(({ way, back }) => [...way, ...back].flatMap(({ conductor }) => conductor ?? []));
  return fitFuse(analysis, { walk, first, near, wires: [...new Set([first, ...wires])] });
}

/** In the jumper of a single string that halves it best. */
function fuseInMiddle(analysis: Analysis, walk: Walk): readonly Remedy[] {
  const { feed, state } = walk;
  const [minus, ...lower] = polesOn(walk, "minus");
  const [plus, ...upper] = polesOn(walk, "plus");
  if (minus === undefined || plus === undefined || lower.length + upper.length > 0) return [];
  const posts = new Set(feed.sources.flatMap(({ a, b }) => [a, b]));
  const [best] = analysis.network.conductors
    .filter(({ a, b }) => posts.has(a) && posts.has(b))
    .map((first) => ({ first, off: Math.abs(state.between(first.a, minus) / state.between(plus, minus) - 0.5) }))
    .sort((x, y) => x.off - y.off);
  if (best === undefined || best.off > 0.5 - LEAST_SHARE) return [];
  return fitFuse(analysis, { walk, first: best.first, near: best.first.a, wires: [best.first] });
}

function middleUnknown(feed: Feed): NetworkPart | undefined {
  return feed.parts.find(({ values }) => values.choice("chemistry") === undefined);
}

/** Is there a device between the poles and the drive (or, without a drive on the drawing, at any end)? */
function isFused(analysis: Analysis, walk: Walk): boolean {
  if (walk.stringDevices.length > 0) return true;
  const own = walks(analysis).filter(({ feed }) => feed === walk.feed);
  const reached = supplyPairs(analysis.network).flatMap(({ part, pair, plus, minus }) =>
    own.flatMap(({ labels }) => {
      const [a, b] = [labels.get(plus), labels.get(minus)];
      if (!pair.main || a === undefined || b === undefined || a.origin === b.origin) return [];
      const drive = part.kind.traits.controller === true || part.kind.traits.motor === true;
      return [{ drive, devices: a.devices + b.devices }];
    }),
  );
  const drives = reached.filter(({ drive }) => drive);
  const judged = drives.length > 0 ? drives : reached;
  if (judged.length > 0) return judged.every(({ devices }) => devices > 0);
  return [...polesWithRuns(analysis, walk, "plus"), ...polesWithRuns(analysis, walk, "minus")].some(
    ({ hasDevice }) => hasDevice,
  );
}

/** Sources that form a ring with others through metal alone, every contact taken as closed and every device as open. */
function inLoopWithoutDevice(analysis: Analysis, { sources }: Feed): readonly Branch[] {
  const { network } = analysis;
  const sets = new DisjointSets(network.nodeCount);
  for (const { role, a, b } of network.branches) {
    if (PACK_ROLES.has(role) && role !== "protection") sets.join(a, b);
  }
  let left = sources.map((branch) => ({ branch, a: sets.find(branch.a), b: sets.find(branch.b) }));
  for (;;) {
    const degree = new Map<number, number>();
    for (const end of left.flatMap(({ a, b }) => [a, b])) degree.set(end, (degree.get(end) ?? 0) + 1);
    const kept = left.filter(({ a, b }) => a !== b && (degree.get(a) ?? 0) > 1 && (degree.get(b) ?? 0) > 1);
    if (kept.length === left.length) return kept.map(({ branch }) => branch);
    left = kept;
  }
}

/** A device between the blocks with at least a third of the voltage on either side, or a fuse inside the pack. */
function hasMiddleDevice(walk: Walk): boolean {
  const { feed, state, stringDevices } = walk;
  if (feed.parts.some(({ values }) => (values.number("internalFuseRating") ?? 0) > 0)) return true;
  const [minus] = polesOn(walk, "minus");
  const [plus] = polesOn(walk, "plus");
  if (minus === undefined || plus === undefined) return false;
  const whole = state.between(plus, minus);
  return stringDevices.some(({ branch }) => {
    const share = state.between(branch.a, minus) / whole;
    return share >= LEAST_SHARE - 1e-3 && share <= 1 - LEAST_SHARE + 1e-3;
  });
}
