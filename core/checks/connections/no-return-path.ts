/** Consumers whose feed is there and whose way back to the source is not, in whatever position the contacts stand. */
import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
import type { Place } from "../define.ts";
import { defineCheck } from "../define.ts";
import { circuits, consumers } from "../words/circuits.ts";
import type { Circuits, Consumer } from "../words/circuits.ts";
import { branchPlaces, partPlace, terminalPlace } from "../words/places.ts";

interface Lost {
  readonly consumer: Consumer;
  /** Terminal from which nothing leads back. */
  readonly dead: string;
  readonly deadRegion: number;
  readonly feeds: readonly Branch[];
}

/** A terminal that the part does without and that carries no wire: a charger on its own cord has none at L and N. */
function isUnused({ network }: Analysis, { part }: Consumer, terminal: string): boolean {
  const required = part.terminals.find(({ id }) => id === terminal)?.required === true;
  return !required && network.wiresAt([part.part.id, terminal]).length === 0;
}

/** undefined: served, or not fed at all. */
function lostOf(analysis: Analysis, map: Circuits, consumer: Consumer): Lost | undefined {
  if (map.isServed(consumer)) return undefined;
  if (isUnused(analysis, consumer, consumer.plus) || isUnused(analysis, consumer, consumer.minus)) return undefined;
  const regionAt = (terminal: string): number => map.regionOf(map.islandOf(consumer.part.nodes.get(terminal) ?? 0));
  const [plus, minus] = [regionAt(consumer.plus), regionAt(consumer.minus)];
  for (const [fed, dead, terminal] of [
    [plus, minus, consumer.minus],
    [minus, plus, consumer.plus],
  ] as const) {
    const feeds = map.sourcesAt(fed, "plus");
    if (feeds.length > 0 && fed !== dead) return { consumer, dead: terminal, deadRegion: dead, feeds };
  }
  return undefined;
}

/** Everything that hangs on the dead end: there the break is. */
function placesIn(analysis: Analysis, map: Circuits, region: number): readonly Place[] {
  const { network } = analysis;
  const inside = (node: number): boolean => map.regionOf(map.islandOf(node)) === region;
  const wires = network.conductors.filter(({ a }) => inside(a)).map(({ wire }): Place => ({ wire: wire.id }));
  const parts = network.parts
    .filter((part) => part.terminals.some(({ id }) => inside(part.nodes.get(id) ?? 0)))
    .map((part): Place => ({ part: part.part.id }));
  return [...wires, ...parts];
}

/** Every block of the batteries that feed: the break may be at the far end of the string. */
function stringsOf({ packs }: Analysis, group: readonly Lost[]): readonly Place[] {
  const feeding = new Set(group.flatMap(({ feeds }) => feeds.flatMap(({ part }) => part ?? [])));
  return packs
    .filter(({ blocks }) => blocks.some((block) => feeding.has(block)))
    .flatMap(({ blocks }) => blocks.map(partPlace));
}

export const noReturnPath = defineCheck({
  id: "no-return-path",
  group: "connections",
  title: "No way back to the source",
  about:
    "Looks at everything that consumes (controllers, motors, converters, chargers, lamps, loads, heaters, pumps, coils): where one side is fed from a source, the other must lead back to the same source, with every switch, relay, fuse and driver taken as closed, so that no operating state can be missed. A way back through a meter or through insulation does not count. What is not fed at all is not judged here.",
  severities: ["WARNING"],
  source: { text: "A current flows in a closed loop only (Kirchhoff's current law)", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "Which parts and wires form a loop is always in the document." },
  messages: {
    lost: {
      title: "Fed, but without a way back: from {dead} nothing leads to the other pole of {source}.",
      why: "Without a return no current flows: it stays dead, or finds a way back through something that was never meant to carry it, such as a cable's steel or another lamp.",
      mend: "Draw the return from {dead} to the other pole of {source}: a wire, or for a part on the vehicle's metal the wire from battery to metal.",
    },
  },
  reasons: {},
  foldsUnder: [
    "source-shorted",
    "structure-as-return",
    "wire-loose-end",
    "terminal-unconnected",
    "no-return-path",
    "logic-overvoltage",
  ],
  run(analysis, report) {
    const map = circuits(analysis);
    const byRegion = new Map<number, Lost[]>();
    for (const consumer of consumers(analysis)) {
      const { part, plus, minus } = consumer;
      const lost = lostOf(analysis, map, consumer);
      if (lost !== undefined) byRegion.set(lost.deadRegion, [...(byRegion.get(lost.deadRegion) ?? []), lost]);
      else if (map.isServed(consumer) && part.nodes.has(plus)) report.passes(terminalPlace(part, minus));
      else report.doesNotApply(terminalPlace(part, minus));
    }
    for (const [region, members] of byRegion) {
      // The oldest part first, whatever order the document lists them in.
      const group = [...members].sort((a, b) => compareNatural(a.consumer.part.part.id, b.consumer.part.part.id));
      const dead = group.map(({ consumer, dead: terminal }) => terminalPlace(consumer.part, terminal));
      const source = branchPlaces(group.flatMap(({ feeds }) => feeds));
      report.fails({
        message: "lost",
        facts: { dead: { places: dead }, source: { places: source } },
        severity: "WARNING",
        where: dead,
        states: analysis.states.map(({ name }) => name),
        touches: [...placesIn(analysis, map, region), ...source, ...stringsOf(analysis, group)],
      });
    }
  },
});
