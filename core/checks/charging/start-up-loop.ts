import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Condition } from "../../parts/condition.ts";
import type { Role } from "../../parts/element.ts";
import { auxiliaryBudget } from "../../studies/auxiliary-budget.ts";
import type { AuxiliarySystem } from "../../studies/auxiliary-budget.ts";
import { defineCheck } from "../define.ts";
import type { MissingField } from "../define.ts";
import { closedFeed } from "../words/closed-feed.ts";
import { partPlace } from "../words/places.ts";
import { undecidedFields } from "../words/undecided.ts";

const METAL: readonly Role[] = ["conductor", "contact", "protection", "shunt"];

export const startUpLoop = defineCheck({
  id: "start-up-loop",
  group: "charging",
  title: "Converter that a flat 12 V battery keeps off",
  about:
    "Takes the 12 V battery as dead, turns the key on from parked, and plugs the charger in, and looks whether a converter, charger or other supply then reaches the 12 V side. If none does, the converter needs the very battery that it is there to charge. Jump leads and a charger brought along are not drawn and not counted.",
  severities: ["NOTICE"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    loop: {
      title:
        "With the battery at {battery} flat nothing can start {converters} again: that takes current from the very same battery.",
      why: "Lamps left on for a night, and a vehicle with a full pack stands still; people have then pushed relays by hand beside live leads.",
      mend: "Bring out two terminals for a jump lead from another 12 V battery, or let the charger feed the 12 V side while it is plugged in.",
    },
  },
  reasons: {
    enable:
      "Whether anything starts {converters} with a flat battery depends on an enable input or a contact of which too little is stated.",
  },
  run(analysis, report) {
    let applies = false;
    for (const system of auxiliaryBudget(analysis).systems) {
      const converters = convertersOf(system);
      const [battery] = system.supply.blocks;
      if (!system.battery || converters.length === 0 || battery === undefined) continue;
      applies = true;
      const places = converters.map(partPlace);
      const unstated = [
        ...converters
          .filter(({ kind, values }) => "enableInput" in kind.parameters && values.choice("enableInput") === undefined)
          .map(({ part }): MissingField => ({ part: part.id, parameter: "enableInput" })),
        ...undecidedFields(analysis),
      ];
      const facts = { converters: { places }, battery: { place: partPlace(battery) } };
      if (unstated.length > 0) report.notChecked({ where: places, reason: "enable", facts, missing: unstated });
      else if (startsAgain(analysis, system)) report.passes(...places);
      else report.fails({ message: "loop", facts, severity: "NOTICE", where: [...places, partPlace(battery)] });
    }
    if (!applies) report.doesNotApply();
  },
});

/** Converters that feed this side in some state. */
function convertersOf({ states }: AuxiliarySystem): readonly NetworkPart[] {
  const parts = states.flatMap(({ outputs }) => outputs.map(({ part }) => part));
  return [...new Set(parts)]
    .filter(({ kind }) => kind.traits.converter === true)
    .sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1)));
}

/**
 * With the battery taken out: key on, and plugged in. Begun from both states at rest, since a converter that a leak has
 * kept trying in one of them does not try again there.
 */
function startsAgain(analysis: Analysis, { supply }: AuxiliarySystem): boolean {
  const dead = analysis.network.branches.filter(
    ({ role, part }) => role === "source" && part !== undefined && supply.blocks.includes(part),
  );
  const open = dead.map(({ index }) => index);
  const atRest = ["parked", "stored"].flatMap((name) => analysis.state(name) ?? []);
  const attempts = ["parked", "ready", "charging"].flatMap((name) => analysis.state(name)?.condition ?? []);
  return atRest.some((state) =>
    attempts.some((attempt) => {
      const changed = analysis.solveChanged(state, { open, set: movedBy(analysis, state.condition, attempt) });
      return isFed(analysis, analysis.settledCapacitors(changed), supply, dead);
    }),
  );
}

/** Controls that stand elsewhere in another state. */
function movedBy({ network }: Analysis, from: Condition, to: Condition): Readonly<Record<string, string>> {
  return Object.fromEntries(
    network.parts.flatMap(({ part, kind, values }) => {
      const position = kind.control?.at(to, values);
      return position === undefined || position === kind.control?.at(from, values) ? [] : [[part.id, position]];
    }),
  );
}

/** A source other than the dead battery is joined to both its poles. */
function isFed(
  analysis: Analysis,
  state: SolvedState,
  { positive, negative }: AuxiliarySystem["supply"],
  dead: readonly Branch[],
): boolean {
  const [plus, minus] = [positive, negative].map((pole) => analysis.reach(state, pole, { through: METAL }));
  return analysis.network.branches.some((branch) => {
    const element = state.elements[branch.index];
    if (dead.includes(branch) || (branch.role !== "source" && element?.type !== "limited-source")) return false;
    if (element?.type !== "source" && element?.type !== "limited-source") return false;
    if (element.type === "limited-source" && !(element.limit > 0)) return false;
    return (
      element.emf > LEAST_SUPPLY &&
      isDriven(analysis, state, branch) &&
      plus?.has(branch.a) === true &&
      minus?.has(branch.b) === true
    );
  });
}

/** What a converter makes of a leak's voltage at its input starts nothing: its input has to be on a battery. */
function isDriven(analysis: Analysis, state: SolvedState, { part }: Branch): boolean {
  const inputs =
    part?.kind.supplyPairs(part.values).filter(({ main, direction }) => main && direction === "input") ?? [];
  const feed = closedFeed(analysis, state);
  return inputs.every(({ plus, minus }) => {
    const [a, b] = [part?.nodes.get(plus), part?.nodes.get(minus)];
    return a !== undefined && b !== undefined && feed.isFed(a, b);
  });
}

/** Signal sources of 5 V do not charge a battery. */
const LEAST_SUPPLY = 9;
