import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, Conductor, NetworkPart, NodeIndex } from "../../network/network.ts";
import { conductorResistance } from "../../standards/conductors.ts";
import { CRITICAL_DROP, OTHER_DROP, VOLTAGE_DROP_SOURCE } from "../../standards/voltage-drop.ts";
import type { Ampere, Ratio, Volt } from "../../quantity/kinds.ts";
import { nextLargerSize } from "../../quantity/size.ts";
import type { ConductorSize } from "../../quantity/size.ts";
import { nominalVoltage } from "../../studies/words/nominal-voltage.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Place, Remedy, Report } from "../define.ts";
import { JOINT } from "../../network/wire-resistance.ts";
import { coilsOf } from "../words/coils.ts";
import { motorLoops, phaseLeads, stageCurrent } from "../../studies/words/motor-loops.ts";
import { endPlaces, terminalPlace } from "../words/places.ts";
import { stringsOf } from "../words/string-jumpers.ts";
import { carriesLoad, setSizes, sizeOf } from "../remedies/thicker-wire.ts";
import { dropsAt, lostIn } from "../../studies/words/voltage-drops.ts";
import type { Lost } from "../../studies/words/voltage-drops.ts";
import type { Walk } from "../../studies/words/fault-walk.ts";
import { LEAST, wireCurrents } from "../../studies/words/wire-currents.ts";

export const voltageDrop = defineCheck({
  id: "voltage-drop",
  group: "conductors",
  title: "Too much voltage lost in the wires",
  about:
    "Adds up what is lost in the wires from the source to every consumer and coil and back, with the wires as hot as their insulation allows, and compares it with the voltage of the source: 3 % for drive, controls, converters, brake and steering assist, 10 % for lamps, heaters and the like. For a drive the jumpers of the string and the leads of the motor count as well, at its continuous current; of an AC motor each of the three phases, as each of them turns that much into heat. Contacts and fuses are left out.",
  severities: ["NOTICE"],
  source: VOLTAGE_DROP_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    lost: {
      title: "The wires to {at} and back lose {lost} of {volts} in {states}; {limit} is the limit.",
      why: "What the wires lose heats them and is missing at the far end: the drive is weaker, lamps are dim, and a relay may drop out when the battery is low.",
      mend: "Use thicker or shorter wires; {worst} loses the most.",
    },
  },
  reasons: {
    approximate: "What is lost on the way to {at} rests on assumed wire lengths or sizes.",
    current: "How much current flows to {at} is not known.",
    purpose: "Whether {at} serves brakes or steering, and so may lose only 3 %, is not stated.",
  },
  foldsUnder: [
    "conductor-overloaded",
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
  ],
  run(analysis, report) {
    const loops = motorLoops(analysis);
    const pairs = supplyPairs(analysis.network);
    for (const { part, pair, plus, minus, wired } of pairs) {
      if (pair.direction !== "input" || !wired) continue;
      const loop = pair.main ? loops.get(part) : undefined;
      const leads = pair.main ? (loop ?? []) : undefined;
      look(analysis, { part, terminal: pair.plus, plus, minus, leads, limits: limitsOf(part) }, report);
    }
    const listed = new Set(pairs.map(({ plus, minus }) => `${plus} ${minus}`));
    for (const { part, coil, plus, minus, wired } of coilsOf(analysis)) {
      if (!wired || listed.has(`${plus} ${minus}`)) continue;
      const limits = { low: CRITICAL_DROP, high: CRITICAL_DROP };
      look(analysis, { part, terminal: coil.plus, plus, minus, leads: undefined, limits }, report);
    }
  },
});

/** What may be lost; a range where it is not stated what the consumer serves. */
function limitsOf({ kind, values }: NetworkPart): { readonly low: Ratio; readonly high: Ratio } {
  // What states its power is a plain consumer; electronics, drives and converters do not.
  if (!("power" in kind.parameters)) return { low: CRITICAL_DROP, high: CRITICAL_DROP };
  if (!("purpose" in kind.parameters)) return { low: OTHER_DROP, high: OTHER_DROP };
  const purpose = values.choice("purpose");
  if (purpose === undefined) return { low: CRITICAL_DROP, high: OTHER_DROP };
  const limit = purpose === "other" ? OTHER_DROP : CRITICAL_DROP;
  return { low: limit, high: limit };
}

interface Looked {
  readonly part: NetworkPart;
  readonly terminal: string;
  readonly plus: NodeIndex;
  readonly minus: NodeIndex;
  /** Of a drive: branches from a DC controller through its motor and back; undefined of everything else. */
  readonly leads: readonly Branch[] | undefined;
  readonly limits: { readonly low: Ratio; readonly high: Ratio };
}

interface Drop {
  readonly state: SolvedState;
  readonly wires: readonly Lost[];
  readonly volts: Volt;
  readonly share: Ratio;
  readonly of: Volt;
}

function dropsOf(analysis: Analysis, { part, plus, minus, leads }: Looked): readonly Drop[] {
  return dropsAt(analysis, plus, minus).flatMap((drop): Drop[] => {
    const of = nominalVoltage(analysis, drop.walk.feed);
    const { state } = drop.walk;
    const more =
      leads === undefined
        ? []
        : [
            ...lostIn(analysis, state, leads),
            ...lostInPhases(analysis, state, part),
            ...lostInString(analysis, drop.walk),
          ];
    const wires = [...drop.wires, ...more];
    const volts = wires.reduce((sum, each) => sum + each.volts, 0);
    return of > 0 ? [{ state, wires, volts, of, share: volts / of }] : [];
  });
}

/** Of parallel strings the one that loses the most. */
function lostInString(analysis: Analysis, { feed, state }: Walk): readonly Lost[] {
  const sum = (wires: readonly Lost[]): Volt => wires.reduce((total, { volts }) => total + volts, 0);
  const strings = feed.storage ? stringsOf(analysis, feed) : [];
  return strings
    .map((jumpers) =>
      lostIn(
        analysis,
        state,
        jumpers.map((conductor) => ({ conductor })),
      ),
    )
    .reduce<readonly Lost[]>((most, each) => (sum(each) > sum(most) ? each : most), []);
}

/** What alternates averages to nothing in a solved state: each phase carries what the output stage takes. */
function lostInPhases(analysis: Analysis, state: SolvedState, controller: NetworkPart): readonly Lost[] {
  const phases = phaseLeads(analysis, controller);
  const amperes = phases.length === 0 ? 0 : stageCurrent(analysis, state, controller);
  return phases.map((conductor) => ({ conductor, amperes, volts: amperes * conductor.hot }));
}

function look(analysis: Analysis, looked: Looked, report: Report): void {
  const { part, terminal, limits } = looked;
  const place = terminalPlace(part, terminal);
  const drops = dropsOf(analysis, looked);
  const carrying = drops.filter(({ wires }) => wires.some(({ amperes }) => amperes >= LEAST));
  const worst = carrying.reduce<Drop | undefined>(
    (most, drop) => (most === undefined || drop.share > most.share ? drop : most),
    undefined,
  );
  const facts = { at: { place } } as const;
  const conductors = new Set(drops.flatMap(({ wires }) => wires.map(({ conductor }) => conductor)));
  const unknown = unknownCurrent(analysis, conductors, looked);
  if (worst === undefined) {
    if (unknown.length > 0) report.notChecked({ where: [place], reason: "current", facts, missing: unknown });
    else report.doesNotApply(place);
    return;
  }
  const known = worst.wires.reduce((sum, { conductor, volts }) => sum + (conductor.assumed.length > 0 ? 0 : volts), 0);
  if (known / worst.of > limits.high && unknown.length === 0) {
    fail(analysis, looked, carrying, worst, report);
    return;
  }
  if (unknown.length > 0) {
    report.notChecked({ where: [place], reason: "current", facts, missing: unknown });
    return;
  }
  const assumed = [...conductors].flatMap(({ wire, assumed: fields }) =>
    fields.map((field): MissingField => ({ wire: wire.id, field })),
  );
  if (assumed.length > 0) report.notChecked({ where: [place], reason: "approximate", facts, missing: assumed });
  else if (worst.share <= limits.low) report.passes(place);
  else {
    const missing = [{ part: part.part.id, parameter: "purpose" }];
    report.notChecked({ where: [place], reason: "purpose", facts, missing });
  }
}

/** What would have to be stated of a drive or a load before its current is known. */
function unknownCurrent(
  analysis: Analysis,
  conductors: ReadonlySet<Conductor>,
  { part }: Looked,
): readonly MissingField[] {
  const currents = wireCurrents(analysis);
  const { kind, values } = part;
  const own = analysis.states[0]?.elements.slice(part.firstBranch, part.firstBranch + part.branchCount) ?? [];
  if (own.some((element) => element.role === "load" && "range" in element && element.range !== undefined)) {
    return ["voltage", ...(values.number("current") === undefined ? ["power"] : [])].flatMap(
      (parameter): MissingField[] =>
        parameter in kind.parameters && values.number(parameter) === undefined
          ? [{ part: part.part.id, parameter }]
          : [],
    );
  }
  const fields = [...conductors].flatMap((conductor) => currents.get(conductor)?.drive ?? []);
  return [...new Map(fields.map((field) => [JSON.stringify(field), field])).values()];
}

function fail(analysis: Analysis, looked: Looked, drops: readonly Drop[], worst: Drop, report: Report): void {
  const { part, terminal, limits } = looked;
  const place = terminalPlace(part, terminal);
  const limit = limits.high * worst.of;
  const states = drops.flatMap(({ state, share }) => (share > limits.high ? [state.name] : []));
  const most = worst.wires.reduce((best, each) => (each.volts > best.volts ? each : best));
  const wires = worst.wires.map(({ conductor }): Place => ({ wire: conductor.wire.id }));
  report.fails({
    message: "lost",
    facts: {
      at: { place },
      lost: { value: worst.volts, dimension: "voltage" },
      volts: { value: worst.of, dimension: "voltage" },
      limit: { value: limit, dimension: "voltage" },
      worst: { place: { wire: most.conductor.wire.id } },
      states: { states: [...new Set(states)] },
    },
    severity: "NOTICE",
    where: [place],
    states: [...new Set(states)],
    value: worst.volts,
    limit,
    unit: "V",
    // A wire that would do by itself to bring several within the limit is one mistake.
    ...(most.volts >= worst.volts - limit ? { cause: most.conductor.wire.id } : {}),
    touches: [...wires, ...worst.wires.flatMap(({ conductor }) => endPlaces(analysis.network, conductor.wire))],
    remedies: remedyOf(analysis, worst, limit),
  });
}

/** Thicker wires draw a little more current; what is proposed leaves room for it. */
const ROOM: Ratio = 0.95;

/**
 * The wires that lose the most, each raised step by step until the sum is within the limit; each to a size that carries
 * its current as well.
 */
function remedyOf(analysis: Analysis, { wires }: Drop, limit: Volt): readonly Remedy[] {
  const lost = new Map(wires.map((each) => [each.conductor, { ...each, size: sizeOf(each.conductor.wire) }]));
  const raised = new Map<string, ConductorSize>();
  const sum = (): Volt => [...lost.values()].reduce((total, { volts }) => total + volts, 0);
  while (sum() > limit * ROOM) {
    const most = [...lost.values()].reduce((best, each) => (each.volts > best.volts ? each : best));
    let size = most.size === undefined ? undefined : nextLargerSize(most.size);
    while (size !== undefined && !carriesLoad(analysis, most.conductor, size)) size = nextLargerSize(size);
    if (most.size === undefined || size === undefined) return [];
    const ratio = conductorResistance(size, 1) / conductorResistance(most.size, 1);
    lost.set(most.conductor, { ...most, size, volts: thinned(most, ratio, most.amperes) });
    raised.set(most.conductor.wire.id, size);
  }
  return raised.size === 0 ? [] : [setSizes(raised, "Use wires thick enough for this current")];
}

/** What a wire loses with its metal's resistance changed and its two joints as they are. */
function thinned({ conductor, volts }: Lost, ratio: Ratio, amperes: Ampere): Volt {
  const joints = Math.min(conductor.hot, 2 * JOINT) * amperes;
  return joints + Math.max(0, volts - joints) * ratio;
}
