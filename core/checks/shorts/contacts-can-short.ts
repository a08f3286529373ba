import type { Analysis, Change, SolvedState } from "../../circuit/analysis.ts";
import { edgesBetween } from "../../circuit/simple-paths.ts";
import { initialState } from "../../network/build.ts";
import { REFERENCE_CONDITION } from "../../network/reference-condition.ts";
import type { Branch, BranchIndex, NetworkPart } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";
import { compareNatural } from "../../project/designation.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { Heights } from "../words/heights.ts";
import { everyState } from "../words/every-state.ts";
import { branchPlaces, partPlace } from "../words/places.ts";

export const contactsCanShort = defineCheck({
  id: "contacts-can-short",
  group: "shorts",
  title: "Two contactors that short the battery when both are closed",
  about:
    "Looks for contactors and relays that no operating state closes together and that would short a battery if they were. For each it takes the one as welded, its auxiliary contacts following, and looks whether the other still closes when its turn comes. A switch that can only choose one of them does not help against a welded contact; auxiliary contacts in each other's coil do.",
  severities: ["WARNING"],
  source: { text: "IEC 60204-1, 9.3.4: contactors that must not be closed together are interlocked", known: "memory" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "What moves a contact and which contacts stand in its way is on the drawing." },
  messages: {
    free: {
      title:
        "{one} and {other} short {source} when both are closed, and if {one} welds shut nothing keeps {other} open.",
      why: "Contacts of this kind do weld; the next change of direction then puts the whole battery through both of them, and they explode in an arc.",
      mend: "Lead the coil of {other} through a break contact of {one} that follows its metal, and the other way round, or use a changeover contactor.",
    },
  },
  reasons: {},
  foldsUnder: ["source-shorted"],
  run(analysis, report) {
    const candidates = inLoops(analysis);
    if (candidates.size < 2) return;
    const pairs = new Map<string, Pair>();
    for (const part of candidates) weld(analysis, part, candidates, pairs);
    for (const pair of pairs.values()) tell(pair, report);
  },
});

interface Pair {
  readonly welded: NetworkPart;
  readonly other: NetworkPart;
  readonly source: Branch;
  readonly states: Set<string>;
  free: boolean;
}

const METAL: ReadonlySet<Role> = new Set<Role>(["conductor", "protection", "shunt"]);

const isBattery = ({ role, part }: Branch): boolean => role === "source" && part?.kind.traits.battery === true;

/** Parts whose coil moves a contact that lies on a loop of batteries and contacts without any load. */
function inLoops(analysis: Analysis): ReadonlySet<NetworkPart> {
  const { network } = analysis;
  const metal = new DisjointSets(network.nodeCount);
  const listed: Branch[] = [];
  for (const branch of network.branches) {
    if (METAL.has(branch.role)) metal.join(branch.a, branch.b);
    else if (isBattery(branch) || branch.role === "contact") listed.push(branch);
  }
  const edges = listed.map(({ a, b }) => [metal.find(a), metal.find(b)] as const);
  const found = new Set<NetworkPart>();
  listed.forEach((source, place) => {
    const [from, to] = edges[place] ?? [0, 0];
    if (!isBattery(source) || from === to) return;
    const others = edges.map((edge, index) => (index === place ? ([from, from] as const) : edge));
    for (const index of edgesBetween(others, from, to)) {
      const part = listed[index]?.part;
      if (part?.kind.coils !== undefined) found.add(part);
    }
  });
  return found;
}

/** Contacts of a part as they stand in a state. */
function contactsIn({ network }: Analysis, state: SolvedState, part: NetworkPart): ReadonlyMap<Branch, boolean> {
  return new Map(
    network.branches
      .slice(part.firstBranch, part.firstBranch + part.branchCount)
      .flatMap((branch): [Branch, boolean][] => {
        const element = state.elements[branch.index];
        return branch.role === "contact" && element?.type === "contact" ? [[branch, element.closed]] : [];
      }),
  );
}

/** How the contacts of a part stand while its coil is in; undefined where no state pulls it in. */
function pulledIn(analysis: Analysis, part: NetworkPart): ReadonlyMap<Branch, boolean> | undefined {
  const rest = restOf(analysis, part);
  const same = (now: ReadonlyMap<Branch, boolean>): boolean =>
    [...now].every(([branch, closed]) => rest.get(branch.name) === closed);
  return everyState(analysis)
    .map((state) => contactsIn(analysis, state, part))
    .find((now) => !same(now));
}

const rests = new WeakMap<NetworkPart, ReadonlyMap<string, boolean>>();

/** How they stand with nothing energised, by name. */
function restOf({ network }: Analysis, part: NetworkPart): ReadonlyMap<string, boolean> {
  let rest = rests.get(part);
  if (rest === undefined) {
    const elements = network.elementsIn(part, {
      condition: REFERENCE_CONDITION,
      position: "",
      state: initialState(part.kind, part.values),
      motorCurrent: undefined,
    });
    rest = new Map(elements.flatMap((each) => (each.type === "contact" ? [[each.name, each.closed] as const] : [])));
    rests.set(part, rest);
  }
  return rest;
}

function weld(
  analysis: Analysis,
  part: NetworkPart,
  candidates: ReadonlySet<NetworkPart>,
  pairs: Map<string, Pair>,
): void {
  const welded = pulledIn(analysis, part);
  if (welded === undefined) return;
  const closes = [...welded].flatMap(([branch, closed]) => (closed ? [branch] : []));
  for (const state of everyState(analysis)) {
    const now = contactsIn(analysis, state, part);
    if ([...welded].every(([branch, closed]) => now.get(branch) === closed)) continue;
    const short = shortedBy(analysis, state, closes);
    if (short === undefined || shortedBy(analysis, state, []) !== undefined) continue;
    const other = partnerOf(analysis, state, part, candidates, closes);
    if (other === undefined) continue;
    const key = [part.part.id, other.part.id].sort(compareNatural).join(" ");
    const pair = pairs.get(key) ?? { welded: part, other, source: short, states: new Set<string>(), free: false };
    // The welded metal itself is left out of the circuit: a shorted battery would let the other coil drop anyway.
    const change: Change = {
      open: [...welded].flatMap(([branch, closed]): BranchIndex[] => (closed ? [] : [branch.index])),
      shorts: closes.flatMap(({ a, b }) => (inShort(analysis, state, closes, a, b) ? [] : [[a, b] as const])),
    };
    const after =
      change.open?.length === 0 && change.shorts?.length === 0 ? state : analysis.solveChanged(state, change);
    const stays = shortedBy(analysis, after, closes) !== undefined;
    if (stays && !pair.free)
      pairs.set(key, { ...pair, welded: part, other, free: true, states: new Set([state.name]) });
    else if (stays) pair.states.add(state.name);
    else if (!pairs.has(key)) pairs.set(key, pair);
  }
}

/** Two points of a battery that differ by less than this share of one block's voltage are parallel strings, not a short (common practice, no source). */
const LEAST_SHARE = 0.5;

/**
 * A battery that metal and closed contacts short: every node gets its height above others by the batteries' voltages
 * alone, and a contact that joins two heights of one battery shorts it.
 * @param closed taken as closed whatever the state says
 * @param without a part whose contacts are taken out
 */
function shortedBy(
  analysis: Analysis,
  state: SolvedState,
  closed: readonly Branch[],
  without?: NetworkPart,
): Branch | undefined {
  const { branches, nodeCount } = analysis.network;
  const heights = new Heights(nodeCount);
  const extra = new Set(closed);
  for (const { role, index, a, b } of branches) {
    const element = state.elements[index];
    if (METAL.has(role) && (element?.type !== "contact" || element.closed)) heights.join(a, b, 0);
  }
  const batteries = branches.filter(isBattery);
  let least = Infinity;
  for (const { index, a, b } of batteries) {
    const element = state.elements[index];
    if (element?.type !== "source") continue;
    least = Math.min(least, element.emf);
    heights.join(a, b, element.emf);
  }
  for (const branch of branches) {
    if (branch.role !== "contact" || branch.part === without) continue;
    const element = state.elements[branch.index];
    if (element?.type !== "contact" || (!element.closed && !extra.has(branch))) continue;
    const difference = heights.join(branch.a, branch.b, 0);
    if (Math.abs(difference) < LEAST_SHARE * least) continue;
    return batteries.find(({ a }) => heights.same(a, branch.a));
  }
  return undefined;
}

/** Does this contact lie in the loop that shorts the battery? Without it there is none. */
function inShort(analysis: Analysis, state: SolvedState, closes: readonly Branch[], a: number, b: number): boolean {
  const others = closes.filter((branch) => branch.a !== a || branch.b !== b);
  return shortedBy(analysis, state, others) === undefined;
}

/** The other one in the loop: pulled in here, and never together with the welded one in any operating state. */
function partnerOf(
  analysis: Analysis,
  state: SolvedState,
  part: NetworkPart,
  candidates: ReadonlySet<NetworkPart>,
  closes: readonly Branch[],
): NetworkPart | undefined {
  const isIn = (at: SolvedState, each: NetworkPart): boolean => {
    const rest = restOf(analysis, each);
    return [...contactsIn(analysis, at, each)].some(([branch, closed]) => rest.get(branch.name) !== closed);
  };
  return [...candidates]
    .filter((each) => each !== part && isIn(state, each))
    .filter((each) => !analysis.states.some((at) => isIn(at, part) && isIn(at, each)))
    .filter((each) => shortedBy(analysis, state, closes, each) === undefined)
    .sort((a, b) => compareNatural(a.part.id, b.part.id))[0];
}

function tell({ welded, other, source, states, free }: Pair, report: Report): void {
  const places = [welded, other].map(partPlace);
  if (!free) {
    report.passes(...places);
    return;
  }
  const where = [welded, other].sort((a, b) => compareNatural(a.part.id, b.part.id)).map(partPlace);
  const [battery] = branchPlaces([source]);
  report.fails({
    message: "free",
    facts: {
      one: { place: partPlace(welded) },
      other: { place: partPlace(other) },
      source: { place: battery ?? partPlace(welded) },
    },
    severity: "WARNING",
    where,
    states: [...states],
    touches: battery === undefined ? [] : [battery],
  });
}
