/**
 * Pre-charge of a drawing: for each controller the capacitance on its bus, the resistor that fills it as drawn, and the
 * one that `choosePrecharge` would choose; with what the resistor has to stand, also with the bus shorted for good.
 */
import type { Analysis, Pack, SolvedState } from "../circuit/analysis.ts";
import type { Branch, NetworkPart, NodeIndex } from "../network/network.ts";
import type { Role } from "../parts/element.ts";
import type { Ampere, Farad, Joule, Ohm, Ratio, Second, Volt, Watt } from "../quantity/kinds.ts";
import type { MissingField } from "./missing-field.ts";
import { choosePrecharge } from "./precharge-choice.ts";
import type { PrechargeAnswer, PrechargeQuestion } from "./precharge-choice.ts";
import type { Study } from "./study.ts";
import { belongingAt } from "./words/belongs.ts";

/** What is between the pack and the bus while nothing but a resistor joins them. */
export interface PrechargePath {
  /** The state in which it is seen. */
  readonly state: SolvedState;
  readonly resistors: readonly NetworkPart[];
  readonly resistance: Ohm;
  /** What bleeders and loads draw through it once the bus has settled. */
  readonly load: Ampere;
}

export interface ResistorStrain {
  readonly part: NetworkPart;
  /** Its share of the heat of one full charge, and what it states to stand; undefined: unstated. */
  readonly energy: Joule;
  readonly pulseEnergy: Joule | undefined;
  /** Its share with the bus shorted for good. */
  readonly shortedPower: Watt;
  readonly power: Watt | undefined;
  /** When the controller gives up, which ends it; undefined: nothing on the drawing says so. */
  readonly endsAfter: Second | undefined;
}

export interface PrechargeOfController {
  readonly controller: NetworkPart;
  readonly pack: Pack;
  readonly capacitors: readonly NetworkPart[];
  readonly capacitance: Farad | undefined;
  readonly path: PrechargePath | undefined;
  /** The resistor as drawn, judged; undefined without a path or a capacitance. */
  readonly asDrawn: Study<PrechargeQuestion, PrechargeAnswer | undefined> | undefined;
  readonly proposed: Study<PrechargeQuestion, PrechargeAnswer | undefined>;
  readonly strain: readonly ResistorStrain[];
  readonly missing: readonly MissingField[];
}

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt"];
const WITH_RESISTOR: readonly Role[] = [...METAL, "resistor"];
/** Where a path through a resistor alone may be seen: while it fills, or where it stays across an open contactor. */
const STATES: readonly string[] = ["pre-charging", "key-on", "parked"];

/** Every controller that a traction pack feeds, in the order of the document. */
export function prechargeStudies(analysis: Analysis): readonly PrechargeOfController[] {
  return analysis.network.parts.flatMap((controller): PrechargeOfController[] => {
    if (controller.kind.traits.controller !== true) return [];
    const main = controller.kind.supplyPairs(controller.values).find((pair) => pair.main);
    const [plus, minus] = [main?.plus, main?.minus].map((id) =>
      id === undefined ? undefined : controller.nodes.get(id),
    );
    const pack = plus === undefined ? undefined : belongingAt(analysis, plus).traction[0];
    if (plus === undefined || minus === undefined || pack === undefined) return [];
    return [studyOf(analysis, controller, pack, plus, minus)];
  });
}

function studyOf(
  analysis: Analysis,
  controller: NetworkPart,
  pack: Pack,
  plus: NodeIndex,
  minus: NodeIndex,
): PrechargeOfController {
  const { branches, missing } = capacitorsOn(analysis, plus, minus);
  const each = branches.map(({ index }) => analysis.states[0]?.elements[index]);
  const farads = each.map((element) => (element?.type === "capacitor" ? element.capacitance : undefined));
  const capacitance = farads.some((own) => own === undefined)
    ? undefined
    : farads.reduce<Farad>((sum, own) => sum + (own ?? 0), 0);
  const path = pathTo(analysis, pack, plus);
  const { values } = controller;
  const time = values.number("prechargeTimeout");
  const share: Ratio | undefined = values.number("prechargeThreshold");
  const volts: Volt = pack.highest;
  const common = {
    capacitance,
    volts,
    ...(time === undefined ? {} : { time }),
    ...(share === undefined ? {} : { share }),
  };
  const asDrawn =
    path === undefined ? undefined : choosePrecharge({ ...common, resistor: path.resistance, load: path.load });
  const proposed = choosePrecharge({ ...common, ...(path === undefined ? {} : { load: path.load }) });
  return {
    controller,
    pack,
    capacitors: branches.flatMap(({ part }) => part ?? []),
    capacitance,
    path,
    asDrawn,
    proposed,
    strain: path === undefined ? [] : strainOf(path, asDrawn?.answer, time),
    missing: [
      ...missing,
      ...(path?.resistors ?? []).flatMap(({ part, values: own }): MissingField[] =>
        own.number("resistance") === undefined ? [{ part: part.id, parameter: "resistance" }] : [],
      ),
    ],
  };
}

/** Capacitors that metal joins to both sides of the bus while the vehicle drives. */
function capacitorsOn(
  analysis: Analysis,
  plus: NodeIndex,
  minus: NodeIndex,
): { readonly branches: readonly Branch[]; readonly missing: readonly MissingField[] } {
  const state = analysis.state("ready") ?? analysis.state("driving") ?? analysis.states[0];
  if (state === undefined) return { branches: [], missing: [] };
  const [above, below] = [plus, minus].map((node) => analysis.reach(state, node, { through: METAL }));
  const branches = analysis.network.branches.filter(
    ({ role, a, b }) =>
      role === "capacitor" &&
      above !== undefined &&
      below !== undefined &&
      ((above.has(a) && below.has(b)) || (above.has(b) && below.has(a))),
  );
  const missing = branches.flatMap(({ index, part }): MissingField[] => {
    const element = state.elements[index];
    if (part === undefined || element?.type !== "capacitor" || element.capacitance !== undefined) return [];
    const parameter = Object.keys(part.kind.parameters).find((name) => /capacitance$/i.test(name));
    return parameter === undefined ? [] : [{ part: part.part.id, parameter }];
  });
  return { branches, missing };
}

function pathTo(analysis: Analysis, pack: Pack, plus: NodeIndex): PrechargePath | undefined {
  for (const name of STATES) {
    const state = analysis.state(name);
    if (state === undefined || analysis.reach(state, pack.positive, { through: METAL }).has(plus)) continue;
    const way = analysis.path(state, pack.positive, plus, { through: WITH_RESISTOR });
    const resistors = (way ?? []).filter(({ role }) => role === "resistor");
    const [first] = resistors;
    if (first === undefined) continue;
    const ohms = resistors.map(({ index }) => {
      const element = state.elements[index];
      return element?.type === "resistance" ? element.resistance : 0;
    });
    const settled = analysis.settledCapacitors(state);
    return {
      state,
      resistors: resistors.flatMap(({ part }) => part ?? []),
      resistance: ohms.reduce((sum, own) => sum + own, 0),
      load: Math.abs(settled.currents[first.index] ?? 0),
    };
  }
  return undefined;
}

function strainOf(
  { resistors, resistance }: PrechargePath,
  answer: PrechargeAnswer | undefined,
  endsAfter: Second | undefined,
): readonly ResistorStrain[] {
  if (answer === undefined) return [];
  return resistors.map((part): ResistorStrain => {
    const share = (part.values.number("resistance") ?? resistance / resistors.length) / resistance;
    return {
      part,
      energy: share * answer.pulseEnergy,
      pulseEnergy: part.values.number("pulseEnergy"),
      shortedPower: share * answer.shortedPower,
      power: part.values.number("power"),
      endsAfter,
    };
  });
}
