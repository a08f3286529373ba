import type { Analysis, Pack, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart, NodeIndex } from "../../network/network.ts";
import type { Limit } from "../../parts/define.ts";
import type { Volt } from "../../quantity/kinds.ts";
import { LOWEST_AUXILIARY, LOWEST_AUXILIARY_SOURCE } from "../../standards/coils.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { bothEnds } from "../../studies/words/resistance-ends.ts";
import { unstatedChemistry, unstatedResistance } from "../../studies/words/highest.ts";
import { groupOf, metalWay } from "../words/joined-metal.ts";
import { partPlace, terminalPlace } from "../words/places.ts";

interface Lowest {
  readonly volts: Volt;
  /** The most that it can be where the battery's resistance is only known as a range. */
  readonly atMost: Volt;
  readonly state: SolvedState;
  readonly pack: Pack;
}

/** Both ends of the pair hang on one battery by closed contacts and conductors, so that it is meant to be fed. */
function feeding(analysis: Analysis, state: SolvedState, plus: NodeIndex, minus: NodeIndex): Pack | undefined {
  const group = groupOf(analysis, state, plus);
  if (groupOf(analysis, state, minus) !== group) return undefined;
  return analysis.packs.find((pack) => groupOf(analysis, state, pack.negative) === group);
}

/** How far an auxiliary battery that nothing holds up in this state may fall below what was solved. */
function fall(pack: Pack, state: SolvedState): Volt {
  if (pack.duty === "traction") return 0;
  const now = state.between(pack.positive, pack.negative);
  return now > pack.rest + 0.05 ? 0 : Math.max(0, (pack.rest * (12.7 - LOWEST_AUXILIARY)) / 12.7);
}

function lowest(analysis: Analysis, plus: NodeIndex, minus: NodeIndex): Lowest | undefined {
  let worst: Lowest | undefined;
  for (const state of analysis.states) {
    const volts = Math.abs(state.between(plus, minus));
    if (Number.isNaN(volts)) continue;
    const pack = feeding(analysis, state, plus, minus);
    if (pack === undefined) continue;
    const others = state.name === "driving-low" ? bothEnds(analysis, state) : [];
    const figures = [volts, ...others.map((end) => Math.abs(end.between(plus, minus)))];
    const down = fall(pack, state);
    const low = Math.min(...figures) - down;
    if (worst === undefined || low < worst.volts - 1e-6)
      worst = { volts: low, atMost: Math.max(...figures) - down, state, pack };
  }
  return worst;
}

/** Wires of assumed length or size on the way from the battery: the drop in them is not known. */
function assumedOnTheWay(
  analysis: Analysis,
  { state, pack }: Lowest,
  nodes: readonly NodeIndex[],
): readonly MissingField[] {
  const found = new Map<string, MissingField>();
  if (analysis.approximate.length === 0) return [];
  for (const node of nodes) {
    for (const pole of [pack.positive, pack.negative]) {
      const way = metalWay(analysis, state, pole, node);
      for (const { conductor } of way ?? []) {
        for (const field of conductor?.assumed ?? []) {
          if (conductor !== undefined) found.set(`${conductor.wire.id} ${field}`, { wire: conductor.wire.id, field });
        }
      }
    }
  }
  return [...found.values()];
}

function look(analysis: Analysis, report: Report, part: NetworkPart, limit: Limit): void {
  const [plus, minus] = [part.nodes.get(limit.a), part.nodes.get(limit.b)];
  if (plus === undefined || minus === undefined) return;
  const at = terminalPlace(part, limit.a);
  const found = lowest(analysis, plus, minus);
  if (found === undefined) {
    report.doesNotApply(at);
    return;
  }
  const notChecked = (reason: string, missing: readonly MissingField[]): void =>
    report.notChecked({ where: [at], reason, facts: { at: { place: at } }, missing });
  const least = limit.value;
  if (least === undefined) return notChecked("least", [{ part: part.part.id, parameter: limit.parameter }]);
  const chemistry = unstatedChemistry([found.pack]);
  if (chemistry.length > 0) return notChecked("chemistry", chemistry);
  if (found.atMost < least) {
    report.fails({
      message: found.pack.duty === "traction" ? "pack" : "auxiliary",
      severity: "NOTICE",
      facts: {
        at: { place: at },
        part: { place: partPlace(part) },
        volts: { value: found.volts, dimension: "voltage" },
        limit: { value: least, dimension: "voltage" },
        state: { states: [found.state.name] },
      },
      where: [at],
      states: [found.state.name],
      value: found.volts,
      limit: least,
      unit: "V",
      variant: limit.parameter,
      touches: found.pack.blocks.map(partPlace),
      ...(found.pack.duty === "traction" ? {} : { source: LOWEST_AUXILIARY_SOURCE }),
    });
    return;
  }
  if (found.volts < least) return notChecked("range", unstatedResistance([found.pack]));
  const assumed = assumedOnTheWay(analysis, found, [plus, minus]);
  if (assumed.length > 0) return notChecked("wires", assumed);
  report.passes(at);
}

function run(analysis: Analysis, report: Report): void {
  for (const part of analysis.network.parts) {
    for (const limit of part.kind.limits(part.values)) {
      if (limit.kind === "voltage-least") look(analysis, report, part, limit);
    }
  }
}

export const undervoltage = defineCheck({
  id: "undervoltage",
  group: "voltages",
  title: "Less voltage than a part needs",
  about:
    "Compares the lowest voltage under load across each part that needs a least voltage: pack at 10 % of charge while driving, 12 V battery at 10.5 V where no converter holds it up. " +
    "Only states count in which closed contacts and wires join the part to its battery.",
  severities: ["NOTICE"],
  source: {
    text: "the part's own rating against the open-circuit voltage of its battery's chemistry",
    known: "memory",
  },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    pack: {
      title: "At {at} the voltage falls to {volts} in {state}, below the {limit} that the part needs.",
      why: "{part} then cuts out or limits itself, in the middle of a hill or a crossing, although the pack is not empty.",
      mend: "Check the least voltage that is set in {part} against the pack, use thicker cables, or charge earlier.",
    },
    auxiliary: {
      title:
        "At {at} the voltage falls to {volts} in {state} with a low 12 V battery, below the {limit} that the part needs.",
      why: "{part} then drops out or starts again in the middle of its work.",
      mend: "Feed {part} from a point that the converter holds up, or choose one that works on less.",
    },
  },
  reasons: {
    least: "Nobody stated what least voltage the part needs at {at}.",
    chemistry: "The chemistry of the battery that feeds {at} is unstated, so that its lowest voltage is not known.",
    range:
      "How far the voltage at {at} falls depends on the resistance of the batteries, of which only a range is known.",
    wires: "How far the voltage at {at} falls depends on wires whose length or size is unstated.",
  },
  foldsUnder: ["supply-reversed", "block-reversed", "source-shorted", "strings-unequal"],
  run,
});
