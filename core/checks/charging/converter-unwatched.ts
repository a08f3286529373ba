import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { NetworkPart } from "../../network/network.ts";
import type { Role } from "../../parts/element.ts";
import { auxiliaryBudget } from "../../studies/auxiliary-budget.ts";
import type { AuxiliarySystem, StateBudget } from "../../studies/auxiliary-budget.ts";
import { defineCheck } from "../define.ts";
import { partPlace } from "../words/places.ts";
import { undecidedFields } from "../words/undecided.ts";
import { wholeTime } from "../words/whole-time.ts";

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt"];
/** A lamp whose voltage halves or doubles is seen to change. */
const SEEN_CHANGE = 2;
/** Below this it does not glow. */
const LEAST_VOLTS = 1;

export const converterUnwatched = defineCheck({
  id: "converter-unwatched",
  group: "charging",
  title: "Converter that fails unseen",
  about:
    "Drives the vehicle and lets the one converter of the 12 V side fail: the battery then carries contactor and lamps by itself. It looks for anything that shows it: a voltmeter or gauge that measures this side, or a lamp or buzzer that changes with the converter. Two converters side by side, or a drive whose contactors hang on another supply, are left alone.",
  severities: ["NOTICE"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    minutes: {
      title: "{converter} alone feeds {contactors}, and nothing shows when it fails; the battery lasts {time} then.",
      why: "The first sign of a dead converter is the contactor that drops out while driving, with the lamps gone at the same time.",
      mend: "Fit a voltmeter on the 12 V side, or a lamp that lights when {converter} gives nothing.",
    },
    unknown: {
      title: "{converter} alone feeds {contactors}, and nothing shows when it fails.",
      why: "The first sign of a dead converter is the contactor that drops out while driving, with the lamps gone at the same time.",
      mend: "Fit a voltmeter on the 12 V side, or a lamp that lights when {converter} gives nothing.",
    },
  },
  reasons: {
    undecided: "Whether anything shows that {converter} has failed depends on what is not stated about a contact.",
  },
  run(analysis, report) {
    const driving = analysis.state("driving");
    let applies = false;
    for (const system of auxiliaryBudget(analysis).systems) {
      const budget = system.states.find(({ state }) => state === "driving");
      if (driving === undefined || budget === undefined || !system.battery) continue;
      const converter = onlyConverter(analysis, driving, system, budget);
      const contactors = contactorsOn(budget);
      if (converter === undefined || contactors.length === 0) continue;
      applies = true;
      const place = partPlace(converter);
      const facts = { converter: { place }, contactors: { places: contactors.map(partPlace) } };
      if (isMeasured(analysis, driving, system) || showsFailure(analysis, driving, converter)) report.passes(place);
      else if (undecidedFields(analysis).length > 0)
        report.notChecked({ where: [place], reason: "undecided", facts, missing: undecidedFields(analysis) });
      else {
        const alone = budget.outputs.length > 0 ? budget.onBatteryAlone : undefined;
        const [least] = alone ?? [];
        report.fails({
          message: least === undefined ? "unknown" : "minutes",
          facts: { ...facts, ...(least === undefined ? {} : { time: { value: wholeTime(least), dimension: "time" } }) },
          severity: "NOTICE",
          where: [place, ...contactors.map(partPlace)],
          states: [driving.name],
          ...(least === undefined ? {} : { value: least, unit: "s" }),
        });
      }
    }
    if (!applies) report.doesNotApply();
  },
});

/** The one output on this side, if it is a converter's; a diode may lie in its lead. */
function onlyConverter(
  analysis: Analysis,
  driving: SolvedState,
  { supply }: AuxiliarySystem,
  { outputs }: StateBudget,
): NetworkPart | undefined {
  const through: readonly Role[] = [...METAL, "diode"];
  const joined = analysis.network.branches.flatMap(({ role, part, index, a }) => {
    const isOutput = role === "source" && part?.kind.traits.converter === true;
    const delivers = isOutput && (driving.currents[index] ?? 0) > 0;
    return delivers && analysis.reach(driving, a, { through }).has(supply.positive) ? [part] : [];
  });
  const [first, ...more] = new Set([...outputs.map(({ part }) => part), ...joined]);
  return first?.kind.traits.converter === true && more.length === 0 ? first : undefined;
}

function contactorsOn({ loads }: StateBudget): readonly NetworkPart[] {
  const parts = loads.map(({ part }) => part).filter(({ kind }) => kind.traits.contactor === true);
  return parts.sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1)));
}

function branchesOf(analysis: Analysis, { firstBranch, branchCount }: NetworkPart) {
  return analysis.network.branches.slice(firstBranch, firstBranch + branchCount);
}

/** An instrument whose measuring side, not its supply, lies across this side. */
function isMeasured(analysis: Analysis, driving: SolvedState, { supply }: AuxiliarySystem): boolean {
  const [plus, minus] = [supply.positive, supply.negative].map((pole) =>
    analysis.reach(driving, pole, { through: METAL }),
  );
  return analysis.network.parts.some((part) => {
    const { kind, values } = part;
    if (kind.letter !== "P" || kind.traits.load === true) return false;
    const supplies = kind.supplyPairs(values).map((pair) => part.nodes.get(pair.plus));
    return branchesOf(analysis, part).some(
      ({ role, a, b }) => role === "sense" && !supplies.includes(a) && plus?.has(a) === true && minus?.has(b) === true,
    );
  });
}

/** A lamp or buzzer that lights or goes out when the converter gives nothing. */
function showsFailure(analysis: Analysis, driving: SolvedState, converter: NetworkPart): boolean {
  const output = branchesOf(analysis, converter).filter(({ role }) => role === "source");
  const failed = analysis.solveChanged(driving, { open: output.map(({ index }) => index) });
  return analysis.network.parts.some((part) => {
    const { kind, values } = part;
    if (kind.letter !== "P" || kind.traits.load !== true) return false;
    return kind.supplyPairs(values).some(({ plus, minus }) => {
      const [a, b] = [part.nodes.get(plus), part.nodes.get(minus)];
      if (a === undefined || b === undefined) return false;
      const [before, after] = [driving, failed].map((state) => Math.abs(state.between(a, b)) || 0);
      const [low, high] = [Math.min(before ?? 0, after ?? 0), Math.max(before ?? 0, after ?? 0)];
      return high > LEAST_VOLTS && high > SEEN_CHANGE * low;
    });
  });
}
