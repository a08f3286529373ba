import type { NetworkPart } from "../../network/network.ts";
import {
  INRUSH_ENERGY,
  PRECHARGE_LEAST,
  PRECHARGE_LEAST_SOURCE,
  PRECHARGE_TARGET,
  PRECHARGE_TARGET_SOURCE,
} from "../../standards/precharge.ts";
import { defineCheck } from "../define.ts";
import type { MissingField } from "../define.ts";
import { fillingsOf } from "../words/fillings.ts";
import type { Filling } from "../words/fillings.ts";
import { brokenPlaces, endStates, whenFact } from "../words/in-time.ts";
import { partPlace } from "../words/places.ts";

/** What a simulated bus is short of a threshold at which a controller acts by itself. */
const EXACT = 1e-3;

export const prechargeIncomplete = defineCheck({
  id: "precharge-incomplete",
  group: "precharge",
  title: "Pre-charge incomplete",
  about:
    "Follows the vehicle through switching on, off and on again, and plugging in, with the delays of coils, timers and controllers, and looks how full the capacitors are that a resistor has been filling when the contact closes that joins them to the battery. What draws current from them meanwhile counts. Less than half a joule wears the contact slowly and is a notice.",
  severities: ["WARNING", "NOTICE"],
  source: PRECHARGE_TARGET_SOURCE,
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    early: {
      title:
        "{contact} closes with the capacitors at {at} only {share} full {when}: {volts} are missing, against the {least} that {resistors} should reach.",
      why: "What is missing rushes in at one blow, {energy} of it; contacts that take this at each start pit and weld in the end.",
      mend: "Let {contact} close later, use a smaller {resistors}, or keep off whatever draws from {at} until {contact} has closed.",
    },
    nearly: {
      title:
        "{contact} closes with the capacitors at {at} {share} full {when}; {target} is what pre-charge circuits are made for.",
      why: "The rest rushes in at one blow of {energy}; it does no harm at once and shortens the contact's life.",
      mend: "Wait a little longer before {contact} closes, or use a somewhat smaller {resistors}.",
    },
  },
  reasons: {
    resistance: "How full the capacitors are when {contact} closes depends on a resistance that is not stated.",
    capacitance: "How full the capacitors are when {contact} closes depends on a capacitance that is not stated.",
    delay: "How full the capacitors are when {contact} closes depends on a delay that is not stated.",
    broken:
      "How full capacitors are when contacts close {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: ["output-undefined", "relay-chatter", "sense-side-wrong"],
  run(analysis, report) {
    const { fillings, unknown, broken } = fillingsOf(analysis);
    const parts = new Map<NetworkPart, Filling[]>();
    for (const filling of fillings) {
      if (filling.resistors.length === 0) continue;
      parts.set(filling.closing.part, [...(parts.get(filling.closing.part) ?? []), filling]);
    }
    if (broken.length > 0) {
      const places = brokenPlaces(broken, [...parts.keys()]);
      const facts = { when: whenFact(broken), parts: { places } };
      report.notChecked({ where: places, reason: "broken", facts, missing: [] });
    } else if (parts.size === 0 && unknown.length === 0) report.doesNotApply();
    for (const { part, missing } of unknown) {
      if (parts.has(part)) continue;
      const contact = { place: partPlace(part) };
      report.notChecked({ where: [contact.place], reason: "capacitance", facts: { contact }, missing });
    }
    for (const [part, group] of parts) {
      const place = partPlace(part);
      const contact = { place };
      const unstated = group
        .flatMap(({ resistors }) => resistors)
        .filter(({ values }) => values.number("resistance") === undefined);
      const lacking = unknown.find((each) => each.part === part);
      const open = (reason: string, missing: readonly MissingField[]): void =>
        report.notChecked({ where: [place], reason, facts: { contact }, missing });
      if (unstated.length > 0) {
        open(
          "resistance",
          [...new Set(unstated)].map((each) => ({ part: each.part.id, parameter: "resistance" })),
        );
        continue;
      }
      const delays = group.flatMap((each) => each.delays);
      if (delays.length > 0) {
        open("delay", [...new Set(delays)]);
        continue;
      }
      const short = group.filter(({ charged, share }) => charged && share < PRECHARGE_TARGET - EXACT);
      const [worst] = [...short].sort((a, b) => a.share - b.share);
      if (worst !== undefined) {
        const serious = short.filter(isSerious);
        const told = serious.length > 0 ? serious : short;
        const transitions = told.map(({ transition }) => transition);
        const resistors = [...new Set(told.flatMap((each) => each.resistors))].map(partPlace);
        const at = [...new Set(told.flatMap(({ capacitor }) => capacitor.part ?? []))].map(partPlace);
        const limit = serious.length > 0 ? PRECHARGE_LEAST : PRECHARGE_TARGET;
        report.fails({
          message: serious.length > 0 ? "early" : "nearly",
          facts: {
            contact,
            at: { places: at },
            resistors: { places: resistors },
            when: whenFact(transitions),
            share: { value: worst.share, dimension: "ratio" },
            least: { value: PRECHARGE_LEAST, dimension: "ratio" },
            target: { value: PRECHARGE_TARGET, dimension: "ratio" },
            volts: { value: worst.full - worst.volts, dimension: "voltage" },
            energy: { value: worst.energy, dimension: "energy" },
          },
          severity: serious.length > 0 ? "WARNING" : "NOTICE",
          where: [place, ...resistors, ...at],
          states: endStates(transitions),
          value: worst.volts,
          limit: limit * worst.full,
          unit: "V",
          source: serious.length > 0 ? PRECHARGE_LEAST_SOURCE : PRECHARGE_TARGET_SOURCE,
        });
      } else if (lacking !== undefined) open("capacitance", lacking.missing);
      else if (broken.length === 0) report.passes(place);
    }
  },
});

function isSerious({ share, energy }: Filling): boolean {
  return share < PRECHARGE_LEAST - EXACT && energy >= INRUSH_ENERGY[1];
}
