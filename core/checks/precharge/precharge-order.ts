import type { NetworkPart } from "../../network/network.ts";
import { CLOSING_SHARE, INRUSH_ENERGY, INRUSH_SOURCE } from "../../standards/precharge.ts";
import { defineCheck } from "../define.ts";
import { fillingsOf } from "../words/fillings.ts";
import type { Filling } from "../words/fillings.ts";
import { endStates, whenFact } from "../words/in-time.ts";
import { partPlace } from "../words/places.ts";

export const prechargeOrder = defineCheck({
  id: "precharge-order",
  group: "precharge",
  title: "Contacts close in the wrong order",
  about:
    "Follows the vehicle through switching on, off and on again, plugging in and the start of its electronics, with the delays of coils, timers and controllers. Where a pre-charge resistor is drawn, a contact that joins battery and capacitors through wires and contacts alone must not close while more than 10 % of the battery is missing at them. A resistor that fed for too short a time, or too little, belongs to the check on incomplete pre-charge; a battery without any to the check on missing pre-charge.",
  severities: ["DANGER"],
  source: INRUSH_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    early: {
      title:
        "{contact} closes onto the capacitors at {at} {when}: {volts} are missing there, and {resistors} had no time to fill them.",
      why: "The contact that closes last takes the whole inrush of {energy}, hundreds to thousands of amperes, and welds, though a pre-charge resistor is fitted.",
      mend: "Let the contact that {resistors} bridges close last, some time after all others and after the contact of {resistors}; put every other contact of the loop ahead of it in the sequence.",
    },
  },
  reasons: {
    capacitance:
      "Whether {contact} closes onto charged capacitors cannot be told, as a capacitance behind it is not stated.",
    broken: "Whether {contact} closes onto charged capacitors {when} cannot be told: some contacts find no rest there.",
  },
  foldsUnder: ["output-undefined", "relay-chatter", "coil-sneak-path"],
  run(analysis, report) {
    const { fillings, unknown, broken } = fillingsOf(analysis);
    const groups = byContact(fillings);
    for (const { part, missing } of unknown) {
      if (groups.has(part)) continue;
      const contact = { place: partPlace(part) };
      report.notChecked({ where: [contact.place], reason: "capacitance", facts: { contact }, missing });
    }
    if (groups.size === 0 && unknown.length === 0) report.doesNotApply();
    for (const [part, group] of groups) {
      const place = partPlace(part);
      const contact = { place };
      const early = group.filter(isEarly);
      const worst = mostEnergy(early);
      if (worst !== undefined) {
        const transitions = early.map(({ transition }) => transition);
        const resistors = [...new Set(early.flatMap((each) => each.resistors))].map(partPlace);
        const at = [...new Set(early.flatMap(({ capacitor }) => capacitor.part ?? []))].map(partPlace);
        report.fails({
          message: "early",
          facts: {
            contact,
            at: { places: at },
            resistors: { places: resistors },
            when: whenFact(transitions),
            volts: { value: worst.full - worst.volts, dimension: "voltage" },
            energy: { value: worst.energy, dimension: "energy" },
          },
          severity: "DANGER",
          where: [place, ...resistors, ...at],
          states: endStates(transitions),
          value: worst.full - worst.volts,
          limit: CLOSING_SHARE * worst.full,
          unit: "V",
        });
        continue;
      }
      const lacking = unknown.find((each) => each.part === part);
      if (lacking !== undefined) {
        report.notChecked({ where: [place], reason: "capacitance", facts: { contact }, missing: lacking.missing });
      } else if (broken.length > 0) {
        report.notChecked({ where: [place], reason: "broken", facts: { contact, when: whenFact(broken) }, missing: [] });
      } else if (group.every(({ resistors }) => resistors.length === 0)) report.doesNotApply(place);
      else report.passes(place);
    }
  },
});

function isEarly({ resistors, charged, share, energy }: Filling): boolean {
  return resistors.length > 0 && !charged && share < 1 - CLOSING_SHARE && energy >= INRUSH_ENERGY[1];
}

function byContact(fillings: readonly Filling[]): ReadonlyMap<NetworkPart, readonly Filling[]> {
  const groups = new Map<NetworkPart, Filling[]>();
  for (const filling of fillings) {
    const { part } = filling.closing;
    groups.set(part, [...(groups.get(part) ?? []), filling]);
  }
  return groups;
}

function mostEnergy(fillings: readonly Filling[]): Filling | undefined {
  return fillings.reduce<Filling | undefined>(
    (most, each) => (most === undefined || each.energy > most.energy ? each : most),
    undefined,
  );
}
