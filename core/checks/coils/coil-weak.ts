import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { Ratio, Volt } from "../../quantity/kinds.ts";
import { LOWEST_AUXILIARY, LOWEST_AUXILIARY_SOURCE } from "../../standards/coils.ts";
import { unstatedChemistry } from "../../studies/words/highest.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { placeId } from "../finding.ts";
import { coilsOf, feedersThroughResistors, statesFed } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { FEED } from "../words/joined.ts";
import { branchPlace, partPlace, terminalPlace } from "../words/places.ts";

/** A rested, full lead block of 12 V (common practice, no source), by which the blocks in a row are counted. */
const RESTED_BLOCK: Volt = 12.7;
const FEEDS: readonly Role[] = [...FEED, "resistor"];

const hotStates = new WeakMap<SolvedState, SolvedState>();

/** The state with its wires hot and everything where it stands. */
function hot(analysis: Analysis, state: SolvedState): SolvedState {
  let known = hotStates.get(state);
  if (known === undefined) {
    known = analysis.solveChanged(state, { resistances: "hot", hold: true });
    hotStates.set(state, known);
  }
  return known;
}

const isIn = (state: SolvedState, { part }: CoilAt): boolean => state.partStates[part.index]?.["coil"] === true;

/** The state with this coil's own contacts as they are before it pulls in: what they switch is not there yet. */
function fromRest(analysis: Analysis, state: SolvedState, at: CoilAt): SolvedState {
  const rest = analysis.states.find((each) => !isIn(each, at));
  if (rest === undefined || !isIn(state, at)) return hot(analysis, state);
  const open: number[] = [];
  const shorts: (readonly [number, number])[] = [];
  for (const { index, a, b, part } of analysis.network.branches) {
    const [now, then] = [state.elements[index], rest.elements[index]];
    if (part !== at.part || now?.type !== "contact" || then?.type !== "contact" || now.closed === then.closed) continue;
    if (now.closed) open.push(index);
    else shorts.push([a, b]);
  }
  return analysis.solveChanged(state, { resistances: "hot", hold: true, open, shorts });
}

/** States in which the coil has to pull in from rest: all in which it hangs, and the first in which it is in. */
function pullInStates(analysis: Analysis, at: CoilAt): readonly SolvedState[] {
  const fed = new Set(statesFed(analysis, at).throughResistors);
  const states = analysis.states.filter((state) => fed.has(state));
  const first = states.find((state) => isIn(state, at));
  return states.filter((state) => state === first || !isIn(state, at));
}

interface Supply {
  readonly pack: Pack | undefined;
  /** Lowest voltage of the pack by that in the state; 1 for a supply that keeps its voltage. */
  readonly ratio: Ratio;
  readonly lowest: Volt;
}

/** The battery behind the coil when it is nearly flat: 10.5 V for each 12 V block, a traction pack at 10 %. */
function supplyOf(analysis: Analysis, state: SolvedState, at: CoilAt): Supply | undefined {
  const feeders = feedersThroughResistors(analysis, state, at, FEED);
  const pack = analysis.packs.find(({ blocks }) => blocks.some((block) => feeders.includes(block)));
  if (pack === undefined) return feeders.length === 0 ? undefined : { pack, ratio: 1, lowest: 0 };
  const volts = state.between(pack.positive, pack.negative);
  if (!(volts > 0)) return undefined;
  const lowest =
    pack.duty === "traction" ? pack.lowest : LOWEST_AUXILIARY * Math.max(1, Math.round(pack.rest / RESTED_BLOCK));
  return { pack, ratio: Math.min(1, lowest / volts), lowest };
}

/** Behind an economiser the coil draws less once it is in: its voltage while it pulls in, by what the feed takes. */
function whilePullingIn(state: SolvedState, at: CoilAt, supplied: Volt): Volt {
  const volts = Math.abs(state.between(at.plus, at.minus));
  const pulling = at.coil.resistance;
  const { firstBranch, branchCount } = at.part;
  const element = state.elements.slice(firstBranch, firstBranch + branchCount).find(({ type }) => type === "coil");
  if (pulling === undefined || element?.type !== "coil" || element.resistance <= pulling * 1.001) return volts;
  const series = ((supplied - volts) * element.resistance) / volts;
  return series > 0 ? (supplied * pulling) / (pulling + series) : volts;
}

interface Weakest {
  readonly volts: Volt;
  readonly states: readonly SolvedState[];
  readonly supply: Supply;
}

function weakest(analysis: Analysis, at: CoilAt, pickUp: Volt): Weakest | undefined {
  let worst: Weakest | undefined;
  for (const state of pullInStates(analysis, at)) {
    const supply = supplyOf(analysis, state, at);
    if (supply === undefined) continue;
    const supplied = supply.pack === undefined ? 0 : state.between(supply.pack.positive, supply.pack.negative);
    // Warm wires at most double the drop: mostly that already tells.
    const cold = whilePullingIn(state, at, supplied);
    let volts = (supplied - 2 * (supplied - cold)) * supply.ratio;
    if (supply.pack === undefined || !(volts >= pickUp)) {
      volts = whilePullingIn(hot(analysis, state), at, supplied) * supply.ratio;
      if (volts < pickUp) volts = whilePullingIn(fromRest(analysis, state, at), at, supplied) * supply.ratio;
    }
    if (Number.isNaN(volts)) continue;
    if (worst === undefined || volts < worst.volts * (1 - 1e-6)) worst = { volts, states: [state], supply };
    else if (volts < worst.volts * (1 + 1e-3)) worst = { ...worst, states: [...worst.states, state] };
  }
  return worst;
}

/** From each side of the coil to its battery, the shorter way first. */
function waysTo(analysis: Analysis, at: CoilAt, { states, supply }: Weakest): readonly Branch[] {
  const [state] = states;
  const { pack } = supply;
  if (state === undefined || pack === undefined) return [];
  const ends = [pack.positive, pack.negative];
  return [at.plus, at.minus].flatMap((node): readonly Branch[] => {
    const found = ends
      .map((end) => analysis.path(state, node, end, { through: FEEDS }))
      .filter((way) => way !== undefined)
      .sort((a, b) => a.length - b.length);
    return found[0] ?? [];
  });
}

/** Wires between the coil and its battery of which length or size is assumed. */
function assumedOn(analysis: Analysis, at: CoilAt, worst: Weakest): readonly MissingField[] {
  if (analysis.network.conductors.every(({ assumed }) => assumed.length === 0)) return [];
  return waysTo(analysis, at, worst).flatMap(({ conductor }) =>
    (conductor?.assumed ?? []).map((field): MissingField => ({ wire: conductor?.wire.id ?? "", field })),
  );
}

interface Taking {
  readonly place: Place;
  readonly volts: Volt;
}

/** What takes the most voltage between the coil and its battery: the wire, fuse, contact or resistor to look at. */
function takingMost(analysis: Analysis, at: CoilAt, worst: Weakest): Taking | undefined {
  const [state] = worst.states;
  if (state === undefined) return undefined;
  const pulling = fromRest(analysis, state, at);
  const taken = new Map<string, Taking>();
  for (const branch of waysTo(analysis, at, worst)) {
    const place = branchPlace(branch);
    if (place === undefined) continue;
    const volts = Math.abs(pulling.between(branch.a, branch.b)) * worst.supply.ratio;
    const key = placeId(place);
    taken.set(key, { place, volts: volts + (taken.get(key)?.volts ?? 0) });
  }
  return [...taken.values()].sort((a, b) => b.volts - a.volts)[0];
}

function unratedFields({ part, coil }: CoilAt): readonly MissingField[] {
  const field = (parameter: string): MissingField => ({ part: part.part.id, parameter });
  if (coil.nominal === undefined) return [field("coilVoltage")];
  return coil.pickUp === undefined ? [field("pickUp")] : [];
}

function fail(analysis: Analysis, at: CoilAt, worst: Weakest, pickUp: Volt, report: Report): void {
  const { part, coil } = at;
  const { pack, lowest } = worst.supply;
  const [state] = worst.states;
  const feeders = state === undefined ? [] : feedersThroughResistors(analysis, state, at, FEED);
  const sources = feeders.map(partPlace);
  const taking = pack === undefined || lowest < pickUp ? undefined : takingMost(analysis, at, worst);
  const most = taking?.place;
  report.fails({
    message: pack === undefined ? "supply" : taking === undefined ? "flat" : "battery",
    severity: "WARNING",
    facts: {
      part: { place: partPlace(part) },
      volts: { value: worst.volts, dimension: "voltage" },
      limit: { value: pickUp, dimension: "voltage" },
      lowest: { value: lowest, dimension: "voltage" },
      ...(taking === undefined
        ? {}
        : { most: { place: taking.place }, taken: { value: taking.volts, dimension: "voltage" } }),
    },
    where: [terminalPlace(part, coil.plus), terminalPlace(part, coil.minus)],
    touches: [...sources, ...(most === undefined ? [] : [most])],
    // What one wire or joint, or a supply that is too low by itself, takes from several coils is mended at one place.
    cause: (most === undefined ? sources : [most]).map(placeId).sort().join(" "),
    states: worst.states.map(({ name }) => name),
    value: worst.volts,
    limit: pickUp,
    unit: "V",
  });
}

function look(analysis: Analysis, report: Report, at: CoilAt): void {
  const { part, coil } = at;
  const place = terminalPlace(part, coil.plus);
  const facts = { part: { place: partPlace(part) } } as const;
  if (statesFed(analysis, at).throughResistors.length === 0) {
    report.doesNotApply(place);
    return;
  }
  if (coil.pickUp === undefined) {
    report.notChecked({ where: [place], reason: "unrated", facts, missing: unratedFields(at) });
    return;
  }
  const worst = weakest(analysis, at, coil.pickUp);
  if (worst === undefined) {
    report.doesNotApply(place);
    return;
  }
  const { pack } = worst.supply;
  if (worst.volts < coil.pickUp) {
    fail(analysis, at, worst, coil.pickUp, report);
    return;
  }
  const assumed = assumedOn(analysis, at, worst);
  const chemistry = pack?.duty === "traction" ? unstatedChemistry([pack]) : [];
  if (coil.resistance === undefined) {
    const parameter = "coilPower" in part.kind.parameters ? "coilPower" : "coilResistance";
    report.notChecked({ where: [place], reason: "current", facts, missing: [{ part: part.part.id, parameter }] });
  } else if (assumed.length > 0) report.notChecked({ where: [place], reason: "wires", facts, missing: assumed });
  else if (chemistry.length > 0) report.notChecked({ where: [place], reason: "chemistry", facts, missing: chemistry });
  else report.passes(place);
}

export const coilWeak = defineCheck({
  id: "coil-weak",
  group: "coils",
  title: "Coil too weak to pull in",
  about:
    "Looks at every coil in the states in which it has to pull in from rest, with its battery nearly flat (10.5 V for each 12 V block, a traction pack at 10 %) and its wires warm, and holds the voltage that is left against its pick-up. " +
    "The drop in wires, joints, fuses and resistors of the feed and of what shares it is counted; that a warm coil needs more than a cold one is not.",
  severities: ["WARNING"],
  source: LOWEST_AUXILIARY_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    battery: {
      title: "With its battery down to {lowest} the coil of {part} gets {volts}; it needs {limit} to pull in.",
      why: "The contactor or relay then stays out or hangs half closed, so that its contact arcs and welds, and the vehicle stands on a cold morning.",
      mend: "Look at {most}, which takes the most on the way to this coil ({taken}): for a bad joint, a thin or long wire, another load; or fit a coil that pulls in on less.",
    },
    flat: {
      title: "With its battery down to {lowest} the coil of {part} gets {volts}; it needs {limit} to pull in.",
      why: "The contactor or relay then stays out or hangs half closed, so that its contact arcs and welds, and the vehicle stands on a cold morning.",
      mend: "Fit a coil that pulls in on {lowest}, less what the wires take: even the shortest wire does not give this one enough.",
    },
    supply: {
      title: "The coil of {part} gets {volts} from its supply; it needs {limit} to pull in.",
      why: "The contactor or relay then stays out or hangs half closed, so that its contact arcs and welds.",
      mend: "Find what takes the voltage on the way to this coil: a bad joint, a long thin wire, a resistor, another load; or fit a coil that pulls in on less.",
    },
  },
  reasons: {
    unrated: "At what voltage the coil of {part} pulls in is not stated.",
    current: "What the coil of {part} draws is not stated, so that the drop in its feed is not known.",
    wires: "The coil of {part} is fed by wires of which length or size is not stated.",
    chemistry: "How low the voltage of {part} falls is not known while the chemistry of the battery is not stated.",
  },
  foldsUnder: ["coil-voltage-wrong", "supply-reversed", "block-reversed", "source-shorted", "structure-as-return"],
  run(analysis, report) {
    for (const at of coilsOf(analysis)) look(analysis, report, at);
  },
});
