import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { defineCheck } from "../define.ts";
import { ClosedFeed, closedFeed } from "../words/closed-feed.ts";
import { chargerOutputs } from "../words/charger-outputs.ts";
import { partPlace } from "../words/places.ts";
import { maybeClosed, undecidedFields } from "../words/undecided.ts";

export const chargerJoinedWhileDriving = defineCheck({
  id: "charger-joined-while-driving",
  group: "charging",
  title: "Charger on the traction circuit while driving",
  about:
    "Drives the vehicle and looks whether wires and closed contacts still join a charger's output to the traction pack. A contact that opens, or a diode that does not conduct towards the charger, keeps it off. What the charger has inside to protect itself is not drawn and not counted.",
  severities: ["NOTICE"],
  source: { text: "Common practice", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    joined: {
      title: "{charger} stays on the traction circuit in {states}; nothing between them opens.",
      why: "The rapid pulses of the controller's current and the swings of the pack's voltage work on the charger's output the whole way, which has cost chargers their output diodes.",
      mend: "Put a contact into the lead of {charger} that closes only while it is plugged in, for instance on the charger's own 12 V output, or a diode towards the pack.",
    },
  },
  reasons: {
    undecided:
      "Whether {charger} is off the traction circuit while driving depends on what is not stated about a contact.",
  },
  run(analysis, report) {
    const driving = drivingStates(analysis);
    const outputs = chargerOutputs(analysis);
    if (driving.length === 0 || outputs.length === 0) {
      report.doesNotApply();
      return;
    }
    for (const { part, place, plus, minus } of outputs) {
      const facts = { charger: { place: partPlace(part) } };
      const states = driving.filter((state) => closedFeed(analysis, state).isFed(plus, minus)).map(({ name }) => name);
      if (states.length > 0) {
        report.fails({
          message: "joined",
          facts: { ...facts, states: { states } },
          severity: "NOTICE",
          where: [place],
          states,
        });
      } else if (driving.some((state) => mayBeFed(analysis, state, plus, minus)))
        report.notChecked({ where: [place], reason: "undecided", facts, missing: undecidedFields(analysis) });
      else report.passes(place);
    }
  },
});

function drivingStates({ states }: Analysis): readonly SolvedState[] {
  return states.filter(({ condition }) => condition.drive !== "none" && condition.emergencyStop === "released");
}

function mayBeFed(analysis: Analysis, state: SolvedState, plus: number, minus: number): boolean {
  const also = maybeClosed(analysis, state);
  return also.size > 0 && new ClosedFeed(analysis, state, { also }).isFed(plus, minus);
}
