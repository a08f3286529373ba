import type { Analysis } from "../../circuit/analysis.ts";
import type { Discharge, Transition, TransitionName } from "../../circuit/transition/transition.ts";
import type { Branch, NetworkPart } from "../../network/network.ts";
import type { Farad, Second } from "../../quantity/kinds.ts";
import {
  DISCHARGE_ENERGY,
  DISCHARGE_NOTICE,
  DISCHARGE_NOTICE_SOURCE,
  DISCHARGE_TIME,
  DISCHARGE_TIME_SOURCE,
  energyAbove,
} from "../../standards/discharge.ts";
import { CLASS_B_DC } from "../../standards/voltage-class.ts";
import { tractionPacks } from "../../studies/words/live.ts";
import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { assumedOf, endStates, followed, whenFact } from "../words/in-time.ts";
import { joinedIn } from "../words/joined.ts";
import { partPlace } from "../words/places.ts";

/** What switches the vehicle off on purpose. */
const OFF: readonly TransitionName[] = ["key-off", "emergency-stop", "unplug", "disconnect"];

export const staysCharged = defineCheck({
  id: "stays-charged",
  group: "precharge",
  title: "Stays charged after switching off",
  about:
    "Follows the vehicle through switching off by key, emergency stop, charging plug and disconnect, and looks how long capacitors that nothing feeds any more stay above 60 V. Energy counts only above 60 V, so that very small capacitors pass. Up to 60 V nothing is looked at; what stays on the battery while parked belongs to other checks.",
  severities: ["WARNING", "NOTICE"],
  source: DISCHARGE_TIME_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    long: {
      title: "{at} stay above 60 V for {time} {when}, against {limit}: they start from {volts} and hold {energy} above it.",
      why: "Whoever opens the box after switching off takes it for dead and gets the whole charge of the capacitors.",
      mend: "Put a resistor across {plus} that empties them within {limit}, and one that stands the battery's voltage for good, or a discharge contact that closes when the main contact opens.",
    },
  },
  reasons: {
    bleed: "How long {at} stay above 60 V depends on what drains them inside, which is not stated.",
    capacitance: "How long {at} stays above 60 V cannot be told, as its capacitance is not stated.",
    broken: "How long {at} stay above 60 V {when} cannot be told: some contacts find no rest there.",
  },
  foldsUnder: ["held-by-backfeed", "main-switch-missing"],
  run(analysis, report) {
    const high = tractionPacks(analysis).some(({ highest }) => highest > CLASS_B_DC);
    if (!high) {
      report.doesNotApply();
      return;
    }
    const { whole, broken } = followed(analysis, OFF);
    const unknown = [...assumedOf([...whole, ...broken], "capacitance")].filter(([part]) => isHigh(analysis, part));
    for (const [part, field] of unknown) {
      const place = partPlace(part);
      report.notChecked({ where: [place], reason: "capacitance", facts: { at: { place } }, missing: [field] });
    }
    const buses = together(analysis, whole);
    if (buses.length === 0 && unknown.length === 0) report.doesNotApply();
    for (const bus of buses) judge(analysis, bus, broken, report);
  },
});
