import type { SolvedState } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import { CLASS_B_DC, CLASS_B_SOURCE } from "../../standards/voltage-class.ts";
import { defineCheck, SEVERITIES } from "../define.ts";
import type { Place, Severity } from "../define.ts";
import { feedingResistors } from "../words/feeding-resistors.ts";
import { partPlace } from "../words/places.ts";
import { packVolts, tractionPairs } from "../words/traction-pairs.ts";
import type { TractionPair } from "../words/traction-pairs.ts";

/** States in which the drive is meant to be cut off. */
const CUT_OFF = ["stored", "parked", "emergency-stop"] as const;

export const prechargeBypassesSwitch = defineCheck({
  id: "precharge-bypasses-switch",
  group: "precharge",
  title: "Resistor feeds past the open switch",
  about:
    "Looks at the vehicle stored, parked and with the emergency stop pressed: where no closed contact feeds a traction load but a resistor does, the load stays at the pack's voltage. Up to 60 V a resistor that is always across the contactor is common, accepted practice.",
  severities: ["DANGER", "WARNING", "NOTICE"],
  source: CLASS_B_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {
    notChecked:
      "Which contacts stand open follows from the drawing alone, and any resistor feeds a load that draws nothing.",
  },
  messages: {
    stored: {
      title: "With the disconnect out the pack still reaches {loads} through {resistors}: up to {volts} stands there.",
      why: "Whoever has pulled the disconnect takes the circuit for dead and puts his hands on it.",
      mend: "Move the end of {resistors} that comes from the pack to the load side of the disconnect.",
    },
    open: {
      title:
        "Past the open contactor the pack reaches {loads} through {resistors}: up to {volts} stands there in {states}.",
      why: "The contactor cuts off the power, but the load stays charged to the pack's voltage for as long as the vehicle stands.",
      mend: "Put a contact of its own in series with {resistors}, closed only while pre-charging; up to 60 V it is accepted practice to leave it so.",
    },
  },
  reasons: {},
  run(analysis, report) {
    const findings = new Map<string, Bypass[]>();
    const seen = new Set<string>();
    for (const at of tractionPairs(analysis)) {
      for (const state of analysis.states) {
        const resistors = feedingResistors(analysis, state, at);
        if (resistors.length === 0) continue;
        const key = resistors.map(({ index }) => index).join(" ");
        for (const { part } of resistors) if (part !== undefined) seen.add(part.part.id);
        const name = CUT_OFF.find((cutOff) => cutOff === state.name);
        if (name === undefined) continue;
        findings.set(key, [...(findings.get(key) ?? []), { at, state, name, resistors }]);
      }
    }
    const flagged = new Set<string>();
    for (const bypasses of findings.values()) {
      const [first] = bypasses;
      if (first === undefined) continue;
      const resistors = first.resistors.flatMap(({ part }) => (part === undefined ? [] : [partPlace(part)]));
      for (const place of resistors) if ("part" in place) flagged.add(place.part);
      const loads = [...new Set(bypasses.map(({ at }) => at))];
      const volts = packVolts(loads.flatMap(({ packs }) => packs));
      const stored = bypasses.some(({ name }) => name === "stored");
      const names = [...new Set(bypasses.map(({ name }) => name))];
      report.fails({
        message: stored ? "stored" : "open",
        facts: {
          resistors: { places: resistors },
          loads: { places: loads.map(({ place }) => place) },
          volts: { value: volts, dimension: "voltage" },
          states: { states: names },
        },
        severity: bypasses.map((bypass) => severityOf(bypass)).reduce(worse),
        where: [...resistors, ...loads.map(({ place }) => place)],
        states: names,
        value: volts,
        limit: CLASS_B_DC,
        unit: "V",
      });
    }
    const passed = [...seen].filter((part) => !flagged.has(part)).map((part): Place => ({ part }));
    if (passed.length > 0) report.passes(...passed);
    else if (flagged.size === 0) report.doesNotApply();
  },
});

interface Bypass {
  readonly at: TractionPair;
  readonly state: SolvedState;
  readonly name: (typeof CUT_OFF)[number];
  readonly resistors: readonly Branch[];
}

function severityOf({ at, name }: Bypass): Severity {
  const high = packVolts(at.packs) > CLASS_B_DC;
  if (name === "stored") return high ? "DANGER" : "WARNING";
  return high ? "WARNING" : "NOTICE";
}

function worse(a: Severity, b: Severity): Severity {
  return SEVERITIES.indexOf(a) <= SEVERITIES.indexOf(b) ? a : b;
}
