import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { barriersOf } from "../../circuit/barriers.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";
import { compareNatural } from "../../project/designation.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { isTraction } from "../../studies/words/belongs.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { METAL } from "../words/joined.ts";
import { branchPlaces, partPlace, terminalPlace } from "../words/places.ts";

const THROUGH: readonly Role[] = [...METAL];

/** A part with a supply of its own and a reference elsewhere: gauge, display, monitor. */
interface Instrument {
  readonly part: NetworkPart;
  /** Where it measures: the terminal that is one metal with its supply's return, or may be. */
  readonly reference: string;
  readonly referenceNode: NodeIndex;
  readonly returnNode: NodeIndex;
  /** undefined: nobody stated whether the two are parted. */
  readonly tied: boolean | undefined;
  readonly missing: MissingField;
}

const RETURN = "supply-";

function instruments(analysis: Analysis): readonly Instrument[] {
  const isWired = (part: NetworkPart, id: string): boolean => analysis.network.wiresAt([part.part.id, id]).length > 0;
  return analysis.network.parts
    .flatMap((part): Instrument[] => {
      const barrier = barriersOf(part).find(({ sides: [own] }) => own.includes(RETURN));
      const reference = barrier?.breaks.find(([, back]) => back === RETURN)?.[0];
      if (barrier === undefined || reference === undefined) return [];
      const [referenceNode, returnNode] = [part.nodes.get(reference), part.nodes.get(RETURN)];
      if (referenceNode === undefined || returnNode === undefined) return [];
      if (!isWired(part, reference) || !isWired(part, RETURN)) return [];
      const choice = part.values.choice(barrier.parameter);
      const tied = choice === undefined ? undefined : barrier.joined.includes(choice);
      if (tied === false) return [];
      const missing = { part: part.part.id, parameter: barrier.parameter };
      return [{ part, reference, referenceNode, returnNode, tied, missing }];
    })
    .sort((a, b) => compareNatural(a.part.part.id, b.part.part.id));
}

/** What metal joins in a state, the ties inside these instruments left out. */
function joinedBeside(analysis: Analysis, state: SolvedState, all: readonly Instrument[]): DisjointSets {
  const { branches, nodeCount } = analysis.network;
  const parts = new Set(all.map(({ part }) => part));
  const sets = new DisjointSets(nodeCount);
  for (const { index, a, b, role, part } of branches) {
    if (!METAL.has(role) || (part !== undefined && parts.has(part))) continue;
    if (state.conducting[index] === 1) sets.join(a, b);
  }
  return sets;
}

/** Islands that a source or the chassis holds at a potential. */
function heldIslands(analysis: Analysis, sets: DisjointSets): ReadonlySet<number> {
  const held = new Set([sets.find(CHASSIS_NODE)]);
  for (const { a, b, role } of analysis.network.branches) {
    if (role === "source") held.add(sets.find(a)).add(sets.find(b));
  }
  return held;
}

interface Clash {
  /** All that share one supply, and of them one for each potential. */
  readonly sharing: readonly Instrument[];
  readonly apart: readonly Instrument[];
}

/** Instruments on one supply whose references lie on different potentials in this state. */
function clashesIn(analysis: Analysis, state: SolvedState, all: readonly Instrument[]): readonly Clash[] {
  const sets = joinedBeside(analysis, state, all);
  const held = heldIslands(analysis, sets);
  const bySupply = new Map<number, Instrument[]>();
  for (const each of all) {
    const supply = sets.find(each.returnNode);
    bySupply.set(supply, [...(bySupply.get(supply) ?? []), each]);
  }
  return [...bySupply.values()].flatMap((sharing): Clash[] => {
    const byPotential = new Map<number, Instrument>();
    for (const each of sharing) {
      const island = sets.find(each.referenceNode);
      // What hangs on this instrument alone goes where its supply goes.
      if (held.has(island) && island !== sets.find(each.returnNode) && !byPotential.has(island)) {
        byPotential.set(island, each);
      }
    }
    return byPotential.size > 1 ? [{ sharing, apart: [...byPotential.values()] }] : [];
  });
}

const keyOf = (clash: Clash): string => clash.sharing.map(({ part }) => part.part.id).join(" ");

function clashes(analysis: Analysis, all: readonly Instrument[]): readonly Clash[] {
  if (all.length < 2) return [];
  const found = new Map<string, Clash>();
  for (const state of analysis.states) {
    for (const clash of clashesIn(analysis, state, all)) {
      const known = found.get(keyOf(clash));
      if (known === undefined || clash.apart.length > known.apart.length) found.set(keyOf(clash), clash);
    }
  }
  return [...found.values()];
}

/** Reports the clashes; gives the instruments that they settle. */
function lookAtInstruments(analysis: Analysis, report: Report): ReadonlySet<NetworkPart> {
  const all = instruments(analysis);
  const settled = new Set<NetworkPart>();
  const sure = clashes(
    analysis,
    all.filter(({ tied }) => tied === true),
  );
  for (const { sharing, apart } of sure) {
    for (const { part } of sharing) settled.add(part);
    const places = apart.map(({ part, reference }) => terminalPlace(part, reference));
    report.fails({
      message: "instruments",
      severity: "WARNING",
      facts: { instruments: { places: sharing.map(({ part }) => partPlace(part)) }, references: { places } },
      where: places,
      touches: sharing.map(({ part }) => partPlace(part)),
      variant: "instruments",
    });
  }
  for (const { sharing } of clashes(analysis, all)) {
    const open = sharing.filter(({ part, tied }) => tied === undefined && !settled.has(part));
    const [first] = open;
    if (first === undefined) continue;
    for (const { part } of sharing) settled.add(part);
    report.notChecked({
      where: [partPlace(first.part)],
      reason: "instrument",
      facts: { instruments: { places: sharing.map(({ part }) => partPlace(part)) } },
      missing: open.map(({ missing }) => missing),
    });
  }
  for (const { part, tied } of all) {
    if (settled.has(part)) continue;
    if (tied === true) report.passes(partPlace(part));
    else report.doesNotApply(partPlace(part));
  }
  return settled;
}

/** A way by metal from one side of a converter to the other that does not lead through it. */
function wayRound(analysis: Analysis, part: NetworkPart): readonly Branch[] | undefined {
  const without = Array.from({ length: part.branchCount }, (_, place) => part.firstBranch + place);
  for (const state of analysis.states) {
    for (const from of ["out-", "out+"]) {
      for (const to of ["in-", "in+"]) {
        const [a, b] = [part.nodes.get(from), part.nodes.get(to)];
        if (a === undefined || b === undefined) continue;
        const way = analysis.path(state, a, b, { through: THROUGH, without });
        if (way !== undefined) return way;
      }
    }
  }
  return undefined;
}

function lookAtConverter(
  analysis: Analysis,
  report: Report,
  part: NetworkPart,
  settled: ReadonlySet<NetworkPart>,
): void {
  const place = terminalPlace(part, "out-");
  const isolated = part.values.choice("isolated");
  const input = part.nodes.get("in-");
  // That the pack is joined to the 12 V side or the chassis is said by the checks for that.
  if (isolated === "no" || input === undefined || isTraction(analysis, input)) {
    report.doesNotApply(place);
    return;
  }
  const way = wayRound(analysis, part);
  if (way === undefined) {
    if (isolated === "yes") report.passes(place);
    else report.doesNotApply(place);
    return;
  }
  if (way.some((branch) => branch.part !== undefined && settled.has(branch.part))) {
    report.doesNotApply(place);
    return;
  }
  const facts = { part: { place: partPlace(part) }, way: { places: branchPlaces(way) } } as const;
  if (isolated === undefined) {
    const missing = [{ part: part.part.id, parameter: "isolated" }];
    report.notChecked({ where: [place], reason: "converter", facts, missing });
    return;
  }
  report.fails({
    message: "converter",
    severity: "WARNING",
    facts,
    where: [place, ...branchPlaces(way)],
    variant: "converter",
  });
}

export const isolatedReturnsJoined = defineCheck({
  id: "isolated-returns-joined",
  group: "shock",
  title: "Isolated supply joined round its isolation",
  about:
    "Looks for two arrangements. An isolated converter whose two sides are joined by wires, the chassis or a part elsewhere, so that its isolation does nothing; and several instruments without isolation on one supply that measure at different potentials, which are then joined through them. " +
    "Joins between the traction pack and the 12 V side or the chassis have checks of their own.",
  severities: ["WARNING"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    converter: {
      title: "The two sides of the isolated converter {part} are joined elsewhere: {way}.",
      why: "What was to float does not: currents return by ways that nobody meant, and a voltage between the two grounds goes through thin wires and inputs and destroys them.",
      mend: "Take the join away so that the output of {part} has no wire to its input's side, or use a converter without isolation if none is needed.",
    },
    instruments: {
      title:
        "{instruments} share one supply and are not isolated, but measure at points of different voltage: {references} are joined through them.",
      why: "Inside each of them the supply's minus is one metal with the measuring minus, so that the voltage between the places of measurement stands as a short circuit across the instruments.",
      mend: "Give each of them an isolated converter of its own, use isolated instruments, or take all their measuring minus wires to one point.",
    },
  },
  reasons: {
    converter:
      "The two sides of {part} are joined elsewhere ({way}); whether it is meant to isolate them is not stated.",
    instrument:
      "{instruments} share one supply and measure at points of different voltage; whether all of them are isolated is not stated.",
  },
  run(analysis, report) {
    if (analysis.network.project.sharedNegative === true) return;
    const settled = lookAtInstruments(analysis, report);
    for (const part of analysis.network.parts) {
      if (part.kind.traits.converter === true) lookAtConverter(analysis, report, part, settled);
    }
  },
});
