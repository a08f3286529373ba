import { auxiliaryBudget } from "../../studies/auxiliary-budget.ts";
import type { AuxiliarySystem, StateBudget } from "../../studies/auxiliary-budget.ts";
import type { MissingField } from "../../studies/missing-field.ts";
import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { partPlace } from "../words/places.ts";
import { wholeTime } from "../words/whole-time.ts";

/** Less than this above the limit is rounding. */
const LEAST_SHORTFALL = 0.01;

export const converterOverloaded = defineCheck({
  id: "converter-overloaded",
  group: "charging",
  title: "Converter smaller than its loads",
  about:
    "Adds up what the 12 V side draws in each state in which a converter, charger or supply is on, and holds it against what these may give together. What flows into a battery to charge it is not counted. The minutes are those until the part of the battery's charge that may be used is gone.",
  severities: ["WARNING"],
  source: { text: "Converter's rating plate against the loads' stated power", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    battery: {
      title:
        "The 12 V side draws {demand} in {states}, and {capable} at most come from {converters}: the battery adds the rest for {time}.",
      why: "A converter at its limit lets the voltage fall and runs hot; once the battery is empty, lamps, pumps and the contactor's coil go out together.",
      mend: "Fit a larger converter, or leave fewer loads on at the same time.",
    },
    unknown: {
      title:
        "The 12 V side draws {demand} in {states}, and {capable} at most come from {converters}: the battery has to add the rest.",
      why: "A converter at its limit lets the voltage fall and runs hot; once the battery is empty, lamps, pumps and the contactor's coil go out together.",
      mend: "Fit a larger converter, or leave fewer loads on at the same time; fill in the battery's capacity to see how long it lasts.",
    },
    alone: {
      title:
        "The loads behind {converters} draw {demand} in {states}, where {capable} at most can come, and no battery helps.",
      why: "Above its limit a converter lets the voltage fall or switches off, and everything on it with it.",
      mend: "Fit a larger converter, leave fewer loads on at the same time, or put a battery on its output.",
    },
  },
  reasons: {
    limit: "Whether {converters} can feed the 12 V side cannot be told, as what they can give is not stated.",
    loads: "Whether {converters} can feed the 12 V side depends on loads whose draw is not stated.",
  },
  run(analysis, report) {
    const { systems } = auxiliaryBudget(analysis);
    let applies = false;
    for (const system of systems) {
      const fed = system.states.filter(({ outputs }) => outputs.length > 0);
      if (fed.length === 0) continue;
      applies = true;
      const over = fed.filter(({ shortfall }) => shortfall !== undefined && shortfall > LEAST_SHORTFALL);
      const worst = greatest(over);
      if (worst === undefined) {
        const at = greatest(fed);
        if (at === undefined) continue;
        const where = convertersOf(at);
        const limits = fieldsOf(fed, ({ outputs, demand }) =>
          demand <= LEAST_SHORTFALL
            ? []
            : outputs.flatMap(({ most, limitField }) =>
                most === undefined && limitField !== undefined ? [limitField] : [],
              ),
        );
        const loads = fieldsOf(fed, ({ assumed }) => assumed);
        const facts = { converters: { places: where } };
        if (limits.length > 0) report.notChecked({ where, reason: "limit", facts, missing: limits });
        else if (loads.length > 0) report.notChecked({ where, reason: "loads", facts, missing: loads });
        else report.passes(...where);
        continue;
      }
      const converters = convertersOf(worst);
      const [least] = worst.whileShort ?? [];
      const names = over.map(({ state }) => state);
      const capable = worst.capable ?? 0;
      report.fails({
        message: messageOf(system, least),
        facts: {
          converters: { places: converters },
          demand: { value: worst.demand, dimension: "current" },
          capable: { value: capable, dimension: "current" },
          states: { states: names },
          ...(least === undefined ? {} : { time: { value: wholeTime(least), dimension: "time" } }),
        },
        severity: "WARNING",
        where: [...converters, ...worst.loads.slice(0, NAMED_LOADS).map(({ part }) => partPlace(part))],
        states: names,
        value: worst.demand,
        limit: capable,
        unit: "A",
      });
    }
    if (!applies) report.doesNotApply();
  },
});

/** The heaviest loads that a finding names. */
const NAMED_LOADS = 4;

function messageOf({ battery }: AuxiliarySystem, least: number | undefined): string {
  if (!battery) return "alone";
  return least === undefined ? "unknown" : "battery";
}

/** The state with the greatest shortfall, of equals that with the greatest demand. */
function greatest(states: readonly StateBudget[]): StateBudget | undefined {
  const rank = ({ shortfall, demand }: StateBudget): number => (shortfall ?? 0) * 1e6 + demand;
  return states.reduce<StateBudget | undefined>(
    (most, each) => (most === undefined || rank(each) > rank(most) * 1.000001 ? each : most),
    undefined,
  );
}

function convertersOf({ outputs }: StateBudget): readonly Place[] {
  const parts = outputs.map(({ part }) => part).sort((a, b) => Number(a.part.id.slice(1)) - Number(b.part.id.slice(1)));
  return parts.map(partPlace);
}

function fieldsOf(
  states: readonly StateBudget[],
  fields: (state: StateBudget) => readonly MissingField[],
): readonly MissingField[] {
  return [...new Map(states.flatMap(fields).map((field) => [JSON.stringify(field), field])).values()];
}
