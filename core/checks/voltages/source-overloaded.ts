import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { compareNatural } from "../../project/designation.ts";
import { feeds } from "../../studies/words/feeds.ts";
import type { Feed } from "../../studies/words/feeds.ts";
import { walks } from "../../studies/words/fault-walk.ts";
import { bothEnds } from "../../studies/words/resistance-ends.ts";
import { LEAST, unstatedRanges, wireCurrents } from "../../studies/words/wire-currents.ts";
import type { CurrentIn } from "../../studies/words/wire-currents.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { distinct } from "../words/curve-fields.ts";
import { partPlace } from "../words/places.ts";

export const sourceOverloaded = defineCheck({
  id: "source-overloaded",
  group: "voltages",
  title: "Battery or monitor asked for more than it gives",
  about:
    "Compares the steady current of every battery and battery monitor, discharging and charging, in every operating state with the current that is stated for it. While driving, the motor's or the controller's continuous current counts, whichever is less; a charger counts with its full current. What a converter puts into a 12 V battery until that has come up to its voltage is left out.",
  severities: ["WARNING"],
  source: { text: "The battery's or monitor's own rating, by the meaning of the word", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    discharge: {
      title: "{current} are drawn from {parts} in {states}; {limit} is stated as the most.",
      why: "Cells that give too much get hot and age fast, and one with a monitor of its own switches off in the middle of the road.",
      mend: "Limit the motor current, or use what gives at least {current} in the place of {parts}; batteries side by side share the current.",
    },
    charge: {
      title: "{parts} may be charged with {current} in {states}; {limit} is stated as the most.",
      why: "Cells that are charged too fast gas, get hot or grow metal inside, and one with a monitor of its own cuts the charger off under load.",
      mend: "Set the charger or the regeneration to at most {limit}, or use what takes {current} in the place of {parts}.",
    },
  },
  reasons: {
    limit: "How much current {part} may give or take continuously is not stated.",
    current: "How much current {part} gives or takes is not known.",
    range: "Whether {part} is asked for too much depends on figures that are only known as a range.",
  },
  foldsUnder: ["source-shorted", "strings-unequal", "supply-reversed", "load-bypassed", "diode-reversed"],
  run(analysis, report) {
    const beside = { charged: chargerCurrents(analysis), unknown: unknownDrive(analysis) };
    const groups = new Map<string, Overloaded[]>();
    for (const part of analysis.network.parts) {
      const directions = directionsOf(analysis, part);
      if (directions.length === 0) continue;
      for (const each of look(analysis, part, directions, beside, report)) {
        const key = `${each.feed} ${each.message} ${each.limit}`;
        groups.set(key, [...(groups.get(key) ?? []), each]);
      }
    }
    for (const group of groups.values()) fail(group, report);
  },
});

/** Blocks of one string that are asked for the same too much are one finding. */
interface Overloaded {
  readonly feed: number;
  readonly part: NetworkPart;
  readonly message: "discharge" | "charge";
  readonly current: Ampere;
  readonly limit: Ampere;
  readonly states: readonly string[];
}

function fail(group: readonly Overloaded[], report: Report): void {
  const sorted = [...group].sort((a, b) => compareNatural(a.part.part.id, b.part.part.id));
  const worst = sorted.reduce((most, each) => (each.current > most.current ? each : most));
  const places = sorted.map(({ part }) => partPlace(part));
  const { message, current, limit, states } = worst;
  report.fails({
    message,
    facts: {
      parts: { places },
      current: { value: current, dimension: "current" },
      limit: { value: limit, dimension: "current" },
      states: { states },
    },
    severity: "WARNING",
    where: places,
    states,
    value: current,
    limit,
    unit: "A",
    variant: message,
  });
}

/** One way in which current may flow, with the rating of that way. */
interface Direction {
  readonly message: "discharge" | "charge";
  readonly branch: Branch;
  readonly parameter: string;
}

function directionsOf({ network }: Analysis, part: NetworkPart): readonly Direction[] {
  const own = network.branches.slice(part.firstBranch, part.firstBranch + part.branchCount);
  const { battery, monitor } = part.kind.traits;
  if (battery === true) {
    const branch = own.find(({ role }) => role === "source");
    if (branch === undefined) return [];
    return [
      { message: "discharge", branch, parameter: "dischargeMax" },
      { message: "charge", branch, parameter: "chargeMax" },
    ];
  }
  if (monitor !== true) return [];
  // Its limits name the elements that carry the pack's current; both run from a to b.
  return own.flatMap((branch): Direction[] => {
    if (branch.role !== "contact") return [];
    const limit = part.kind.limits(part.values).find(({ element }) => element === branch.name);
    if (limit === undefined) return [];
    const message = branch.name === "charge" ? "charge" : "discharge";
    return [{ message, branch, parameter: limit.parameter }];
  });
}

interface Beside {
  /** What chargers give at most to the batteries that they reach, by source branch. */
  readonly charged: ReadonlyMap<number, { readonly low: Ampere; readonly high: Ampere }>;
  /** What to state before the drive's current is known; undefined where it is. */
  readonly unknown: { readonly missing: readonly MissingField[]; readonly parts: ReadonlySet<NetworkPart> } | undefined;
}

function look(
  analysis: Analysis,
  part: NetworkPart,
  directions: readonly Direction[],
  beside: Beside,
  report: Report,
): readonly Overloaded[] {
  const place = partPlace(part);
  const facts = { part: { place } } as const;
  const open = new Map<string, MissingField[]>();
  const later = (reason: string, missing: readonly MissingField[]): void => {
    open.set(reason, [...(open.get(reason) ?? []), ...missing]);
  };
  const overloaded: Overloaded[] = [];
  let looked = false;
  for (const direction of directions) {
    const { message, branch, parameter } = direction;
    const { low, high, states } = most(analysis, direction, beside);
    const unknown = message === "discharge" && beside.unknown?.parts.has(part) === true ? beside.unknown : undefined;
    if (high < LEAST && unknown === undefined) continue;
    looked = true;
    const limit = part.values.number(parameter);
    if (limit === undefined) later("limit", [{ part: part.part.id, parameter }]);
    else if (low > limit) {
      const feed = feedOf(analysis, branch)?.sources[0]?.index ?? branch.index;
      overloaded.push({ feed, part, message, current: low, limit, states });
    } else if (unknown !== undefined) later("current", unknown.missing);
    else if (high > limit) later("range", unstatedRanges(analysis));
  }
  for (const [reason, missing] of open) {
    report.notChecked({ where: [place], reason, facts, missing: distinct(missing) });
  }
  if (!looked) report.doesNotApply(place);
  else if (overloaded.length === 0 && open.size === 0) report.passes(place);
  return overloaded;
}

const feedOf = (analysis: Analysis, branch: Branch): Feed | undefined =>
  feeds(analysis).find(({ sources }) => sources.includes(branch));

function most(
  analysis: Analysis,
  { message, branch }: Direction,
  { charged }: Beside,
): { readonly low: Ampere; readonly high: Ampere; readonly states: readonly string[] } {
  const feed = feedOf(analysis, branch);
  const sources = feed?.sources;
  // At rest voltage a battery of the 12 V side would take a multiple of what it takes once it has come up.
  const states = message === "charge" && feed?.duty === "auxiliary" ? [] : analysis.states;
  const of = ({ currents }: SolvedState): Ampere => {
    const own = currents[branch.index] ?? 0;
    if (sources === undefined) return Math.max(0, own);
    // A block that stands the wrong way round is asked for what its string gives, whichever way that goes through it.
    const whole = sources.reduce((sum, { index }) => sum + (currents[index] ?? 0), 0);
    return whole > 0 === (message === "discharge") ? Math.abs(own) : 0;
  };
  const each = states.map((state): CurrentIn => {
    const ends = [state, ...bothEnds(analysis, state)].map(of);
    return { state: state.name, low: Math.min(...ends), high: Math.max(...ends) };
  });
  const charger = message === "charge" ? charged.get(branch.index) : undefined;
  if (charger !== undefined) each.push({ state: "charging", ...charger });
  const low = Math.max(0, ...each.map((one) => one.low));
  return {
    low,
    high: Math.max(0, ...each.map((one) => one.high)),
    states: [...new Set(each.flatMap((one) => (one.low > 0.99 * low ? [one.state] : [])))],
  };
}

/**
 * Until the batteries have come up to its voltage a charger gives its full current, whereas the state *charging* is
 * solved at its end. Strings side by side share it in a way that nobody knows beforehand.
 */
function chargerCurrents(analysis: Analysis): Beside["charged"] {
  const found = new Map<number, { readonly low: Ampere; readonly high: Ampere }>();
  for (const { feed, labels } of walks(analysis)) {
    const { limit } = feed;
    if (limit === undefined || !feed.parts.some(({ kind }) => kind.traits.charger === true)) continue;
    for (const pack of analysis.packs) {
      const [plus, minus] = [labels.get(pack.positive), labels.get(pack.negative)];
      if (plus?.side !== "plus" || minus?.side !== "minus") continue;
      const own = feeds(analysis).find((each) => each.pack === pack);
      const sources = own?.sources ?? [];
      const strings = sources.filter(({ b }) => labels.get(b)?.side === "minus").length;
      for (const { index } of sources) {
        const high = Math.max(found.get(index)?.high ?? 0, limit);
        found.set(index, { low: strings > 1 ? 0 : high, high });
      }
    }
  }
  return found;
}

/** Batteries in the loop of a drive of which nobody knows the current. */
function unknownDrive(analysis: Analysis): Beside["unknown"] {
  const missing: MissingField[] = [];
  const parts = new Set<NetworkPart>();
  for (const [{ wire }, { drive }] of wireCurrents(analysis)) {
    if (drive === undefined) continue;
    missing.push(...drive);
    for (const end of wire.ends) {
      const part = end === null ? undefined : analysis.network.partById.get(end[0]);
      for (const feed of feeds(analysis)) {
        if (part !== undefined && feed.parts.includes(part)) for (const each of feed.parts) parts.add(each);
      }
      if (part?.kind.traits.monitor === true) parts.add(part);
    }
  }
  return missing.length === 0 ? undefined : { missing: distinct(missing), parts };
}
