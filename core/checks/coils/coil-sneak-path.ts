import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { neighbours } from "../../circuit/paths.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import type { DisjointSets } from "../../network/sets.ts";
import type { Role } from "../../parts/element.ts";
import { compareNatural } from "../../project/designation.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Report } from "../define.ts";
import { coilsOf, isFed, isFedThroughResistors, statesFed } from "../words/coils.ts";
import type { CoilAt } from "../words/coils.ts";
import { everyState } from "../words/every-state.ts";
import { branchesOf, FEED, joinedIn, METAL } from "../words/joined.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

/** Metal, contacts and outputs, and no diode from another circuit. */
const WITHOUT_DIODES: ReadonlySet<Role> = new Set<Role>([...METAL, "driver"]);
const CONSUMES: ReadonlySet<Role> = new Set<Role>(["load", "coil"]);
/** By what a coil's current comes when it does not come through its switch. */
const SNEAKS: ReadonlySet<Role> = new Set<Role>([...METAL, "driver", "diode", "resistor", "load", "coil"]);

interface Sneak {
  readonly state: SolvedState;
  readonly volts: number;
  /** The load, lamp, coil or diode that the current comes through. */
  readonly through: readonly NetworkPart[];
}

/** The nearest way from a node to a source that carries current, over whatever conducts, but not through this coil. */
function wayToSource(analysis: Analysis, state: SolvedState, from: NodeIndex, at: CoilAt): readonly Branch[] {
  const beside = neighbours(analysis.network);
  const sources = new Set(
    branchesOf(analysis, "source")
      .filter(({ index }) => Math.abs(state.currents[index] ?? 0) > 1e-4)
      .flatMap(({ a, b }) => [a, b]),
  );
  const arrived = new Map<NodeIndex, Branch | undefined>([[from, undefined]]);
  const queue = [from];
  for (let head = 0; head < queue.length; head += 1) {
    const here = queue[head] ?? from;
    if (sources.has(here)) {
      const way: Branch[] = [];
      let node = here;
      for (let branch = arrived.get(node); branch !== undefined; branch = arrived.get(node)) {
        way.push(branch);
        node = branch.a === node ? branch.b : branch.a;
      }
      return way;
    }
    for (const { to, branch } of beside(here)) {
      if (arrived.has(to) || branch.part === at.part || !SNEAKS.has(branch.role)) continue;
      if (state.conducting[branch.index] !== 1 || Math.abs(state.currents[branch.index] ?? 0) < 1e-6) continue;
      arrived.set(to, branch);
      queue.push(to);
    }
  }
  return [];
}

/** Loads and coils on the way from either end of the coil to the source. */
function consumersOnTheWay(analysis: Analysis, state: SolvedState, at: CoilAt): readonly NetworkPart[] {
  const ways = [at.plus, at.minus].flatMap((node) => wayToSource(analysis, state, node, at));
  const parts = ways.flatMap(({ role, part }) => (CONSUMES.has(role) && part !== undefined ? [part] : []));
  return [...new Set(parts)];
}

const strayDiodes = new WeakMap<Analysis, readonly Branch[]>();

/** Diodes that lead from one circuit to another: not those across a coil or inside a consumer. */
function diodesOf(analysis: Analysis): readonly Branch[] {
  let found = strayDiodes.get(analysis);
  if (found === undefined) {
    found = branchesOf(analysis, "diode").filter(
      ({ part }) => part !== undefined && part.kind.coils === undefined && part.kind.traits.load !== true,
    );
    strayDiodes.set(analysis, found);
  }
  return found;
}

/** What feeds a coil as it is meant to be fed. Where no diode is drawn the sets that every check uses do as well. */
function ownFeed(analysis: Analysis): ReadonlySet<Role> {
  return diodesOf(analysis).length > 0 ? WITHOUT_DIODES : FEED;
}

/** Diodes (parts of their own) by which alone the coil is fed, off a line that feeds something else. */
function diodesFrom(analysis: Analysis, state: SolvedState, at: CoilAt): readonly NetworkPart[] {
  const metal: DisjointSets = joinedIn(analysis, state, ownFeed(analysis));
  const ends = [metal.find(at.plus), metal.find(at.minus)];
  const found = diodesOf(analysis).filter(({ index, a, b, part }) => {
    if (state.conducting[index] !== 1 || part === at.part) return false;
    const [x, y] = [metal.find(a), metal.find(b)];
    const near = ends.includes(y) ? y : ends.includes(x) ? x : undefined;
    if (near === undefined || x === y) return false;
    return feedsAnother(analysis, metal, near === y ? x : y, at.part);
  });
  return [...new Set(found.flatMap(({ part }) => part ?? []))];
}

/** Does a consumer other than this part hang on this line? */
function feedsAnother(analysis: Analysis, metal: DisjointSets, line: number, own: NetworkPart): boolean {
  return analysis.network.branches.some(
    ({ role, a, b, part }) => CONSUMES.has(role) && part !== own && [a, b].some((node) => metal.find(node) === line),
  );
}

/** The coil is held up in this state by something else than its switch. */
function sneakIn(analysis: Analysis, state: SolvedState, at: CoilAt, holds: number): Sneak | undefined {
  const volts = Math.abs(state.between(at.plus, at.minus));
  if (!(volts >= holds) || isFed(analysis, state, at, ownFeed(analysis))) return undefined;
  // Volts across one metal: an output stage that modulates stands for a driver between the poles, and nothing is told of what lies beyond it.
  const metal = joinedIn(analysis, state, ownFeed(analysis));
  if (metal.find(at.plus) === metal.find(at.minus)) return undefined;
  if (isFedThroughResistors(analysis, state, at, ownFeed(analysis))) return undefined;
  const through = isFed(analysis, state, at, FEED)
    ? diodesFrom(analysis, state, at)
    : consumersOnTheWay(analysis, state, at);
  return through.length === 0 ? undefined : { state, volts, through };
}

/** What follows: contactors that stay out when this coil's own contacts stay as they are at rest. */
function pulledInBy(analysis: Analysis, { state }: Sneak, at: CoilAt): readonly Place[] {
  const rest = analysis.states.find(({ partStates }) => partStates[at.part.index]?.["coil"] !== true);
  const closed = analysis.network.branches.filter(({ index, part }) => {
    const [now, then] = [state.elements[index], rest?.elements[index]];
    return part === at.part && now?.type === "contact" && now.closed && then?.type === "contact" && !then.closed;
  });
  if (closed.length === 0) return [];
  const without = analysis.solveChanged(state, { open: closed.map(({ index }) => index) });
  return coilsOf(analysis)
    .filter(({ part }) => part !== at.part && part.kind.traits.contactor === true)
    .filter(({ part: { index } }) => state.partStates[index]?.["coil"] === true)
    .filter(({ part: { index } }) => without.partStates[index]?.["coil"] !== true)
    .map(({ part }) => partPlace(part));
}

function unrated({ part, coil }: CoilAt): readonly MissingField[] {
  return [{ part: part.part.id, parameter: coil.nominal === undefined ? "coilVoltage" : "dropOut" }];
}

function look(analysis: Analysis, report: Report, at: CoilAt): void {
  const { part, coil } = at;
  const place = terminalPlace(part, coil.plus);
  // Only a coil that has a switch of its own can be fed past it.
  const own = statesFed(analysis, at).metal.filter((state) => isFed(analysis, state, at, ownFeed(analysis)));
  if (own.length === 0) {
    report.doesNotApply(place);
    return;
  }
  const sneaks = everyState(analysis).flatMap((state) => sneakIn(analysis, state, at, coil.dropOut ?? 0.5) ?? []);
  const [first, ...more] = sneaks;
  if (first === undefined) {
    report.passes(place);
    return;
  }
  const worst = more.reduce((most, each) => (each.volts > most.volts * (1 + 1e-9) ? each : most), first);
  const through = [...worst.through].sort((a, b) => compareNatural(a.part.id, b.part.id)).map(partPlace);
  const facts = {
    part: { place: partPlace(part) },
    through: { places: through },
    volts: { value: worst.volts, dimension: "voltage" },
    limit: { value: coil.dropOut ?? 0, dimension: "voltage" },
    states: { states: [...new Set(sneaks.map(({ state }) => state.name))] },
  } as const;
  if (coil.dropOut === undefined) {
    report.notChecked({ where: [place], reason: "unrated", facts, missing: unrated(at) });
    return;
  }
  report.fails({
    message: coil.pickUp !== undefined && worst.volts >= coil.pickUp ? "pulls" : "holds",
    severity: "WARNING",
    facts,
    where: [place, ...through],
    touches: [...through, ...pulledInBy(analysis, worst, at)],
    states: [...new Set(sneaks.map(({ state }) => state.name))],
    value: worst.volts,
    limit: coil.dropOut,
    unit: "V",
  });
}

export const coilSneakPath = defineCheck({
  id: "coil-sneak-path",
  group: "coils",
  title: "Coil fed past its switch",
  about:
    "Looks at every coil that a switch, relay or output feeds in some state, and asks in all other states, with each control flipped once, whether current still reaches it by way of a lamp, another load, another coil, or a diode from a line that feeds something else, on more than its drop-out voltage. " +
    "Two feeds of one coil that both lead through diodes made for it are no such way.",
  severities: ["WARNING"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    pulls: {
      title:
        "The coil of {part} gets {volts} by way of {through}, and not through its own switch, in {states}: it pulls in.",
      why: "The contact closes when nobody asked for it: a brake light, a horn or another relay then starts what it switches.",
      mend: "Part the two: take away what leads to the coil by way of {through}, or give the coil of {part} a feed that nothing else hangs on.",
    },
    holds: {
      title:
        "The coil of {part} gets {volts} by way of {through}, and not through its own switch, in {states}; it lets go only below {limit}.",
      why: "Once closed the contact stays closed after its switch has opened, and what it switches does not stop.",
      mend: "Part the two: take away what leads to the coil by way of {through}, or give the coil of {part} a feed that nothing else hangs on.",
    },
  },
  reasons: {
    unrated: "The coil of {part} gets {volts} past its switch; on what voltage it lets go is not stated.",
  },
  foldsUnder: ["source-shorted", "supply-reversed", "diode-reversed"],
  run(analysis, report) {
    for (const at of coilsOf(analysis)) look(analysis, report, at);
  },
});
