import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import { CLASS_B_DC, CLASS_B_SOURCE } from "../../standards/voltage-class.ts";
import { defineCheck } from "../define.ts";
import type { NotChecked } from "../define.ts";
import { closedFeed } from "../words/closed-feed.ts";
import { chemistryRange } from "../words/chemistry-range.ts";
import { partPlace } from "../words/places.ts";
import { fedBetween, packVolts, poweredContacts, tractionPairs, unstatedDrivers } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

export const liveWhenParked = defineCheck({
  id: "live-when-parked",
  group: "switching",
  title: "Load on the pack while parked",
  about:
    "Parks the vehicle with the key off and looks whether closed contacts and wires feed a load from a pack above 60 V. A load that is stated to be always on is taken as meant. Leads up to an open contact are live as well; they are not flagged.",
  severities: ["WARNING"],
  source: CLASS_B_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    live: {
      title: "With the key off {load} stays on the pack, at {volts}; more than {limit} is dangerous to touch.",
      why: "A parked vehicle carries a deadly voltage to this part, and the part goes on emptying the pack.",
      mend: "Feed {load} from behind the main contactor or through a contact of its own, or state that it is always on if that is meant.",
    },
  },
  reasons: {
    neverClosed: "Whether {load} is dead when parked cannot be told, as the contacts ahead of it close in no state.",
    chemistry:
      "Whether {load} stands on more than 60 V when parked depends on the chemistry of the pack, which is not stated.",
  },
  foldsUnder: ["enable-bypasses-key", "main-switch-missing", "held-by-backfeed", "string-tap"],
  run(analysis, report) {
    const parked = analysis.state("parked");
    if (parked === undefined) return;
    for (const at of tractionPairs(analysis)) {
      const load = { place: partPlace(at.part) };
      const range = chemistryRange(at.packs);
      if (range.most <= CLASS_B_DC) {
        report.doesNotApply(at.place);
        continue;
      }
      const fed = fedBetween(analysis, closedFeed(analysis, parked), at);
      if (fed === undefined) {
        // Below 60 V or above it, nobody knows, and it is off: no verdict that a stated chemistry would not give.
        if (range.least <= CLASS_B_DC) report.doesNotApply(at.place);
        else if (at.states.length > 0) report.passes(at.place);
        else report.notChecked(unknown(at, "neverClosed", unstatedDrivers(analysis)));
      } else if (range.least <= CLASS_B_DC) report.notChecked(unknown(at, "chemistry", range.missing));
      else if (at.part.values.choice("alwaysOn") === "yes") report.passes(at.place);
      else {
        const volts = packVolts(at.packs);
        report.fails({
          message: "live",
          facts: {
            load,
            volts: { value: volts, dimension: "voltage" },
            limit: { value: CLASS_B_DC, dimension: "voltage" },
          },
          severity: "WARNING",
          where: [at.place],
          touches: contactsOf(analysis, parked, fed),
          states: [parked.name],
          value: volts,
          limit: CLASS_B_DC,
          unit: "V",
        });
      }
    }
  },
});

function unknown(at: TractionPair, reason: string, missing: NotChecked["missing"]): NotChecked {
  return { where: [at.place], reason, facts: { load: { place: partPlace(at.part) } }, missing };
}

function contactsOf(
  analysis: Analysis,
  state: SolvedState,
  fed: readonly [number, number],
): readonly { readonly part: string }[] {
  return poweredContacts(analysis, state, fed).map(({ part }) => ({ part: part.id }));
}
