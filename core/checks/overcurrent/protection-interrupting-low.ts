import type { Analysis } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, NodeIndex } from "../../network/network.ts";
import type { Ampere, Ohm } from "../../quantity/kinds.ts";
import { INTERRUPTING_SOURCE } from "../../standards/overcurrent.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { behindDevice } from "../../studies/prospective-current.ts";
import type { BehindDevice } from "../../studies/prospective-current.ts";
import { devices } from "../../studies/words/devices.ts";
import type { Device } from "../../studies/words/devices.ts";
import { wayTo } from "../../studies/words/fault-walk.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { atLeast, exchangeDevice } from "../remedies/exchange-device.ts";
import { partPlace } from "../words/places.ts";
import { throughJoin, tractionTerminals } from "../words/traction-joins.ts";

export const protectionInterruptingLow = defineCheck({
  id: "protection-interrupting-low",
  group: "overcurrent",
  title: "Short-circuit current above what the device can break",
  about:
    "Inserts a dead short right behind each fuse and breaker, solves the circuit with the batteries at their lowest resistance and the wires as drawn at 20 C, and compares the current with the interrupting rating. Where a battery's resistance is only known as a range it fails at both ends of it or not at all.",
  severities: ["DANGER", "NOTICE"],
  source: INTERRUPTING_SOURCE,
  reads: "states",
  withstands: {
    splice: true,
    busbar: true,
    connector: true,
    contact: "A contact in every wire limits the short-circuit current itself.",
    rename: true,
  },
  without: {},
  messages: {
    low: {
      title: "{device} can break {rating}, and a short circuit behind it drives {current}.",
      why: "A fuse or breaker that opens on more than its interrupting rating bursts, or its arc goes on burning; then nothing stops the current at all.",
      mend: "Fit a device with an interrupting rating of at least {current} at this voltage.",
    },
  },
  reasons: {
    rating: "The interrupting rating of {device} is not stated.",
    range:
      "The short-circuit current behind {device} depends on the resistance of the batteries, which is only known as a range.",
    approximate: "The short-circuit current behind {device} rests on assumed wire lengths or sizes.",
  },
  run(analysis, report) {
    const bounds = new Map<string, Ampere>();
    for (const device of devices(analysis).values()) {
      // The fuse inside a pack is its maker's choice, and no rating of it can be stated.
      if (!device.inside) look(analysis, device, bounds, report);
    }
  },
});

function look(analysis: Analysis, device: Device, bounds: Map<string, Ampere>, report: Report): void {
  const place = partPlace(device.part);
  const behind = behindDevice(analysis, device);
  if (behind === undefined) {
    report.doesNotApply(place);
    return;
  }
  const { walk } = behind;
  const facts = { device: { place } } as const;
  const rating = device.part.values.number("interrupting");
  if (rating === undefined) {
    const missing = [{ part: device.part.part.id, parameter: "interrupting" }];
    report.notChecked({ where: [place], reason: "rating", facts, missing });
    return;
  }
  const assumed = assumedOn(walk, behind);
  if (assumed.length === 0 && rating >= bound(analysis, device, behind, bounds)) {
    report.passes(place);
    return;
  }
  const current = (resistances: "lowest" | "highest"): Ampere => {
    const change = { shorts: [[behind.from, behind.to] as const], hold: true, resistances };
    return Math.abs(analysis.solveChanged(walk.state, change).currents[device.branch.index] ?? 0);
  };
  const most = current("lowest");
  if (most <= rating) {
    if (assumed.length > 0) report.notChecked({ where: [place], reason: "approximate", facts, missing: assumed });
    else report.passes(place);
    return;
  }
  if (current("highest") <= rating) {
    const missing = walk.feed.parts.flatMap(({ part, values }): MissingField[] =>
      values.number("resistance") === undefined ? [{ part: part.id, parameter: "resistance" }] : [],
    );
    report.notChecked({ where: [place], reason: "range", facts, missing });
    return;
  }
  const join = throughJoin(analysis, tractionTerminals(analysis), [device.branch.a, device.branch.b]);
  report.fails({
    message: "low",
    facts: {
      ...facts,
      rating: { value: rating, dimension: "current" },
      current: { value: most, dimension: "current" },
    },
    severity: walk.feed.duty === "traction" ? "DANGER" : "NOTICE",
    where: [place],
    touches: [...walk.feed.parts.map(partPlace), ...join.touches],
    foldsUnder: join.foldsUnder,
    states: [walk.state.name],
    value: most,
    limit: rating,
    unit: "A",
    remedies: exchangeDevice(
      "higher-interrupting",
      device,
      { interrupting: most },
      `that breaks ${atLeast(most, "A")}`,
    ),
  });
}

/**
 * What the current cannot exceed, without solving this fault: the short-circuit current behind the device before it (or
 * at the pole), lowered by the wire that leads to this device alone. A device that breaks that much passes.
 */
function bound(analysis: Analysis, device: Device, behind: BehindDevice, bounds: Map<string, Ampere>): Ampere {
  const { walk, from, to } = behind;
  const known = devices(analysis);
  let at = from;
  let alone = true;
  let own: Ohm = 0;
  for (let label = walk.labels.get(from); label?.via !== undefined && label.from !== undefined; ) {
    if (known.has(label.via.index) && label.via !== device.branch) break;
    if (alone) own += ohmsOf(walk, label.via);
    at = label.from;
    alone &&= branchesAt(analysis, at) === 2;
    label = walk.labels.get(at);
  }
  const key = `${walk.state.name} ${at} ${to}`;
  let before = bounds.get(key);
  if (before === undefined) {
    const change = { shorts: at === to ? [] : [[at, to] as const], hold: true, resistances: "lowest" as const };
    const { shortCurrents } = analysis.solveChanged(walk.state, change);
    before = Math.abs(shortCurrents[shortCurrents.length - 1] ?? Infinity);
    bounds.set(key, before);
  }
  const volts = walk.feed.pack?.highest ?? Infinity;
  return before === Infinity || volts === Infinity ? before : volts / (volts / before + own);
}

/** What a short leaves of a source's voltage drops over this at least. */
function ohmsOf(walk: Walk, { index, conductor }: Branch): Ohm {
  if (conductor !== undefined) return conductor.cold;
  const element = walk.state.elements[index];
  return element?.type === "contact" || element?.type === "resistance" ? element.resistance : 0;
}

/** Branches other than leaks: with two, what comes in by one goes out by the other. */
function branchesAt(analysis: Analysis, node: NodeIndex): number {
  return neighbours(analysis.network)(node).filter(({ branch }) => branch.role !== "leak").length;
}

function assumedOn(walk: Walk, { from, to }: BehindDevice): readonly MissingField[] {
  return [...wayTo(walk, from), ...wayTo(walk, to)].flatMap(({ conductor }) =>
    (conductor?.assumed ?? []).map((field) => ({ wire: conductor?.wire.id ?? "", field })),
  );
}
