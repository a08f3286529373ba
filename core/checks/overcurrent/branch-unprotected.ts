import type { Analysis } from "../../circuit/analysis.ts";
import type { Branch, Conductor } from "../../network/network.ts";
import type { Ampere, Volt } from "../../quantity/kinds.ts";
import { STANDARD_RATINGS } from "../../standards/overcurrent.ts";
import { defineCheck } from "../define.ts";
import type { Place, Remedy, Report } from "../define.ts";
import { exits } from "../../studies/words/fault-exits.ts";
import {
  assumedInLoop,
  faultCurrents,
  leastThrough,
  through,
  unstatedResistance,
} from "../../studies/words/fault-currents.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { faults } from "../../studies/words/faults.ts";
import type { Fault } from "../../studies/words/faults.ts";
import { behindDevice } from "../remedies/behind-device.ts";
import { fitFuse } from "../remedies/fit-fuse.ts";
import { nodePlace, partPlace } from "../words/places.ts";
import { nodesOf, throughJoin } from "../words/traction-joins.ts";
import { wireAmpacity } from "../../studies/words/wire-ampacity.ts";
import { WireVerdicts } from "../words/wire-verdicts.ts";

/** A fault that drives too much through these wires, with nothing that opens. */
interface Unprotected {
  readonly fault: Fault;
  readonly wires: readonly Overloaded[];
}
interface Overloaded {
  readonly conductor: Conductor;
  readonly current: Ampere;
  readonly ampacity: Ampere;
  readonly ownSide: boolean;
}

export const branchUnprotected = defineCheck({
  id: "branch-unprotected",
  group: "overcurrent",
  title: "Wire without fuse or breaker",
  about:
    "Inserts a dead short at the end of every wire (across a consumer's own terminals; elsewhere to the opposite pole, and to the chassis where a pole is bonded to it), solves the circuit with it, and looks whether a fuse or breaker stands in the loop of each wire that then carries more than its ampacity. Faults behind a contact are looked at while it is closed. The jumpers of a string and the piece from the source to its first device have checks of their own.",
  severities: ["DANGER", "WARNING"],
  source: { text: "33 CFR 183.455(a); ampacity: 33 CFR 183.425, table 5", known: "seen" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    unprotected: {
      title:
        "A short circuit at {fault} drives {current} through {wire}, which may carry {ampacity} continuously, and no fuse or breaker is in its way.",
      why: "With nothing to stop the current the wire glows within seconds and sets fire to whatever it touches; the source feeds it until it is empty.",
      mend: "Put a fuse or breaker of {rating} or less, made for {volts} DC or more, where this branch begins, close to the source; of the branch: {wires}.",
    },
  },
  reasons: {
    size: "The size of {wire} is not stated, so that it is not known what it may carry in a short circuit without a fuse.",
    small: "{wire} is thinner than any that the table of ampacities lists, and no fuse or breaker protects it.",
    insulation:
      "The insulation of {wire} is of a lower class than the table of ampacities lists, and no fuse or breaker protects it.",
    range: "Whether a short circuit overloads {wire} depends on figures that are only known as a range.",
    limit: "It is not stated how much current the source of {wire} can deliver at most.",
    approximate: "The short-circuit current through {wire} rests on assumed wire lengths or sizes.",
  },
  foldsUnder: ["string-unfused"],
  run(analysis, report) {
    const verdicts = new WireVerdicts();
    const found = faults(analysis).flatMap((fault) => look(analysis, fault, verdicts));
    for (const group of grouped(found)) fail(analysis, group, report);
    verdicts.report(analysis, report);
  },
});

const conductorsOf = (branches: readonly Branch[]): readonly Conductor[] =>
  branches.flatMap(({ conductor }) => conductor ?? []);

function look(analysis: Analysis, fault: Fault, verdicts: WireVerdicts): readonly Unprotected[] {
  const [own, back] = [conductorsOf(fault.way), conductorsOf(fault.back)];
  const all = [...new Set([...own, ...back])];
  if (fault.devices.length > 0) {
    for (const conductor of all) verdicts.passes(conductor);
    return [];
  }
  // The piece up to the first device is judged by its length.
  const beyond = exits(analysis, fault.from, fault.way[fault.way.length - 1], fault.walk.poles);
  if (beyond.open.length === 0) return [];
  const { feed } = fault.walk;
  const overloaded: Overloaded[] = [];
  for (const conductor of all) {
    const ampacity = wireAmpacity(analysis, conductor);
    if (!ampacity.known) {
      verdicts.notChecked(conductor, ampacity.why, ampacity.missing);
      continue;
    }
    if (!feed.storage) {
      if (feed.limit === undefined) {
        verdicts.notChecked(conductor, "limit", feed.limitField === undefined ? [] : [feed.limitField]);
        continue;
      }
      if (feed.limit <= ampacity.low) {
        verdicts.passes(conductor);
        continue;
      }
    }
    // What is overloaded without this fault is no matter of it.
    if (Math.abs(fault.walk.state.currents[conductor.branch] ?? 0) > ampacity.low) continue;
    const most = through(faultCurrents(analysis, fault, { resistances: "lowest", withoutDevices: true }), conductor);
    if (most <= ampacity.low) {
      const assumed = assumedInLoop(fault);
      if (assumed.length > 0) verdicts.notChecked(conductor, "approximate", assumed);
      else verdicts.passes(conductor);
      continue;
    }
    const least = leastThrough(analysis, fault, conductor, most, true);
    if (least <= ampacity.high) {
      verdicts.notChecked(conductor, "range", [...ampacity.missing, ...unstatedResistance(fault)]);
      continue;
    }
    verdicts.fails(conductor);
    overloaded.push({ conductor, current: most, ampacity: ampacity.low, ownSide: own.includes(conductor) });
  }
  return overloaded.length === 0 ? [] : [{ fault, wires: overloaded }];
}

/** Faults that share a wire on their own side lack the same fuse; those of return wires alone follow from others. */
function grouped(found: readonly Unprotected[]): readonly (readonly Unprotected[])[] {
  const groups: { readonly members: Unprotected[]; readonly own: Set<Conductor> }[] = [];
  const ownOf = ({ fault }: Unprotected): readonly Conductor[] =>
    conductorsOf(fault.way.length > 0 ? fault.way : fault.back);
  for (const each of found) {
    const own = ownOf(each);
    const touched = groups.filter((group) => own.some((conductor) => group.own.has(conductor)));
    const into = touched[0] ?? { members: [], own: new Set<Conductor>() };
    if (touched.length === 0) groups.push(into);
    for (const other of touched.slice(1)) {
      into.members.push(...other.members);
      for (const conductor of other.own) into.own.add(conductor);
      groups.splice(groups.indexOf(other), 1);
    }
    into.members.push(each);
    for (const conductor of own) into.own.add(conductor);
  }
  const wiresOf = new Map(
    groups.map((group) => [
      group,
      new Set(group.members.flatMap(({ fault }) => conductorsOf([...fault.way, ...fault.back]))),
    ]),
  );
  const within = (a: (typeof groups)[number], b: (typeof groups)[number]): boolean =>
    [...a.own].every((conductor) => wiresOf.get(b)?.has(conductor) === true);
  // What is only the way back of another branch goes with that branch.
  const follows = groups.filter((group) =>
    groups.some((other) => other !== group && within(group, other) && !within(other, group)),
  );
  return groups.filter((group) => !follows.includes(group)).map(({ members }) => members);
}

const natural = new Intl.Collator("en", { numeric: true });

/** What an output gives. */
function givenBy({ feed, state }: Walk): Volt {
  return Math.max(
    0,
    ...feed.sources.map(({ index }) => {
      const element = state.elements[index];
      return element !== undefined && "emf" in element ? Math.abs(element.emf) : 0;
    }),
  );
}

function fail(analysis: Analysis, group: readonly Unprotected[], report: Report): void {
  const ownFirst = (wire: Overloaded): number => (wire.ownSide ? 0 : 1);
  const sorted = group
    .flatMap(({ fault, wires }) => wires.map((wire) => ({ fault, ...wire })))
    .sort(
      (a, b) =>
        ownFirst(a) - ownFirst(b) ||
        a.ampacity - b.ampacity ||
        natural.compare(a.conductor.wire.number, b.conductor.wire.number) ||
        b.current - a.current,
    );
  const [worst] = sorted;
  if (worst === undefined) return;
  const { feed } = worst.fault.walk;
  const wires = [...new Set(sorted.map(({ conductor }) => conductor.wire.id))].map((wire): Place => ({ wire }));
  const consumers = [...new Set(group.flatMap(({ fault }) => fault.consumer ?? []))].map(partPlace);
  const wire: Place = { wire: worst.conductor.wire.id };
  const feeding = feed.parts.flatMap((part) => [...part.nodes.values()]);
  const join = throughJoin(analysis, feeding, nodesOf(analysis, [worst.conductor.wire]));
  report.fails({
    message: "unprotected",
    facts: {
      fault: { place: nodePlace(analysis.network, worst.fault.from) ?? wire },
      current: { value: worst.current, dimension: "current" },
      wire: { place: wire },
      ampacity: { value: worst.ampacity, dimension: "current" },
      rating: { value: soldUpTo(worst.ampacity), dimension: "current" },
      volts: { value: feed.pack?.highest ?? givenBy(worst.fault.walk), dimension: "voltage" },
      wires: { places: wires },
    },
    severity: group.some(({ fault }) => fault.walk.feed.duty === "traction") ? "DANGER" : "WARNING",
    where: wires,
    touches: [...feed.parts.map(partPlace), ...consumers, ...join.touches],
    foldsUnder: join.foldsUnder,
    states: [...new Set(group.map(({ fault }) => fault.walk.state.name))],
    value: worst.current,
    limit: worst.ampacity,
    unit: "A",
    remedies: fuseAtSource(analysis, group),
  });
}

/** The largest rating sold that is not above this; below the smallest, this itself. */
const soldUpTo = (most: Ampere): Ampere => STANDARD_RATINGS.findLast((rating) => rating <= most) ?? most;

/** Offered where all faults have their first wire in common: a device that begins there as well may protect them, or a new one. */
function fuseAtSource(analysis: Analysis, group: readonly Unprotected[]): readonly Remedy[] {
  const [one] = group;
  if (one === undefined) return [];
  const ways = group.map(({ fault }) => (fault.way.length > 0 ? fault.way : fault.back));
  const first = conductorsOf(ways[0] ?? [])[0];
  if (first === undefined || ways.some((way) => conductorsOf(way)[0] !== first)) return [];
  const { walk } = one.fault;
  const near = [first.a, first.b].find((node) => walk.poles.has(node));
  const wires = [...new Set(group.flatMap(({ fault }) => conductorsOf([...fault.way, ...fault.back])))];
  if (near === undefined) return [];
  const branching = { walk, first, near, wires };
  return [...behindDevice(analysis, branching), ...fitFuse(analysis, branching)];
}
