import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { auxiliaryBudget } from "../../studies/auxiliary-budget.ts";
import type { StandingDrain } from "../../studies/auxiliary-budget.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report, Source } from "../define.ts";
import { closedFeed } from "../words/closed-feed.ts";
import { partPlace } from "../words/places.ts";
import { undecidedFields } from "../words/undecided.ts";
import { wholeTime } from "../words/whole-time.ts";

/** A vehicle that is left for a month should still start. */
const MONTH = 30 * 86400;
const MONTH_SOURCE: Source = { text: "A month of standing: common practice, no source", known: "none" };
/** What flattens no battery of a vehicle in a month: 0.7 Ah. */
const LEAST_CURRENT = 1e-3;

export const standingDrain = defineCheck({
  id: "standing-drain",
  group: "charging",
  title: "Battery emptied while parked",
  about:
    "Parks the vehicle, also as it stands after driving, and works out what each battery still delivers and when the part of its charge that may be used is gone: half of lead-acid, four fifths of others. It tells of less than a month. Self-discharge comes on top and is not counted.",
  severities: ["NOTICE"],
  source: MONTH_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    drain: {
      title:
        "Parked, {current} go from the battery at {battery} to {loads}: after {time} it is as empty as it may get.",
      why: "A battery that is emptied over and over while the vehicle stands loses its capacity, and one day the vehicle does not start.",
      mend: "Put {loads} behind a contact that opens with the key, or charge the battery while the vehicle stands.",
    },
    unknown: {
      title: "Parked, {current} flow from the battery at {battery}: after {time} it is as empty as it may get.",
      why: "A battery that is emptied over and over while the vehicle stands loses its capacity, and one day the vehicle does not start.",
      mend: "Find what is still joined to the battery at {battery} with the key off, and put it behind a contact.",
    },
  },
  reasons: {
    capacity: "How long the battery at {battery} lasts while parked cannot be told, as its capacity is not stated.",
    loads: "How long the battery at {battery} lasts while parked depends on a draw that is not stated.",
  },
  foldsUnder: [
    "source-shorted",
    "string-tap",
    "enable-bypasses-key",
    "block-reversed",
    "main-switch-missing",
    "held-by-backfeed",
  ],
  run(analysis, report) {
    const { standing } = auxiliaryBudget(analysis);
    if (standing.length === 0) report.doesNotApply();
    for (const drain of standing) judge(analysis, drain, report);
  },
});

function judge(analysis: Analysis, drain: StandingDrain, report: Report): void {
  const { pack, current, flatAfter, draws } = drain;
  const battery = firstOf(pack.blocks.map(partPlace));
  if (battery === undefined) return;
  const [time] = flatAfter ?? [];
  // What takes less than a hundredth of it is a meter's or a leak's share.
  const total = draws.reduce((sum, { power }) => sum + power, 0);
  const loads = inOrder(draws.filter(({ power }) => power > total / 100));
  const facts = { battery: { place: battery } };
  if (time !== undefined && time < MONTH) {
    report.fails({
      message: loads.length === 0 ? "unknown" : "drain",
      facts: {
        ...facts,
        loads: { places: loads },
        current: { value: current, dimension: "current" },
        time: { value: wholeTime(time), dimension: "time" },
      },
      severity: "NOTICE",
      where: [...loads, battery],
      states: [drain.state],
      value: time,
      limit: MONTH,
      unit: "s",
    });
    return;
  }
  const silent = [...drain.missing.filter((field) => !isCapacity(field)), ...unstatedDraws(analysis, drain)];
  if (silent.length > 0) report.notChecked({ where: [battery], reason: "loads", facts, missing: silent });
  else if (time === undefined && current >= LEAST_CURRENT)
    report.notChecked({ where: [battery], reason: "capacity", facts, missing: drain.missing.filter(isCapacity) });
  else report.passes(battery);
}

/** The heaviest first; of those that draw alike the one drawn first. */
function inOrder(draws: StandingDrain["draws"]): readonly Place[] {
  const sorted = [...draws].sort(
    (a, b) =>
      Math.round(Math.log(b.power / a.power) * 1e3) ||
      Number(a.part.part.id.slice(1)) - Number(b.part.part.id.slice(1)),
  );
  return sorted.map(({ part }) => partPlace(part));
}

function firstOf(places: readonly Place[]): Place | undefined {
  const number = (place: Place): number => ("part" in place ? Number(place.part.slice(1)) : 0);
  return [...places].sort((a, b) => number(a) - number(b))[0];
}

const isCapacity = (field: MissingField): boolean => "parameter" in field && field.parameter === "capacity";

/** An idle output of which nobody said what it draws back, and contacts that may be closed for all the drawing says. */
function unstatedDraws(analysis: Analysis, { pack }: StandingDrain): readonly MissingField[] {
  const parked = analysis.state("parked");
  if (parked === undefined) return [];
  const leaks = supplyPairs(analysis.network).flatMap(({ part, pair, plus, minus }): MissingField[] =>
    pair.direction === "output" &&
    "reverseLeakage" in part.kind.parameters &&
    part.values.number("reverseLeakage") === undefined &&
    isOn(analysis, parked, plus, minus, pack.positive)
      ? [{ part: part.part.id, parameter: "reverseLeakage" }]
      : [],
  );
  return [...leaks, ...undecidedFields(analysis)];
}

function isOn(analysis: Analysis, parked: SolvedState, plus: number, minus: number, pole: number): boolean {
  const feed = closedFeed(analysis, parked);
  return feed.isFed(plus, minus) && feed.group(plus) === feed.group(pole);
}
