import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { carryingLimit } from "../words/carrying-limit.ts";
import { everyState } from "../words/every-state.ts";
import { branchesOf, joinedIn } from "../words/joined.ts";
import { branchPlaces } from "../words/places.ts";
import { sourceLoops } from "../words/source-loops.ts";
import type { SourceLoop } from "../words/source-loops.ts";

interface Circulation {
  readonly states: string[];
  worst: { readonly state: SolvedState; readonly loop: SourceLoop };
}

export const stringsUnequal = defineCheck({
  id: "strings-unequal",
  group: "shorts",
  title: "Batteries of different voltage in parallel",
  about:
    "Looks at batteries and strings that are joined side by side while nothing draws or charges: whichever stands higher drives a current into the other. That current is held against what the charged battery may take, the discharging one may give, and what wires, fuses and contacts between them may carry. What a person or a control unit does to make them equal before they are joined is not counted.",
  severities: ["DANGER"],
  source: { text: "Ratings as stated on the drawing; wires after 33 CFR 183.425, table 5", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    circulates: {
      title:
        "{driving} drive {current} into {charged}, as both are joined side by side at different voltage; {weakest} may carry {limit}.",
      why: "Batteries side by side have next to nothing between them, so that a small difference of voltage drives a large current that overheats cells and wires.",
      mend: "Join only strings of the same make, cell count and state of charge, or keep {charged} and {driving} apart by a diode or a contactor that closes when they stand equal.",
    },
  },
  reasons: {
    unrated: "{driving} drive {current} into {charged}; whether that is too much is not stated.",
    unknownChemistry:
      "Whether the batteries side by side at {charged} stand at the same voltage depends on their chemistry, which is not stated.",
    unknownResistance:
      "How much {driving} drive into {charged} depends on their internal resistance, which is not stated.",
  },
  foldsUnder: ["supply-reversed", "block-reversed", "source-shorted", "string-tap"],
  run(analysis, report) {
    const states = everyState(analysis).filter(({ condition }) => condition.pack === "rest");
    const found = new Map<string, Circulation>();
    const parallel = new Map<NetworkPart, readonly NetworkPart[]>();
    for (const state of states) {
      const groups = sideBySide(analysis, state);
      if (groups.length === 0) continue;
      for (const group of groups) for (const part of group) parallel.set(part, group);
      for (const loop of sourceLoops(analysis, state, true)) {
        if (!isAmongBatteries(loop)) continue;
        const key = [...new Set([...loop.charged, ...loop.driving].map(({ index }) => index))]
          .sort((a, b) => a - b)
          .join(" ");
        const known = found.get(key);
        if (known === undefined) found.set(key, { states: [state.name], worst: { state, loop } });
        else {
          known.states.push(state.name);
          if (loop.current > known.worst.loop.current) known.worst = { state, loop };
        }
      }
    }
    const told = new Set<NetworkPart>();
    for (const each of worstOfEachMeeting([...found.values()])) {
      if (judge(analysis, each, report)) {
        for (const { part } of [...each.worst.loop.charged, ...each.worst.loop.driving])
          if (part !== undefined) told.add(part);
      }
    }
    for (const part of analysis.network.parts) {
      if (part.kind.traits.battery !== true || told.has(part)) continue;
      const place: Place = { part: part.part.id };
      const group = parallel.get(part);
      const unknown = (group ?? []).flatMap((each): MissingField[] =>
        each.values.choice("chemistry") === undefined ? [{ part: each.part.id, parameter: "chemistry" }] : [],
      );
      if (group === undefined) report.doesNotApply(place);
      else if (unknown.length > 0)
        report.notChecked({
          where: [place],
          reason: "unknownChemistry",
          facts: { charged: { place } },
          missing: unknown,
        });
      else report.passes(place);
    }
  },
});

const isAmongBatteries = ({ charged, driving }: SourceLoop): boolean =>
  [...charged, ...driving].every(({ part }) => part?.kind.traits.battery === true);

/** Of three strings side by side each pair makes a loop: those that share a charged battery are told once. */
function worstOfEachMeeting(all: readonly Circulation[]): readonly Circulation[] {
  const sorted = [...all].sort((a, b) => b.worst.loop.current - a.worst.loop.current);
  const taken = new Set<Branch>();
  return sorted.filter(({ worst }) => {
    const again = worst.loop.charged.some((branch) => taken.has(branch));
    for (const branch of worst.loop.charged) taken.add(branch);
    return !again;
  });
}

/** Batteries that lie on a ring of batteries and metal in this state, in groups. */
function sideBySide(analysis: Analysis, state: SolvedState): readonly (readonly NetworkPart[])[] {
  const metal = joinedIn(analysis, state);
  const batteries = branchesOf(analysis, "source").filter(({ part }) => part?.kind.traits.battery === true);
  const edges = batteries.map(({ a, b }) => [metal.find(a), metal.find(b)] as const);
  const left = new Set(batteries.keys());
  const degree = new Map<number, number>();
  for (const island of edges.flat()) degree.set(island, (degree.get(island) ?? 0) + 1);
  for (let before = -1; before !== left.size; ) {
    before = left.size;
    for (const index of left) {
      const [a, b] = edges[index] ?? [0, 0];
      if (a === b || ((degree.get(a) ?? 0) > 1 && (degree.get(b) ?? 0) > 1)) continue;
      left.delete(index);
      for (const island of [a, b]) degree.set(island, (degree.get(island) ?? 0) - 1);
    }
  }
  const groups: { readonly islands: Set<number>; readonly parts: Set<NetworkPart> }[] = [];
  for (const index of left) {
    const part = batteries[index]?.part;
    const ends = edges[index] ?? [0, 0];
    if (part === undefined) continue;
    const met = groups.filter(({ islands }) => ends.some((island) => islands.has(island)));
    const merged = { islands: new Set<number>(ends), parts: new Set([part]) };
    for (const group of met) {
      for (const island of group.islands) merged.islands.add(island);
      for (const member of group.parts) merged.parts.add(member);
      groups.splice(groups.indexOf(group), 1);
    }
    groups.push(merged);
  }
  return groups.map(({ parts }) => [...parts]);
}

function partsOf(branches: readonly Branch[]): readonly NetworkPart[] {
  const parts = [...new Set(branches.flatMap(({ part }) => part ?? []))];
  return parts.sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1)));
}

function judge(analysis: Analysis, { states, worst }: Circulation, report: Report): boolean {
  const { loop } = worst;
  const charged = partsOf(loop.charged);
  const driving = partsOf(loop.driving);
  const where: readonly Place[] = [...charged, ...driving].map((part) => ({ part: part.part.id }));
  const facts = {
    charged: { places: charged.map((part) => ({ part: part.part.id })) },
    driving: { places: driving.map((part) => ({ part: part.part.id })) },
    current: { value: loop.current, dimension: "current" },
  } as const;
  const unknown = [...charged, ...driving].filter(({ values }) => values.choice("chemistry") === undefined);
  if (unknown.length > 0) {
    report.notChecked({
      where: where.slice(0, 1),
      reason: "unknownChemistry",
      facts,
      missing: unknown.map(({ part }) => ({ part: part.id, parameter: "chemistry" })),
    });
    return true;
  }
  const { limit, branch, missing } = weakestFor(analysis, loop);
  const [least, most] = (["highest", "lowest"] as const).map((resistances): Ampere => {
    const changed = analysis.solveChanged(worst.state, { resistances, hold: true });
    return Math.min(...loop.branches.map(({ index }) => Math.abs(changed.currents[index] ?? 0)));
  });
  if ((least ?? 0) > limit && branch !== undefined) {
    report.fails({
      message: "circulates",
      facts: { ...facts, weakest: { places: branchPlaces([branch]) }, limit: { value: limit, dimension: "current" } },
      severity: "DANGER",
      where,
      touches: branchPlaces(loop.branches),
      states,
      value: loop.current,
      limit,
      unit: "A",
    });
    return true;
  }
  if ((most ?? 0) > limit) {
    const fields = [...charged, ...driving].flatMap(({ part, values }): MissingField[] =>
      values.number("resistance") === undefined ? [{ part: part.id, parameter: "resistance" }] : [],
    );
    report.notChecked({ where: where.slice(0, 1), reason: "unknownResistance", facts, missing: fields });
    return true;
  }
  if (missing.length === 0) return false;
  report.notChecked({ where: where.slice(0, 1), reason: "unrated", facts, missing });
  return true;
}

/** A charged battery is held against its charging current, all else against what it carries. */
function weakestFor(
  analysis: Analysis,
  loop: SourceLoop,
): {
  readonly limit: Ampere;
  readonly branch: Branch | undefined;
  readonly missing: readonly MissingField[];
} {
  let limit: Ampere = Infinity;
  let weak: Branch | undefined;
  const missing: MissingField[] = [];
  for (const branch of loop.branches) {
    const { part } = branch;
    const into = part !== undefined && loop.charged.includes(branch);
    const own = into
      ? { limit: part.values.number("chargeMax"), missing: [{ part: part.part.id, parameter: "chargeMax" }] }
      : carryingLimit(analysis, branch);
    if (own === undefined) continue;
    if (own.limit === undefined) missing.push(...own.missing);
    else if (own.limit < limit) [limit, weak] = [own.limit, branch];
  }
  return { limit, branch: weak, missing };
}
