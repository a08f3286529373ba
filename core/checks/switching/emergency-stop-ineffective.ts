import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { closedFeed } from "../words/closed-feed.ts";
import { partPlace } from "../words/places.ts";
import { drivePairs, fedBetween, packVolts, poweredContacts, unstatedDrivers } from "../words/traction-pairs.ts";

export const emergencyStopIneffective = defineCheck({
  id: "emergency-stop-ineffective",
  group: "switching",
  title: "Emergency stop does not cut the drive off",
  about:
    "Presses the emergency stop with the throttle fully down and looks whether closed contacts and wires still feed the supply of a controller, or of a motor without one. What a pre-charge resistor still lets through is another check's. A contactor that has welded is not seen.",
  severities: ["DANGER"],
  source: { text: "Common practice: the emergency stop opens the traction circuit", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    closed: {
      title: "With {stops} pressed {part} is still connected to the pack ({volts}) through {contacts}.",
      why: "The stop is hit when everything else has failed; a drive that stays powered can go on pulling.",
      mend: "Lead the feed of the coil of {contacts} through a contact of {stops} that opens when it is pressed.",
    },
    direct: {
      title: "With {stops} pressed {part} is still connected to the pack ({volts}): no contactor is in its leads.",
      why: "The stop is hit when everything else has failed; a drive that stays powered can go on pulling.",
      mend: "Put a contactor into the lead from the pack to {pair} and lead the feed of its coil through a contact of {stops} that opens when it is pressed.",
    },
  },
  reasons: {
    neverClosed:
      "Whether the emergency stop cuts {part} off cannot be told, as the contacts ahead of it close in no state.",
  },
  foldsUnder: ["enable-bypasses-key", "main-switch-missing"],
  run(analysis, report) {
    const stopped = analysis.state("emergency-stop");
    const stops = analysis.network.parts.filter(({ kind }) => kind.traits.emergencyStop === true).map(partPlace);
    for (const at of drivePairs(analysis)) {
      if (stopped === undefined || stops.length === 0) {
        report.doesNotApply(at.place);
        continue;
      }
      const fed = fedBetween(analysis, closedFeed(analysis, stopped), at);
      if (fed === undefined && at.states.length > 0) report.passes(at.place);
      else if (fed === undefined) {
        report.notChecked({
          where: [at.place],
          reason: "neverClosed",
          facts: { part: { place: partPlace(at.part) } },
          missing: unstatedDrivers(analysis),
        });
      } else {
        const contacts: readonly Place[] = poweredContacts(analysis, stopped, fed).map(partPlace);
        report.fails({
          message: contacts.length > 0 ? "closed" : "direct",
          facts: {
            part: { place: partPlace(at.part) },
            pair: { place: at.place },
            stops: { places: stops },
            contacts: { places: contacts },
            volts: { value: packVolts(at.packs), dimension: "voltage" },
          },
          severity: "DANGER",
          where: [at.place, ...contacts],
          touches: stops,
          states: [stopped.name],
          value: packVolts(at.packs),
          unit: "V",
        });
      }
    }
  },
});
