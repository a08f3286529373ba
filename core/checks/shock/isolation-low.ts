import type { Analysis } from "../../circuit/analysis.ts";
import { ISOLATION_AC, ISOLATION_DC, ISOLATION_SOURCE } from "../../standards/isolation.ts";
import { packIsolations } from "../../studies/isolation.ts";
import { defineCheck } from "../define.ts";
import type { Report } from "../define.ts";
import { partPlace } from "../words/places.ts";

function run(analysis: Analysis, report: Report): void {
  for (const { pack, joined, measured, perVolt, ac, missing } of packIsolations(analysis)) {
    const first = pack.blocks[0];
    if (first === undefined) continue;
    if (joined) {
      report.doesNotApply(partPlace(first));
      continue;
    }
    if (measured !== undefined && perVolt < ISOLATION_AC) {
      const smallest = measured.leaks.reduce((least, leak) => (leak.ohms < least.ohms ? leak : least));
      const warning = ac || perVolt < ISOLATION_DC;
      const limit = warning && !ac ? ISOLATION_DC : ISOLATION_AC;
      report.fails({
        message: ac ? "ac" : warning ? "low" : "falling",
        severity: warning ? "WARNING" : "NOTICE",
        facts: {
          part: { place: partPlace(smallest.part) },
          ohms: { value: measured.ohms, dimension: "resistance" },
          perVolt: { value: perVolt, dimension: "resistance-per-volt" },
          limit: { value: limit, dimension: "resistance-per-volt" },
          volts: { value: pack.highest, dimension: "voltage" },
        },
        where: [partPlace(smallest.part)],
        states: measured.states,
        value: perVolt,
        limit,
        unit: "ohm/V",
      });
      continue;
    }
    if (missing.length > 0) {
      report.notChecked({
        where: [partPlace(first)],
        reason: "unstated",
        facts: { pack: { place: partPlace(first) } },
        missing,
      });
    } else report.passes(partPlace(first));
  }
}

export const isolationLow = defineCheck({
  id: "isolation-low",
  group: "shock",
  title: "Isolation from the chassis too low",
  about:
    "Works out what the two-reading method would give between the traction circuit and the chassis, from the isolation stated on each part and the resistance of isolation monitors. " +
    "It passes only where every part on the pack states its isolation; a pack that is bolted to the chassis is traction-on-chassis's.",
  severities: ["WARNING", "NOTICE"],
  source: ISOLATION_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    low: {
      title:
        "Between the traction circuit and the chassis there are {ohms}, that is {perVolt} of {volts}, below {limit}; the largest leak is in {part}.",
      why: "Enough current can pass from the vehicle's metal through a person to the pack's other side to injure, and a second leak becomes a short circuit.",
      mend: "Clean and dry {part} and its surroundings, look for chafed cables, and measure again before anyone drives.",
    },
    falling: {
      title:
        "Between the traction circuit and the chassis there are {ohms}, that is {perVolt} of {volts}, below the {limit} that a sound one has; the largest leak is in {part}.",
      why: "It still holds the limit for direct current, but dirt, acid film or damp is building a path that trips earth-leakage devices while charging and will get worse.",
      mend: "Clean and dry {part}, and measure again.",
    },
    ac: {
      title:
        "Between the traction circuit with its three-phase drive and the chassis there are {ohms}, that is {perVolt} of {volts}, below {limit}; the largest leak is in {part}.",
      why: "The phases of the motor carry alternating current on the same metal as the pack, which injures at smaller currents, so that the stricter limit holds.",
      mend: "Clean and dry {part} and its surroundings, look for chafed cables and a damp motor, and measure again before anyone drives.",
    },
  },
  reasons: {
    unstated:
      "Not every part on the pack of {pack} states its isolation from the chassis, so that the whole is not known.",
  },
  foldsUnder: ["traction-on-chassis", "traction-on-auxiliary"],
  run,
});
