import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, Network, NetworkPart } from "../../network/network.ts";
import { CHASSIS_NODE } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { Remedy, Report } from "../define.ts";
import { compareNatural } from "../../project/designation.ts";
import { branchesOf, joinedIn } from "../words/joined.ts";
import { partPlace } from "../words/places.ts";
import { swapWires } from "../remedies/swap-wires.ts";
import type { Swap } from "../remedies/swap-wires.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";

/** One block in a row: +1 where the row goes from its minus to its plus. */
interface Link {
  readonly part: NetworkPart;
  readonly emf: Volt;
  readonly way: 1 | -1;
  /** The island before it. */
  readonly from: number;
}

interface Row {
  readonly links: readonly Link[];
  /** The row closes on itself: two strings side by side, or a ring. */
  readonly ring: boolean;
  /** Which way the terminals that it feeds want it: 1 as it goes, -1 against, 0 unknown. */
  readonly wanted: 1 | 0 | -1;
  /** Islands at which something else than batteries is joined. */
  readonly served: ReadonlySet<number>;
}

export const blockReversed = defineCheck({
  id: "block-reversed",
  group: "polarity",
  title: "Battery block turned round",
  about:
    "Follows every string of batteries through jumpers, fuses and closed contacts, in every operating state: in a row all blocks must push the same way. Where two ways balance, what the string feeds decides. A whole string that is turned round is looked at by supply-reversed, one beside another by source-shorted.",
  severities: ["DANGER"],
  source: { text: "Kirchhoff's voltage law: the EMFs of a string add up with their signs", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "Plus and minus of every battery are known, and so is which wires join them." },
  messages: {
    opposed: {
      title:
        "{blocks} in the string with {others} stands the wrong way round: the string gives {volts} instead of {full}.",
      why: "A block that is turned round takes its own voltage off the string twice and is charged backwards as soon as current flows, which destroys it and may make it burst.",
      mend: "Swap the two leads of {blocks}, so that every jumper runs from a plus to the minus of the next block.",
    },
  },
  reasons: {},
  run(analysis, report) {
    const failed = new Map<string, { row: Row; turned: readonly Link[]; states: string[] }>();
    const looked = new Set<NetworkPart>();
    for (const state of analysis.states) {
      for (const row of rowsIn(analysis, state)) {
        if (row.links.length < 2) continue;
        for (const { part } of row.links) looked.add(part);
        const turned = opposing(row);
        if (turned.length === 0) continue;
        const key = turned
          .map(({ part }) => part.part.id)
          .sort()
          .join(" ");
        const known = failed.get(key);
        if (known === undefined) failed.set(key, { row, turned, states: [state.name] });
        else if (!known.states.includes(state.name)) known.states.push(state.name);
      }
    }
    const told = new Set<NetworkPart>();
    for (const { row, turned, states } of failed.values()) {
      if (turned.every(({ part }) => told.has(part))) continue;
      for (const { part } of turned) told.add(part);
      fail(analysis, row, turned, states, report);
    }
    for (const part of analysis.network.parts) {
      if (part.kind.traits.battery !== true || told.has(part)) continue;
      if (looked.has(part)) report.passes(partPlace(part));
      else report.doesNotApply(partPlace(part));
    }
  },
});

const idNumber = ({ part }: Link): number => Number(part.part.id.slice(1));

function fail(analysis: Analysis, row: Row, turned: readonly Link[], states: readonly string[], report: Report): void {
  const blocks = [...turned].sort((a, b) => idNumber(a) - idNumber(b)).map(({ part }) => partPlace(part));
  const others = row.links.filter((link) => !turned.includes(link)).sort((a, b) => idNumber(a) - idNumber(b));
  const full = row.links.reduce((sum, { emf }) => sum + emf, 0);
  const lost = turned.reduce((sum, { emf }) => sum + 2 * emf, 0);
  report.fails({
    message: "opposed",
    facts: {
      blocks: { places: blocks },
      others: { places: others.map(({ part }) => partPlace(part)) },
      volts: { value: full - lost, dimension: "voltage" },
      full: { value: full, dimension: "voltage" },
    },
    severity: "DANGER",
    where: blocks,
    touches: others.map(({ part }) => partPlace(part)),
    states,
    value: full - lost,
    limit: full,
    unit: "V",
    remedies: turnRound(analysis, turned),
  });
}

/** A block of two terminals is turned round by its two leads; a pack with plugs of its own is not. */
function turnRound({ network }: Analysis, turned: readonly Link[]): readonly Remedy[] {
  const swaps = turned.flatMap(({ part }): readonly Swap[] => {
    const [a, b, ...more] = part.terminals;
    if (a === undefined || b === undefined || more.length > 0) return [];
    return [
      [
        [part.part.id, a.id],
        [part.part.id, b.id],
      ],
    ];
  });
  if (swaps.length < turned.length) return [];
  const names = turned.map(({ part }) => part.part.designation).sort(compareNatural);
  return swapWires(network, swaps, `Swap the leads of ${names.join(" and of ")}`);
}

/** Blocks that push against the rest of their row. */
function opposing(row: Row): readonly Link[] {
  return row.ring ? opposingInRing(row) : opposingIn(row.links, row.wanted);
}

const sum = (links: readonly Link[]): Volt => links.reduce((total, { emf }) => total + emf, 0);

/**
 * The weaker of both ways; where they balance, or as many batteries stand one way as the other, the one that nobody wants,
 * else the one without the lowest id.
 */
function opposingIn(links: readonly Link[], wanted: 1 | 0 | -1): readonly Link[] {
  const along = links.filter(({ way }) => way === 1);
  const against = links.filter(({ way }) => way === -1);
  if (along.length === 0 || against.length === 0) return [];
  const [a, b] = [sum(along), sum(against)];
  const balance = Math.abs(a - b) <= 0.01 * (a + b);
  if (wanted !== 0 && (balance || along.length === against.length)) return wanted === 1 ? against : along;
  if (!balance) return a < b ? along : against;
  return Math.min(...along.map(idNumber)) < Math.min(...against.map(idNumber)) ? against : along;
}

/**
 * Two strings side by side are a ring: cut it in two so that as little as possible is left standing against its string,
 * at places where something else is joined, if there are two: between them lie the strings. Of equal cuts the one in the
 * middle.
 */
function opposingInRing({ links, served }: Row): readonly Link[] {
  const count = links.length;
  const between = links.filter(({ from }) => served.has(from)).length >= 2;
  const isEnd = (link: Link | undefined): boolean => !between || (link !== undefined && served.has(link.from));
  let best = { turned: opposingIn(links, 0), odd: Infinity };
  for (let from = 0; from < count; from += 1) {
    for (let to = from + 1; to < count; to += 1) {
      if (!isEnd(links[from]) || !isEnd(links[to])) continue;
      const arcs = [links.slice(from, to), [...links.slice(to), ...links.slice(0, from)]] as const;
      const turned = [...opposingIn(arcs[0], against(arcs[1])), ...opposingIn(arcs[1], against(arcs[0]))];
      const cuts = arcs.filter(([first]) => first === undefined || !served.has(first.from)).length;
      const odd = cuts * count + Math.abs(arcs[0].length - arcs[1].length);
      const gain = sum(best.turned) - sum(turned);
      if (gain > 1e-9 || (gain > -1e-9 && odd < best.odd)) best = { turned, odd };
    }
  }
  return best.turned;
}

/** Round the ring a string goes the other way than the one beside it. */
function against(beside: readonly Link[]): 1 | 0 | -1 {
  const most = beside.reduce((total, { emf, way }) => total + emf * way, 0);
  return Math.abs(most) <= 0.01 * sum(beside) ? 0 : most > 0 ? -1 : 1;
}

const SERVES: ReadonlySet<Role> = new Set<Role>(["load", "coil", "resistor", "capacitor", "contact"]);

interface Edge {
  readonly part: NetworkPart;
  readonly emf: Volt;
  readonly minus: number;
  readonly plus: number;
}

/** No throw of a switch that has no wire: nothing is joined there. */
function leadsOn(network: Network, { part, a, b }: Branch): boolean {
  return (
    part === undefined ||
    [...part.nodes].every(([id, node]) => (node !== a && node !== b) || network.wiresAt([part.part.id, id]).length > 0)
  );
}

/** Rows of blocks of each pack in a state: from one place where something else joins to the next. */
function rowsIn(analysis: Analysis, state: SolvedState): readonly Row[] {
  const metal = joinedIn(analysis, state);
  const ends = new Map<number, 1 | -1 | 0>([[metal.find(CHASSIS_NODE), 0]]);
  for (const { pair, plus, minus } of supplyPairs(analysis.network)) {
    if (!pair.main && pair.direction === "input") continue;
    for (const [node, sign] of [
      [plus, 1],
      [minus, -1],
    ] as const) {
      const island = metal.find(node);
      const known = ends.get(island);
      const own = pair.polarised ? sign : 0;
      ends.set(island, known === undefined || known === 0 ? own : own === 0 || own === known ? known : 0);
    }
  }
  const served = new Set(
    [...SERVES]
      .flatMap((role) => branchesOf(analysis, role))
      .filter((branch) => leadsOn(analysis.network, branch))
      .map(({ a, b }) => [metal.find(a), metal.find(b)] as const)
      .flatMap(([one, other]) => (one === other ? [] : [one, other])),
  );
  return analysis.packs.flatMap(({ blocks }) => {
    const members = new Set(blocks);
    const edges = branchesOf(analysis, "source").flatMap(({ index, part, a, b }): Edge[] => {
      const element = state.elements[index];
      if (part === undefined || !members.has(part) || element?.type !== "source") return [];
      const [plus, minus] = [metal.find(a), metal.find(b)];
      return plus === minus ? [] : [{ part, emf: element.emf, minus, plus }];
    });
    return rowsOf(edges, ends, served);
  });
}

function rowsOf(
  edges: readonly Edge[],
  ends: ReadonlyMap<number, 1 | -1 | 0>,
  served: ReadonlySet<number>,
): readonly Row[] {
  const at = new Map<number, Edge[]>();
  for (const edge of edges) {
    for (const island of [edge.minus, edge.plus]) at.set(island, [...(at.get(island) ?? []), edge]);
  }
  const stops = (island: number): boolean => ends.has(island) || at.get(island)?.length !== 2;
  const done = new Set<Edge>();
  const rows: Row[] = [];
  const walk = (start: number, first: Edge): void => {
    const links: Link[] = [];
    let island = start;
    for (let edge: Edge | undefined = first; edge !== undefined && !done.has(edge); ) {
      done.add(edge);
      const along = edge.minus === island;
      links.push({ part: edge.part, emf: edge.emf, way: along ? 1 : -1, from: island });
      island = along ? edge.plus : edge.minus;
      edge = stops(island) ? undefined : at.get(island)?.find((next) => !done.has(next));
    }
    const [low, high] = [ends.get(start) ?? 0, ends.get(island) ?? 0];
    const wanted = high === 1 || low === -1 ? 1 : high === -1 || low === 1 ? -1 : 0;
    rows.push({ links, served, ring: links.length > 1 && island === start, wanted: high === low ? 0 : wanted });
  };
  for (const [island, list] of at) if (stops(island)) for (const edge of list) if (!done.has(edge)) walk(island, edge);
  for (const edge of edges) if (!done.has(edge)) walk(edge.minus, edge);
  return rows;
}
