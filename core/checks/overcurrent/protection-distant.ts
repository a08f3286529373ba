import type { Analysis } from "../../circuit/analysis.ts";
import type { Conductor } from "../../network/network.ts";
import type { Metre } from "../../quantity/kinds.ts";
import { POSITION_SOURCE } from "../../standards/overcurrent.ts";
import { defineCheck } from "../define.ts";
import type { Place, Report } from "../define.ts";
import { deviceToSource } from "../remedies/move-device.ts";
import { branchPlace, partPlace } from "../words/places.ts";
import { feedWalks, polesWithRuns } from "../words/pole-runs.ts";
import type { Pole, PoleRun } from "../words/pole-runs.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { wireLength } from "../../studies/words/run-length.ts";
import { throughJoin } from "../words/traction-joins.ts";
import { polesOn } from "../../studies/words/fault-walk.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";

export const protectionDistant = defineCheck({
  id: "protection-distant",
  group: "overcurrent",
  title: "First fuse too far from the source",
  about:
    "Measures the wires from each battery, and from each output that can deliver more than they carry, to the first fuse or breaker (or resistor that limits the current). 178 mm are allowed, 1,016 mm in a sheath or enclosure throughout, 1,829 mm straight from a battery stud in a sheath (the last from memory). A pack that no pole of is bonded to the chassis needs a device in one pole only, and that pole is measured.",
  severities: ["WARNING"],
  source: POSITION_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    distant: {
      title: "{length} of wire lie between the source and {device}, its first protection; at most {limit} are allowed.",
      why: "On this piece nothing opens: where it is crushed or chafes through, the source feeds the short circuit with all it has.",
      mend: "Move {device} to within {limit} of the source, measured along {wires}, or run the wire in a sheath or inside a box for all its length and stay within the longer distance for that.",
    },
  },
  reasons: {
    length: "How far {device} is from the source, or whether the wire is in a sheath for all of that, is not stated.",
    limit:
      "How much current this output delivers at most, or the size of the wire on it, is not stated; {device} is further than a battery's would be allowed.",
  },
  // Without a fuse in the branch that they share, those further on are the first.
  foldsUnder: ["branch-unprotected"],
  run(analysis, report) {
    for (const walk of feedWalks(analysis)) {
      const pole = measured(analysis, walk);
      if (pole === undefined) {
        report.doesNotApply(...walk.feed.parts.map(partPlace));
        continue;
      }
      for (const run of pole) judge(analysis, walk, run, report);
    }
  },
});

/** Runs to devices on the pole that has to have its device close by; undefined where no pole has one. */
function measured(analysis: Analysis, walk: Walk): readonly PoleRun[] | undefined {
  const { bonded, stringDevices } = walk;
  const plus = polesWithRuns(analysis, walk, "plus");
  const minus = polesWithRuns(analysis, walk, "minus");
  const runs = (poles: readonly Pole[]): readonly PoleRun[] | undefined =>
    poles.some(({ hasDevice }) => hasDevice)
      ? poles.flatMap((pole) => pole.runs.filter(({ entrance }) => entrance !== undefined))
      : undefined;
  const covered = (poles: readonly Pole[]): boolean => poles.length > 0 && poles.every(({ region }) => region.covered);
  if (bonded === "minus") return runs(plus);
  if (bonded === "plus") return runs(minus);
  // A device between the blocks is in every loop from pole to pole.
  if (stringDevices.length > 0 && polesOn(walk, "plus").length === 1) return undefined;
  if (covered(plus) && covered(minus)) {
    const far = (side: readonly Pole[]): number =>
      (runs(side) ?? []).filter(({ verdict }) => verdict.verdict !== "within").length;
    return far(minus) < far(plus) ? runs(minus) : runs(plus);
  }
  if (covered(minus)) return runs(minus);
  return runs(plus) ?? runs(minus);
}

/** The wire in which the limit is passed: devices that have it in common are all too far for the same reason. */
function passingLimit(wires: readonly Conductor[], limit: Metre): Conductor | undefined {
  let sum: Metre = 0;
  return wires.find((wire) => (sum += wireLength(wire) ?? 0) > limit);
}

function judge(analysis: Analysis, walk: Walk, run: PoleRun, report: Report): void {
  const { feed } = walk;
  const { entrance, wires, verdict } = run;
  const at = entrance === undefined ? undefined : branchPlace(entrance.branch);
  const [first] = wires;
  if (at === undefined || first === undefined) return;
  const places = wires.map(({ wire }): Place => ({ wire: wire.id }));
  const facts = {
    device: { place: at },
    wires: { places },
    length: { value: verdict.length, dimension: "length" },
    limit: { value: verdict.limit, dimension: "length" },
  } as const;
  if (verdict.verdict === "within") {
    report.passes(at);
    return;
  }
  if (!feed.storage) {
    const ampacities = wires.map((wire) => wireAmpacity(analysis, wire));
    const { limit } = feed;
    if (limit !== undefined && ampacities.every((each) => each.known && limit <= each.low)) {
      report.doesNotApply(at);
      return;
    }
    const unknown = ampacities.flatMap((each) => (each.known ? [] : each.missing));
    if (limit === undefined || ampacities.some((each) => !each.known || limit <= each.high)) {
      const field = limit === undefined && feed.limitField !== undefined ? [feed.limitField] : [];
      const ranges = ampacities.flatMap((each) => (each.known ? each.missing : []));
      report.notChecked({ where: [at], reason: "limit", facts, missing: [...field, ...unknown, ...ranges] });
      return;
    }
  }
  if (verdict.verdict === "open") {
    report.notChecked({ where: [at], reason: "length", facts, missing: verdict.missing });
    return;
  }
  const shared = passingLimit(wires, verdict.limit);
  report.fails({
    message: "distant",
    facts,
    severity: "WARNING",
    where: [at, ...places],
    ...throughJoin(analysis, [...feed.parts.flatMap((part) => [...part.nodes.values()])], [run.end]),
    ...(shared === undefined ? {} : { cause: shared.wire.id }),
    value: verdict.length,
    limit: verdict.limit,
    unit: "m",
    source: verdict.source,
    remedies: deviceToSource(analysis, run),
  });
}
