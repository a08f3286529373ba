import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { elementOf } from "../../circuit/questions.ts";
import type { Condition } from "../../parts/condition.ts";
import { KINDS } from "../../parts/catalogue.ts";
import { execute } from "../../project/commands/define.ts";
import { setParameter } from "../../project/commands/set-parameter.ts";
import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { supplyPairs } from "../../studies/words/supply-pairs.ts";
import type { PairAt } from "../../studies/words/supply-pairs.ts";
import { closedFeed } from "../words/closed-feed.ts";
import { chargerOutputs } from "../words/charger-outputs.ts";
import type { ChargerOutput } from "../words/charger-outputs.ts";
import { partPlace } from "../words/places.ts";

export const chargerWithoutPack = defineCheck({
  id: "charger-without-pack",
  group: "charging",
  title: "Charger on the drive without the pack",
  about:
    "Plugs the charger in with the vehicle parked, with the disconnect out, while driving, and with the key on and the disconnect out, and looks whether the charger then delivers to a controller, motor, converter or heater that the pack does not reach. A charger that detects its battery delivers nothing by itself; a contact in its mains that opens together with the pack stops it too.",
  severities: ["WARNING"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    alone: {
      title: "With the pack cut off {charger} alone feeds {loads} in {states}: up to {volts}.",
      why: "Without a battery to hold it down the charger's voltage jumps as the load changes, and that has cost controllers their lives.",
      mend: "Use a charger that detects its battery, or lead its mains over a contact that opens together with the pack.",
    },
  },
  reasons: {
    detection:
      "Whether {charger} can feed {loads} without the pack depends on whether it detects a battery, which is not stated.",
    voltage: "Whether {charger} can feed {loads} without the pack cannot be told, as its output voltage is not stated.",
  },
  run(analysis, report) {
    const outputs = chargerOutputs(analysis);
    if (outputs.length === 0) {
      report.doesNotApply();
      return;
    }
    const states = pluggedStates(analysis);
    const loads = supplyPairs(analysis.network).filter(
      ({ part, pair }) =>
        pair.direction === "input" && part.kind.traits.load === true && part.kind.traits.charger !== true,
    );
    for (const output of outputs) {
      const { part, place } = output;
      const charger = { place: partPlace(part) };
      const joined = states
        .map(({ name, state }) => ({ name, state, loads: loadsWithoutPack(analysis, state, output, loads) }))
        .filter((each) => each.loads.length > 0);
      const reached: readonly Place[] = [
        ...new Set(joined.flatMap((each) => each.loads.map(({ part: load }) => load))),
      ].map(partPlace);
      const facts = { charger, loads: { places: reached } };
      const detects = part.values.choice("batteryDetect");
      const volts = part.values.number("outputVoltageMax");
      const live = joined.filter(({ state }) => delivers(analysis, state, output));
      if (joined.length === 0 || detects === "yes") report.passes(place);
      else if (volts === undefined)
        report.notChecked({
          where: [place],
          reason: "voltage",
          facts,
          missing: [{ part: part.part.id, parameter: "outputVoltageMax" }],
        });
      else if (live.length === 0) report.passes(place);
      else if (detects === undefined)
        report.notChecked({
          where: [place],
          reason: "detection",
          facts,
          missing: [{ part: part.part.id, parameter: "batteryDetect" }],
        });
      else {
        const names = live.map(({ name }) => name);
        report.fails({
          message: "alone",
          facts: { ...facts, states: { states: names }, volts: { value: volts, dimension: "voltage" } },
          severity: "WARNING",
          where: [place, ...reached],
          states: names,
          value: volts,
          unit: "V",
          remedies: [
            {
              id: "detects-battery",
              label: "Use a charger that detects its battery",
              apply: (project) =>
                execute(
                  project,
                  setParameter,
                  { changes: [{ part: part.part.id, name: "batteryDetect", value: "yes" }] },
                  KINDS,
                ).project,
            },
          ],
        });
      }
    }
  },
});

interface Plugged {
  readonly name: string;
  readonly state: SolvedState;
}

/** What a person may do with the cord in: park, pull the disconnect, drive, and pull the disconnect with the key on. */
function pluggedStates(analysis: Analysis): readonly Plugged[] {
  const charging = analysis.state("charging");
  const known = [...(charging === undefined ? [] : [charging]), ...analysis.plugged];
  const keyOn = analysis.state("ready");
  if (keyOn === undefined || analysis.state("stored") === undefined)
    return known.map((state) => ({ name: state.name, state }));
  const state = analysis.solveChanged(keyOn, { set: movedBy(analysis, keyOn.condition) });
  return [
    ...known.map((each) => ({ name: each.name, state: each })),
    { name: "ready while plugged in with the disconnect out", state },
  ];
}

/** Controls that stand elsewhere once the cord is in and the disconnect out. */
function movedBy({ network }: Analysis, condition: Condition): Readonly<Record<string, string>> {
  const after: Condition = { ...condition, mains: "plugged", disconnect: "out" };
  return Object.fromEntries(
    network.parts.flatMap(({ part, kind, values }) => {
      const position = kind.control?.at(after, values);
      return position === undefined || position === kind.control?.at(condition, values) ? [] : [[part.id, position]];
    }),
  );
}

/** Loads that hang on the charger's own poles in a state in which no pack does. */
function loadsWithoutPack(
  analysis: Analysis,
  state: SolvedState,
  { plus, minus }: ChargerOutput,
  loads: readonly PairAt[],
): readonly PairAt[] {
  const feed = closedFeed(analysis, state);
  if (feed.isFed(plus, minus) || feed.island(plus) === feed.island(minus)) return [];
  return loads.filter(
    (load) => feed.island(load.plus) === feed.island(plus) && feed.island(load.minus) === feed.island(minus),
  );
}

/** Its output is switched on. */
function delivers({ network }: Analysis, state: SolvedState, { part }: ChargerOutput): boolean {
  const output = elementOf(state, network, part, "output-switch")?.element;
  return output?.type === "contact" && output.closed;
}
