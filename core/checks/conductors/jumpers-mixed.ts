import type { Conductor } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { feeds } from "../../studies/words/feeds.ts";
import { partPlace } from "../words/places.ts";
import { stringsOf } from "../words/string-jumpers.ts";
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
