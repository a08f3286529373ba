import { closedIslands } from "../../network/strings.ts";
import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { Place, Remedy, Report } from "../define.ts";
import { isTraction } from "../../studies/words/belongs.ts";
import { closedAnyway } from "../words/closed-anyway.ts";
import { everyState } from "../words/every-state.ts";
import { terminalPlace } from "../words/places.ts";
import { sortTaps } from "../remedies/sort-taps.ts";
import { swapLabel, swapWires } from "../remedies/swap-wires.ts";
import type { Swap } from "../remedies/swap-wires.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";

/** A silicon diode inside holds a reversed supply at about -0.7 V, so that the limit must lie well above that. */
const LIMIT: Volt = -0.3;
/** What leaks and measuring inputs can drive stays below this. */
const LEAST: Ampere = 1e-3;

interface Reversed {
  readonly at: PairAt;
  readonly states: readonly string[];
  readonly worst: Volt;
  /** Largest current of a diode inside the part that the reversal drives; 0 if there is none. */
  readonly through: Ampere;
}

export const supplyReversed = defineCheck({
  id: "supply-reversed",
  group: "polarity",
  title: "Supply the wrong way round",
  about:
    "Looks at every supply that must not be reversed (controllers, converters, chargers, electronics, coils with a diode inside, taps of a battery monitor) in every operating state, with each control flipped once, and as if a main contactor that never closes were closed. A plain coil, a motor and the measuring inputs of meters may lie either way and are left out. It cannot see a plug that somebody mates the wrong way round.",
  severities: ["DANGER", "WARNING"],
  source: {
    text: "Limit of -0.3 V: less than the forward drop of a silicon diode, common practice",
    known: "none",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    reversed: {
      title: "{terminals} of {part} are fed the wrong way round: {volts} instead of plus.",
      why: "Electronics that get plus and minus swapped conduct where they should block, and are usually destroyed within a moment.",
      mend: "Swap the two wires at {terminals}, or find where plus and minus change places on their way there, before anything is connected.",
    },
    throughDiode: {
      title: "{terminals} of {part} are fed the wrong way round: {current} flow through the diodes inside it.",
      why: "With plus and minus swapped the transistors of {part} conduct like a piece of wire across the battery, so that it burns before a fuse can clear.",
      mend: "Swap the two wires at {terminals}; to make a motor turn the other way swap the two leads of its field instead, never those of the pack.",
    },
    source: {
      title: "Everything on one feed gets plus and minus swapped: {parts}, {volts} instead of plus.",
      why: "All that hangs on this feed is reversed, so the mistake lies at its source; electronics fed the wrong way round are usually destroyed within a moment.",
      mend: "Swap the two leads where the feed of {parts} begins, at the battery or at the first connector, before anything is connected.",
    },
    taps: {
      title: "The taps of {part} read {volts} for a cell: the tap wires run in the wrong order at {terminals}.",
      why: "Each tap must stand higher than the one before it; a negative cell voltage drives current through the inputs of the monitor and destroys it.",
      mend: "Unplug the tap wires, sort them so that tap-0 sits at the lowest minus and every next tap one cell higher, and measure them before plugging in.",
    },
  },
  reasons: {
    polarityUnknown:
      "{part} gets minus at {terminal} ({volts}), and nobody stated whether it has to be the right way round.",
  },
  foldsUnder: ["isolated-returns-joined"],
  run(analysis, report) {
    const pairs = supplyPairs(analysis.network).filter(({ pair }) => pair.polarised);
    const reversed: Reversed[] = [];
    const sound: PairAt[] = [];
    for (const at of pairs) {
      if (!at.wired) {
        report.doesNotApply(terminalPlace(at.part, at.pair.plus));
        continue;
      }
      const found = lookAt(analysis, at);
      if (found === undefined) sound.push(at);
      else reversed.push(found);
    }
    for (const at of supplyPairs(analysis.network)) {
      const { undecided } = at.pair;
      if (undecided === undefined || !at.wired) continue;
      const found = lookAt(analysis, at);
      const plus = terminalPlace(at.part, at.pair.plus);
      if (found === undefined) report.doesNotApply(plus);
      else
        report.notChecked({
          where: [plus],
          reason: "polarityUnknown",
          facts: {
            part: { place: { part: at.part.part.id } },
            terminal: { place: plus },
            volts: { value: found.worst, dimension: "voltage" },
          },
          missing: [{ part: at.part.part.id, parameter: undecided }],
        });
    }
    for (const at of sound) report.passes(terminalPlace(at.part, at.pair.plus));
    for (const group of grouped(analysis, causes(analysis, reversed), sound)) fail(analysis, group, report);
  },
});

function lookAt(analysis: Analysis, at: PairAt): Reversed | undefined {
  const states: string[] = [];
  let worst: Volt = 0;
  let through: Ampere = 0;
  let proven = false;
  const look = (state: SolvedState, name: string): void => {
    const volts = state.between(at.plus, at.minus);
    // A floating pair has no voltage (NaN) and is not reversed.
    if (!(volts < LIMIT)) return;
    proven ||= drives(analysis, state, at);
    if (!proven) return;
    states.push(name);
    worst = Math.min(worst, volts);
    through = Math.max(through, diodeCurrent(analysis, state, at));
  };
  for (const state of everyState(analysis)) look(state, state.name);
  for (const { state, name } of closedAnyway(analysis)) look(state, name);
  return states.length === 0 ? undefined : { at, states, worst, through };
}

/** Could it drive a current through a dead short from minus to plus? Asked of the circuit, with everything held as it stands. */
function drives(analysis: Analysis, state: SolvedState, at: PairAt): boolean {
  const { shortCurrents } = analysis.solveChanged(state, { shorts: [[at.minus, at.plus]], hold: true });
  return Math.abs(shortCurrents[shortCurrents.length - 1] ?? 0) > LEAST;
}

/** Current of diodes of this part that lie from minus to plus. */
function diodeCurrent(analysis: Analysis, state: SolvedState, { part, plus, minus }: PairAt): Ampere {
  let sum = 0;
  for (let index = part.firstBranch; index < part.firstBranch + part.branchCount; index += 1) {
    const branch = analysis.network.branches[index];
    if (branch?.role !== "diode" || branch.a !== minus || branch.b !== plus) continue;
    sum += Math.abs(state.currents[index] ?? 0);
  }
  return sum;
}

/**
 * Without what is reversed only because a charger or converter, itself reversed, is left alone on the bus when a hand
 * opens the pack's lead: mending that output mends these as well.
 */
function causes(analysis: Analysis, reversed: readonly Reversed[]): readonly Reversed[] {
  const outputs = reversed.filter(({ at }) => at.pair.direction === "output");
  if (outputs.length === 0) return reversed;
  const asDriven = new Set([...analysis.states, ...closedAnyway(analysis)].map(({ name }) => name));
  const feed = feedOf(analysis);
  const fedBy = new Set(outputs.map(({ at }) => feed(at)));
  return reversed.filter(
    ({ at, states }) =>
      at.pair.direction === "output" || !fedBy.has(feed(at)) || states.some((name) => asDriven.has(name)),
  );
}

/** The feed of a pair: the two islands of metal, every contact taken as closed, that it lies between. */
function feedOf(analysis: Analysis): (at: PairAt) => string {
  const islands = closedIslands(analysis.network.nodeCount, analysis.network.branches);
  return ({ plus, minus }) => [islands[plus] ?? plus, islands[minus] ?? minus].sort((a, b) => a - b).join(" ");
}

/** One part, one finding; and one for all parts of a feed on which nothing is the right way round. */
function grouped(
  analysis: Analysis,
  reversed: readonly Reversed[],
  sound: readonly PairAt[],
): readonly (readonly Reversed[])[] {
  if (reversed.length === 0) return [];
  const feed = feedOf(analysis);
  const soundFeeds = new Set(sound.map(feed));
  const groups = new Map<string, Reversed[]>();
  for (const each of reversed) {
    const own = feed(each.at);
    const others = new Set(reversed.filter(({ at }) => feed(at) === own).map(({ at }) => at.part));
    const together = others.size > 1 && !soundFeeds.has(own);
    const key = together ? `feed ${own}` : `part ${each.at.part.part.id}`;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return withBranches(analysis, groups);
}

/**
 * A part that hangs on one side of a feed turned round, with its other terminal on an output, is turned round with
 * the feed: swapping its own wires would leave it the wrong way round once the feed is mended.
 */
function withBranches(
  analysis: Analysis,
  groups: ReadonlyMap<string, readonly Reversed[]>,
): readonly (readonly Reversed[])[] {
  const islands = closedIslands(analysis.network.nodeCount, analysis.network.branches);
  const sides = ([each]: readonly Reversed[]): readonly (number | undefined)[] =>
    each === undefined ? [] : [islands[each.at.plus], islands[each.at.minus]];
  const feeds = [...groups].filter(([key]) => key.startsWith("feed")).map(([, group]) => [...group]);
  const alone: (readonly Reversed[])[] = [];
  for (const [key, group] of groups) {
    if (key.startsWith("feed")) continue;
    const [plus, minus] = sides(group);
    const feed = feeds.find((each) => {
      const [a, b] = sides(each);
      return group.length === 1 && (a === plus || b === minus);
    });
    if (feed === undefined) alone.push(group);
    else feed.push(...group);
  }
  return [...feeds, ...alone];
}

function fail(analysis: Analysis, group: readonly Reversed[], report: Report): void {
  const sorted = [...group].sort((a, b) => idNumber(a) - idNumber(b));
  const [first] = sorted;
  if (first === undefined) return;
  const { part, pair } = first.at;
  const parts = [...new Set(sorted.map(({ at }) => at.part))];
  const terminals = sorted.flatMap(({ at }): Place[] => [
    terminalPlace(at.part, at.pair.plus),
    terminalPlace(at.part, at.pair.minus),
  ]);
  const worst = Math.min(...sorted.map((each) => each.worst));
  const through = Math.max(...sorted.map((each) => each.through));
  const traction = sorted.some(({ at }) => isTraction(analysis, at.plus) || isTraction(analysis, at.minus));
  const taps = parts.length === 1 && part.kind.traits.monitor === true && !pair.main && sorted.every(isTap);
  const message = parts.length > 1 ? "source" : taps ? "taps" : through > LEAST ? "throughDiode" : "reversed";
  report.fails({
    message,
    facts: {
      part: { place: { part: part.part.id } },
      parts: { places: parts.map((each) => ({ part: each.part.id })) },
      terminals: { places: uniquePlaces(terminals) },
      volts: { value: worst, dimension: "voltage" },
      current: { value: through, dimension: "current" },
    },
    severity: traction ? "DANGER" : "WARNING",
    where: uniquePlaces(terminals),
    touches: [...parts.map((each) => ({ part: each.part.id })), ...wiresOf(analysis, sorted)],
    states: [...new Set(sorted.flatMap(({ states }) => states))],
    value: worst,
    limit: LIMIT,
    unit: "V",
    remedies:
      message === "taps"
        ? tapRemedies(analysis, first)
        : parts.length > 1
          ? turnedAtSource(analysis, sorted)
          : turnedAtPart(analysis, sorted),
  });
}

function tapRemedies(analysis: Analysis, { at }: Reversed): readonly Remedy[] {
  const row = at.part.terminals.find(({ id }) => id === at.pair.plus)?.row;
  const solved = analysis.state("stored") ?? analysis.states[0];
  return row === undefined || solved === undefined ? [] : sortTaps(analysis.network, solved, at.part, row);
}

/** Offered where the two terminals serve no other pair of the part, which a swap would turn round in its place. */
function turnedAtPart({ network }: Analysis, group: readonly Reversed[]): readonly Remedy[] {
  const [first, ...others] = group;
  if (first === undefined || others.length > 0) return [];
  const { part, pair } = first.at;
  const shared = part.kind
    .supplyPairs(part.values)
    .filter(({ plus, minus }) => [plus, minus].some((each) => each === pair.plus || each === pair.minus));
  if (shared.length > 1) return [];
  const swap: Swap = [
    [part.part.id, pair.plus],
    [part.part.id, pair.minus],
  ];
  return swapWires(network, [swap], swapLabel(network, swap));
}

/** Offered where the feed has one source: a pack of one string, whose two leads are swapped at its ends. */
function turnedAtSource(analysis: Analysis, group: readonly Reversed[]): readonly Remedy[] {
  const { network, packs } = analysis;
  const islands = closedIslands(network.nodeCount, network.branches);
  const at = (node: number): number => islands[node] ?? node;
  const own = packs.filter(({ positive, negative }) =>
    group.some(({ at: { plus, minus } }) => at(positive) === at(minus) && at(negative) === at(plus)),
  );
  const [pack, ...others] = own;
  if (pack === undefined || others.length > 0) return [];
  const poles = [pack.positive, pack.negative].map((node) => network.terminalOfNode[node]);
  const [plus, minus] = poles;
  const alone = supplyPairs(network).filter(
    ({ part, plus: a, minus: b }) =>
      part.kind.traits.battery === true && (at(a) === at(pack.positive) || at(b) === at(pack.negative)),
  );
  if (plus === undefined || minus === undefined || alone.length > 2) return [];
  const swap: Swap = [plus, minus];
  return swapWires(network, [swap], swapLabel(network, swap));
}

const idNumber = ({ at }: Reversed): number => Number(at.part.part.id.slice(1));

/** A pair of neighbouring taps: both ends are pins of one row. */
function isTap({ at }: Reversed): boolean {
  const row = (id: string): string | undefined => at.part.terminals.find((terminal) => terminal.id === id)?.row;
  return row(at.pair.plus) !== undefined && row(at.pair.plus) === row(at.pair.minus);
}

function uniquePlaces(places: readonly Place[]): readonly Place[] {
  const seen = new Map(places.map((place) => [JSON.stringify(place), place]));
  return [...seen.values()];
}

function wiresOf(analysis: Analysis, group: readonly Reversed[]): readonly Place[] {
  return group.flatMap(({ at }) =>
    [at.pair.plus, at.pair.minus].flatMap((terminal) =>
      analysis.network.wiresAt([at.part.part.id, terminal]).map(({ id }) => ({ wire: id })),
    ),
  );
}
