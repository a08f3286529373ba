import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../../network/network.ts";
import { DisjointSets } from "../../network/sets.ts";
import { closedIslands } from "../../network/strings.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { connect } from "../../project/commands/connect.ts";
import { execute } from "../../project/commands/define.ts";
import { compareNatural } from "../../project/designation.ts";
import { PRACTICE_SOURCE } from "../../standards/working-distances.ts";
import { defineCheck } from "../define.ts";
import type { Place, Remedy, Report } from "../define.ts";
import { circuits, consumers } from "../words/circuits.ts";
import type { Consumer } from "../words/circuits.ts";
import { branchesOf } from "../words/joined.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

const STUD = "stud";

/** A chassis point with the node of the metal it is on and the tie between the two. */
interface Point {
  readonly part: NetworkPart;
  readonly tie: Branch;
  readonly metal: NodeIndex;
}

function chassisPoints({ network }: Analysis): readonly Point[] {
  return network.parts
    .filter(({ kind }) => kind.traits.chassisPoint === true)
    .flatMap((part): Point[] => {
      const tie = network.branches[part.firstBranch];
      const stud = part.nodes.get(STUD);
      if (tie === undefined || stud === undefined) return [];
      return [{ part, tie, metal: tie.a === stud ? tie.b : tie.a }];
    })
    .sort((a, b) => compareNatural(a.part.part.id, b.part.part.id));
}

/** Islands of metal (every contact taken as closed) and the rows that sources make of them. */
interface Metal {
  readonly islandOf: (node: NodeIndex) => number;
  readonly rowOf: (node: NodeIndex) => number;
}

function metalOf(analysis: Analysis, without: ReadonlySet<Branch>): Metal {
  const { nodeCount, branches } = analysis.network;
  const islands = closedIslands(
    nodeCount,
    without.size === 0 ? branches : branches.filter((branch) => !without.has(branch)),
  );
  const islandOf = (node: NodeIndex): number => islands[node] ?? node;
  const rows = new DisjointSets(nodeCount);
  for (const { a, b } of branchesOf(analysis, "source")) rows.join(islandOf(a), islandOf(b));
  return { islandOf, rowOf: (node) => rows.find(islandOf(node)) };
}

interface Parted {
  readonly consumer: Consumer;
  /** The end that leads onto metal of its own. */
  readonly end: string;
  readonly ofLoad: Point;
  readonly ofSource: Point;
}

/** The consumer is fed at one end, and its other end and its source are on two pieces of metal. */
function partedBy(analysis: Analysis, metal: Metal, points: readonly Point[], consumer: Consumer): Parted | undefined {
  const { part, plus, minus } = consumer;
  for (const [fed, end] of [
    [plus, minus],
    [minus, plus],
  ] as const) {
    const [feed, dead] = [part.nodes.get(fed), part.nodes.get(end)];
    if (feed === undefined || dead === undefined || metal.rowOf(feed) === metal.rowOf(dead)) continue;
    const isSource = branchesOf(analysis, "source").some(({ a }) => metal.rowOf(a) === metal.rowOf(feed));
    const ofLoad = points.find((point) => metal.islandOf(point.metal) === metal.islandOf(dead));
    // On metal with its feed: then it is the other end that leads nowhere.
    const ofSource = points.find(
      (point) => metal.rowOf(point.metal) === metal.rowOf(feed) && metal.islandOf(point.metal) !== metal.islandOf(feed),
    );
    if (isSource && ofLoad !== undefined && ofSource !== undefined) return { consumer, end, ofLoad, ofSource };
  }
  return undefined;
}

function joinStructures({ ofLoad, ofSource }: Parted): Remedy {
  return {
    id: "join-structures",
    label: `Join ${ofSource.part.part.designation} and ${ofLoad.part.part.designation} by a strap`,
    apply: (project) =>
      execute(
        project,
        connect,
        { from: [ofSource.part.part.id, STUD], to: [ofLoad.part.part.id, STUD], fields: {} },
        KINDS,
      ).project,
  };
}

function fail(report: Report, group: readonly Parted[]): void {
  const sorted = [...group].sort((a, b) => compareNatural(a.consumer.part.part.id, b.consumer.part.part.id));
  const [first] = sorted;
  if (first === undefined) return;
  const loads = sorted.map(({ consumer, end }) => terminalPlace(consumer.part, end));
  const [ofSource, ofLoad] = [first.ofSource, first.ofLoad].map(({ part }): Place => terminalPlace(part, STUD));
  if (ofSource === undefined || ofLoad === undefined) return;
  report.fails({
    message: "parted",
    severity: "WARNING",
    facts: { source: { place: ofSource }, metal: { place: ofLoad }, loads: { places: loads } },
    where: [ofSource, ofLoad, ...loads],
    touches: sorted.map(({ consumer }) => partPlace(consumer.part)),
    remedies: [joinStructures(first)],
  });
}

function run(analysis: Analysis, report: Report): void {
  const points = chassisPoints(analysis);
  const map = circuits(analysis);
  const metal = metalOf(analysis, new Set());
  const unstated = points.filter(({ part }) => part.values.choice("structure") === undefined);
  const sure = unstated.length === 0 ? metal : metalOf(analysis, new Set(unstated.map(({ tie }) => tie)));
  const groups = new Map<string, Parted[]>();
  for (const consumer of consumers(analysis)) {
    const { part, plus, minus } = consumer;
    const place = terminalPlace(part, minus);
    const [a, b] = [part.nodes.get(plus), part.nodes.get(minus)];
    if (a === undefined || b === undefined) continue;
    if (!map.isServed(consumer)) {
      const parted = partedBy(analysis, metal, points, consumer);
      if (parted === undefined) {
        report.doesNotApply(place);
        continue;
      }
      const key = [parted.ofSource, parted.ofLoad].map((point) => metal.islandOf(point.metal)).join(" ");
      groups.set(key, [...(groups.get(key) ?? []), parted]);
    } else if (!points.some((point) => [a, b].some((node) => metal.islandOf(node) === metal.islandOf(point.metal)))) {
      report.doesNotApply(place);
    } else if (metal.rowOf(a) === metal.rowOf(b) && sure.rowOf(a) !== sure.rowOf(b)) {
      report.notChecked({
        where: [place],
        reason: "structure",
        facts: { load: { place: partPlace(part) }, points: { places: unstated.map((each) => partPlace(each.part)) } },
        missing: unstated.map((each) => ({ part: each.part.part.id, parameter: "structure" })),
      });
    } else {
      report.passes(place);
    }
  }
  for (const group of groups.values()) fail(report, group);
}

export const structureAsReturn = defineCheck({
  id: "structure-as-return",
  group: "shock",
  title: "Return through metal that nothing joins",
  about:
    "Looks at everything that consumes and returns through the vehicle's metal: the piece of metal it is on (body, motor, frame or hull) must be joined to the piece its battery is on by a wire or a strap, with every contact taken as closed. " +
    "Bolts, bearings and cables of steel between the two are no joins.",
  severities: ["WARNING"],
  source: PRACTICE_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    parted: {
      title:
        "{loads} return to the metal at {metal}, their source to other metal at {source}, and nothing joins the two.",
      why: "The current finds its way through brake cables, bearings and shafts: they glow, seize or wear out, and what it feeds gets too little.",
      mend: "Run a stout wire or strap from {source} to {metal}, as thick as the battery's own return.",
    },
  },
  reasons: {
    structure: "{load} returns through the vehicle's metal; on which piece of it {points} are is not stated.",
  },
  run,
});
