import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours, wayTo } from "../../circuit/paths.ts";
import type { Arrival } from "../../circuit/paths.ts";
import type { Branch, Conductor, NodeIndex } from "../../network/network.ts";
import { PACK_ROLES } from "../../network/strings.ts";
import { compareNatural } from "../../project/designation.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { feeds } from "../../studies/words/feeds.ts";
import type { Feed } from "../../studies/words/feeds.ts";
import { partPlace } from "../words/places.ts";
import { setSizes, sizeOf } from "../remedies/thicker-wire.ts";

/** 70 mm2 and 2/0 AWG are sold as each other's equal: areas within a twentieth count as one size. */
const SAME_SIZE = 0.05;

export const jumpersMixed = defineCheck({
  id: "jumpers-mixed",
  group: "conductors",
  title: "Jumpers of different sizes in one string",
  about:
    "Compares the sizes of the wires between the blocks of a string, with whatever fuse or contact stands among them. A metric size and the gauge that is sold as its equal count as one. What leads from the ends of the string to the vehicle is not looked at here.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    mixed: {
      title: "{wire} between the blocks has {area}; other jumpers of the string have {most}.",
      why: "All jumpers of a string carry the same current, so the thinnest one gets hottest and loses the most voltage; it was probably a cable at hand.",
      mend: "Make {wires} of {most} as well.",
    },
  },
  reasons: { size: "The size of {wire}, a jumper between blocks, is not stated." },
  foldsUnder: ["conductor-overloaded"],
  run(analysis, report) {
    for (const feed of feeds(analysis)) {
      if (!feed.storage) continue;
      const strings = stringsOf(analysis, feed);
      if (strings.every((jumpers) => jumpers.length < 2)) report.doesNotApply(...feed.parts.map(partPlace));
      for (const jumpers of strings) if (jumpers.length > 1) look(jumpers, report);
    }
  },
});

function look(jumpers: readonly Conductor[], report: Report): void {
  const wires = jumpers.map(({ wire }) => wire).sort((a, b) => compareNatural(a.id, b.id));
  const place = ({ id }: { readonly id: string }): Place => ({ wire: id });
  const sized = wires.flatMap((wire) => {
    const size = sizeOf(wire);
    return size === undefined ? [] : [{ wire, size }];
  });
  const [first, ...others] = sized;
  if (first === undefined) {
    tellUnsized(wires, report);
    return;
  }
  const thickest = others.reduce((best, each) => (each.size.area > best.size.area ? each : best), first);
  const thin = sized.filter(({ size }) => size.area < thickest.size.area * (1 - SAME_SIZE));
  const weakest = thin.reduce((least, each) => (each.size.area < least.size.area ? each : least), thickest);
  if (thin.length === 0) {
    tellUnsized(wires, report);
    if (sized.length === wires.length) report.passes(...wires.map(place));
    return;
  }
  const where = [weakest, ...thin.filter((each) => each !== weakest)].map(({ wire }) => place(wire));
  report.fails({
    message: "mixed",
    facts: {
      wire: { place: place(weakest.wire) },
      wires: { places: where },
      area: weakest.size.text,
      most: thickest.size.text,
    },
    severity: "NOTICE",
    where,
    value: weakest.size.area,
    limit: thickest.size.area,
    unit: "m2",
    remedies: [
      setSizes(new Map(thin.map(({ wire }) => [wire.id, thickest.size])), `Use ${thickest.size.text} for all`),
    ],
  });
}

function tellUnsized(wires: readonly Conductor["wire"][], report: Report): void {
  for (const wire of wires) {
    if (sizeOf(wire) !== undefined) continue;
    const missing: readonly MissingField[] = [{ wire: wire.id, field: "size" }];
    report.notChecked({
      where: [{ wire: wire.id }],
      reason: "size",
      facts: { wire: { place: { wire: wire.id } } },
      missing,
    });
  }
}

/** The wires between a plus and the minus that follows it, string by string. */
function stringsOf(analysis: Analysis, feed: Feed): readonly (readonly Conductor[])[] {
  const strings: { readonly blocks: Set<number>; readonly jumpers: Set<Conductor> }[] = [];
  const minusAt = new Map(feed.sources.map(({ b, index }) => [b, index]));
  const poles = new Set(feed.sources.flatMap(({ a, b }) => [a, b]));
  for (const source of feed.sources) {
    for (const { to, way } of waysFrom(analysis, source.a, minusAt, poles)) {
      const conductors = way.flatMap(({ conductor }) => conductor ?? []);
      const touched = strings.filter(({ blocks }) => blocks.has(source.index) || blocks.has(to));
      const into = touched[0] ?? { blocks: new Set<number>(), jumpers: new Set<Conductor>() };
      if (touched.length === 0) strings.push(into);
      for (const other of touched.slice(1)) {
        for (const block of other.blocks) into.blocks.add(block);
        for (const jumper of other.jumpers) into.jumpers.add(jumper);
        strings.splice(strings.indexOf(other), 1);
      }
      into.blocks.add(source.index).add(to);
      for (const conductor of conductors) into.jumpers.add(conductor);
    }
  }
  return strings.map(({ jumpers }) => [...jumpers]);
}

/** Shortest ways from a plus to the minus of other blocks, past no other pole. */
function waysFrom(
  analysis: Analysis,
  from: NodeIndex,
  minusAt: ReadonlyMap<NodeIndex, number>,
  poles: ReadonlySet<NodeIndex>,
): readonly { readonly to: number; readonly way: readonly Branch[] }[] {
  const beside = neighbours(analysis.network);
  const by = new Map<NodeIndex, Arrival>();
  const seen = new Set([from]);
  const queue = [from];
  const found: { readonly to: number; readonly way: readonly Branch[] }[] = [];
  for (let head = 0; head < queue.length; head += 1) {
    const at = queue[head] ?? from;
    if (at !== from && poles.has(at)) {
      const to = minusAt.get(at);
      if (to !== undefined) found.push({ to, way: wayTo(by, at) });
      continue;
    }
    for (const { to, branch } of beside(at)) {
      if (seen.has(to) || !PACK_ROLES.has(branch.role)) continue;
      seen.add(to);
      by.set(to, { from: at, branch });
      queue.push(to);
    }
  }
  return found;
}
