import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Ampere } from "../../quantity/kinds.ts";
import { AMPACITY_SOURCE } from "../../standards/ampacity.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { LARGEST_LISTED, weakest } from "../words/carrying-limit.ts";
import { closedAnyway } from "../words/closed-anyway.ts";
import { everyState } from "../words/every-state.ts";
import { branchPlaces } from "../words/places.ts";
import { sourceLoops } from "../words/source-loops.ts";
import type { SourceLoop } from "../words/source-loops.ts";

/** Loops that share a wire, a contact or a source, over all states: one mistake, told once. */
interface Short {
  readonly states: Set<string>;
  readonly branches: Set<Branch>;
  /** The loop of the largest current with its state, to be solved again at both ends of a battery's resistance. */
  readonly worst: { readonly state: SolvedState; readonly loop: SourceLoop };
}

export const sourceShorted = defineCheck({
  id: "source-shorted",
  group: "shorts",
  title: "Battery shorted",
  about:
    "Follows the current of every battery and supply round, in every operating state, with each control flipped once, and as if a main contactor that never closes were closed. It fires when the current comes back without having passed a load and is more than a wire, fuse or contact on its way may carry. One battery that charges another is looked at by strings-unequal.",
  severities: ["DANGER"],
  source: AMPACITY_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    shorted: {
      title:
        "{current} flow from {sources} round a loop with no load in it, through {loop}; {weakest} may carry {limit}.",
      why: "Nothing but the wires themselves holds this current back, so that they glow, the battery may burst and a fire starts within seconds.",
      mend: "Open the loop before any battery is connected: take off the wire in it that does not belong there, or move it to the terminal it was meant for.",
    },
  },
  reasons: {
    unrated: "{sources} drive {current} round a loop without a load; whether its parts carry that is not stated.",
    unknownResistance:
      "{sources} drive a current round a loop without a load that may or may not be too much, as their internal resistance is not stated.",
  },
  foldsUnder: ["isolated-returns-joined", "supply-reversed", "diode-reversed", "string-tap"],
  run(analysis, report) {
    const shorts: Short[] = [];
    const look = (state: SolvedState, name: string, loops: readonly SourceLoop[]): void => {
      for (const loop of loops) {
        const met = shorts.filter(({ branches }) => loop.branches.some((branch) => branches.has(branch)));
        for (const known of met) shorts.splice(shorts.indexOf(known), 1);
        const all = [...met, { states: new Set([name]), branches: new Set(loop.branches), worst: { state, loop } }];
        shorts.push({
          states: new Set(all.flatMap(({ states }) => [...states])),
          branches: new Set(all.flatMap(({ branches }) => [...branches])),
          worst: all.map(({ worst }) => worst).reduce((a, b) => (b.loop.current > a.loop.current * 1.000001 ? b : a)),
        });
      }
    };
    for (const state of everyState(analysis)) look(state, state.name, sourceLoops(analysis, state, false));
    for (const { state, name, joints } of closedAnyway(analysis))
      look(state, name, sourceLoops(analysis, state, false, joints));

    const inLoop = new Set<NetworkPart>();
    for (const short of shorts) {
      if (!judge(analysis, short, report)) continue;
      for (const { role, part } of short.branches) if (role === "source" && part !== undefined) inLoop.add(part);
    }
    for (const part of sourceParts(analysis)) if (!inLoop.has(part)) report.passes({ part: part.part.id });
  },
});

/** Every part that is a source of the vehicle. */
function sourceParts(analysis: Analysis): readonly NetworkPart[] {
  const parts = analysis.network.branches.flatMap(({ role, part }) =>
    role === "source" && part !== undefined ? [part] : [],
  );
  return [...new Set(parts)];
}

function sourcesOf(loop: SourceLoop): readonly NetworkPart[] {
  const parts = [...new Set(loop.driving.flatMap(({ part }) => part ?? []))];
  return parts.sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1)));
}

/** True where it was reported, as a failure or as not checked. */
function judge(analysis: Analysis, short: Short, report: Report): boolean {
  const { branches } = short.worst.loop;
  const rated = weakest(analysis, branches);
  const unsized = branches.find(({ conductor }) => conductor !== undefined && conductor.wire.size == null);
  // A wire of unstated size is held against the thickest in the table: what that does not carry no wire of a drawing does.
  const byTable = unsized !== undefined && rated.limit > LARGEST_LISTED.amperes;
  const limit = byTable ? LARGEST_LISTED.amperes : rated.limit;
  const weak = byTable ? unsized : rated.branch;
  const sources = sourcesOf(short.worst.loop);
  const current = short.worst.loop.current;
  const [least, most] = currentsAtBothEnds(analysis, short);
  const places = branchPlaces(branches);
  const where: readonly Place[] = [
    ...sources.map((part) => ({ part: part.part.id })),
    ...places.filter((place) => !("part" in place && sources.some((part) => part.part.id === place.part))),
  ];
  const facts = {
    sources: { places: sources.map((part) => ({ part: part.part.id })) },
    current: { value: current, dimension: "current" },
  } as const;
  if (least > limit && weak !== undefined) {
    report.fails({
      message: "shorted",
      facts: {
        ...facts,
        loop: { places },
        weakest: { places: branchPlaces([weak]) },
        limit: { value: limit, dimension: "current" },
      },
      severity: "DANGER",
      where,
      touches: branchPlaces([...short.branches]),
      states: [...short.states],
      value: current,
      limit,
      unit: "A",
    });
    return true;
  }
  const head = where.slice(0, 1);
  if (most > limit) {
    const missing = sources.flatMap(({ part, values }): MissingField[] =>
      values.number("resistance") === undefined ? [{ part: part.id, parameter: "resistance" }] : [],
    );
    report.notChecked({ where: head, reason: "unknownResistance", facts, missing });
    return true;
  }
  if (rated.missing.length === 0) return false;
  report.notChecked({ where: head, reason: "unrated", facts, missing: rated.missing });
  return true;
}

/** The loop's current with internal resistances at the highest and at the lowest of what is known. */
function currentsAtBothEnds(analysis: Analysis, { worst }: Short): readonly [least: Ampere, most: Ampere] {
  const [first] = worst.loop.branches;
  if (first === undefined) return [worst.loop.current, worst.loop.current];
  const at = (resistances: "highest" | "lowest"): Ampere => {
    const changed = analysis.solveChanged(worst.state, { resistances, hold: true });
    return smallest(changed, worst.loop.branches, worst.loop.current);
  };
  return [at("highest"), at("lowest")];
}

/** The smallest current of the loop's own branches; a contact taken as closed carries what its neighbours do. */
function smallest(state: SolvedState, branches: readonly Branch[], otherwise: Ampere): Ampere {
  const currents = branches
    .filter(({ index }) => state.conducting[index] === 1)
    .map(({ index }) => Math.abs(state.currents[index] ?? 0));
  return currents.length === 0 ? otherwise : Math.min(...currents);
}
