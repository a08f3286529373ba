import type { Analysis } from "../../circuit/analysis.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import { POSITION_SOURCE } from "../../standards/overcurrent.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Remedy, Report } from "../define.ts";
import { fitFuse } from "../remedies/fit-fuse.ts";
import { deviceToSource } from "../remedies/move-device.ts";
import { joinOf } from "../words/joins.ts";
import { nodePlace, partPlace } from "../words/places.ts";
import { feedWalks, polesWithRuns } from "../words/pole-runs.ts";
import type { PoleRun } from "../words/pole-runs.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";

export const bondedPoleUnprotected = defineCheck({
  id: "bonded-pole-unprotected",
  group: "overcurrent",
  title: "Other pole of a bonded source without close protection",
  about:
    "Where metal joins one pole of a source to the chassis, every touch of the other pole against the vehicle is a short circuit. It measures how much wire of that other pole has no fuse or breaker before it: 178 mm are allowed, 1,016 mm in a sheath or enclosure throughout, 1,829 mm straight from a battery stud in a sheath (the last from memory). An output that delivers no more than its wires carry is left out.",
  severities: ["DANGER", "WARNING"],
  source: POSITION_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    bare: {
      title:
        "{bonded} is joined to the chassis, and {length} of wire from {pole} have no fuse before them; at most {limit} are allowed.",
      why: "The whole vehicle is the other pole: a spanner or a chafed wire between {pole} and any metal is a short circuit of the full battery, and no fuse lies in its way.",
      mend: "Put a fuse within {limit} of {pole} so that all of {wires} lies behind it, or take the join to the chassis away if it is not meant to be there.",
    },
  },
  reasons: {
    length:
      "How much wire of {pole} lies ahead of its first fuse, or whether it is in a sheath for all of that, is not stated.",
    limit: "How much current {pole} delivers at most, or the size of the wire on it, is not stated.",
  },
  foldsUnder: ["traction-on-chassis", "traction-on-auxiliary", "branch-unprotected", "protection-distant"],
  run(analysis, report) {
    for (const walk of feedWalks(analysis)) look(analysis, walk, report);
  },
});

function look(analysis: Analysis, walk: Walk, report: Report): void {
  const { feed, bonded, labels } = walk;
  if (bonded === undefined || bonded === "middle") {
    report.doesNotApply(...feed.parts.map(partPlace));
    return;
  }
  const other = bonded === "minus" ? "plus" : "minus";
  const poles = polesWithRuns(analysis, walk, other);
  // Of parallel strings every pole is one.
  const runs = poles.flatMap((pole) => pole.runs);
  const origin = runs[0]?.origin ?? poles[0]?.region.origin;
  const place = (origin === undefined ? undefined : poleTerminal(analysis, walk, origin)) ?? placeOf(walk);
  if (place === undefined) return;
  const relevant = runs.filter((run) => !isLimited(analysis, walk, run));
  if (relevant.length === 0 && runs.length > 0) {
    report.doesNotApply(place);
    return;
  }
  const far = relevant.filter(({ verdict }) => verdict.verdict === "beyond");
  const worst = [...far].sort((a, b) => b.verdict.length / b.verdict.limit - a.verdict.length / a.verdict.limit)[0];
  const facts = { pole: { place } };
  if (worst === undefined) {
    const open = relevant.filter(({ verdict }) => verdict.verdict === "open");
    if (open.length === 0) report.passes(place);
    else {
      const missing = unique(open.flatMap(({ verdict }) => verdict.missing));
      report.notChecked({ where: [place], reason: "length", facts, missing });
    }
    return;
  }
  const unknown = feed.storage ? [] : unknownOf(analysis, walk, worst);
  if (unknown.length > 0) {
    report.notChecked({ where: [place], reason: "limit", facts, missing: unknown });
    return;
  }
  const wires = unique(far.flatMap((run) => run.wires.map(({ wire }): Place => ({ wire: wire.id }))));
  const bondedAt = [...labels].find(
    ([node, label]) => label.side === bonded && label.via === undefined && node === label.origin,
  );
  const bondedPlace = (bondedAt === undefined ? undefined : poleTerminal(analysis, walk, bondedAt[0])) ?? place;
  report.fails({
    message: "bare",
    facts: {
      ...facts,
      bonded: { place: bondedPlace },
      length: { value: worst.verdict.length, dimension: "length" },
      limit: { value: worst.verdict.limit, dimension: "length" },
      wires: { places: wires },
    },
    severity: feed.duty === "traction" ? "DANGER" : "WARNING",
    where: [place, ...wires],
    touches: [...feed.parts.map(partPlace), ...joinToChassis(analysis, walk)],
    value: worst.verdict.length,
    limit: worst.verdict.limit,
    unit: "m",
    source: worst.verdict.source,
    remedies: remediesOf(analysis, walk, far),
  });
}

/** The device that stands too far away moves to the pole; where there is none, one is fitted there. */
function remediesOf(analysis: Analysis, walk: Walk, far: readonly PoleRun[]): readonly Remedy[] {
  const [run, ...others] = far;
  const first = run?.wires[0];
  if (run === undefined || first === undefined) return [];
  if (run.entrance !== undefined && others.length === 0) return deviceToSource(analysis, run);
  if (far.some(({ entrance, wires }) => entrance !== undefined || wires[0] !== first)) return [];
  const wires = [...new Set(far.flatMap((each) => each.wires))];
  return fitFuse(analysis, { walk, first, near: run.origin, wires });
}

/** What joins the traction pack to the chassis: the cause, where the join is not meant to be there. */
function joinToChassis(analysis: Analysis, { feed }: Walk): readonly Place[] {
  if (feed.pack === undefined || feed.duty !== "traction") return [];
  return joinOf(analysis, feed.pack, new Set([CHASSIS_NODE]))?.places ?? [];
}

function poleTerminal(analysis: Analysis, walk: Walk, origin: number): Place | undefined {
  return nodePlace(analysis.network, origin) ?? placeOf(walk);
}

function placeOf({ feed }: Walk): Place | undefined {
  const [part] = feed.parts;
  return part === undefined ? undefined : partPlace(part);
}

/** An output whose most is within what all its wires carry for certain. */
function isLimited(analysis: Analysis, { feed }: Walk, run: PoleRun): boolean {
  const { limit, storage } = feed;
  if (storage || limit === undefined) return false;
  return run.wires.map((wire) => wireAmpacity(analysis, wire)).every((each) => each.known && limit <= each.low);
}

function unknownOf(analysis: Analysis, { feed }: Walk, run: PoleRun): readonly MissingField[] {
  const ampacities = run.wires.map((wire) => wireAmpacity(analysis, wire));
  const { limit } = feed;
  if (limit === undefined) return feed.limitField === undefined ? [] : [feed.limitField];
  return ampacities.flatMap((each) => (!each.known || limit <= each.high ? each.missing : []));
}

function unique<T>(items: readonly T[]): readonly T[] {
  return [...new Map(items.map((item) => [JSON.stringify(item), item])).values()];
}
