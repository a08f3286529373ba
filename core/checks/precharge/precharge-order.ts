import type { NetworkPart } from "../../network/network.ts";
import { CLOSING_SHARE, INRUSH_ENERGY, INRUSH_SOURCE } from "../../standards/precharge.ts";
import { TRANSITIONS } from "../../circuit/transition/transition.ts";
import { defineCheck } from "../define.ts";
import type { Place, Report } from "../define.ts";
import { fillingsOf } from "../words/fillings.ts";
import type { Filling } from "../words/fillings.ts";
import { brokenPlaces, endStates, whenFact } from "../words/in-time.ts";
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
        "Closing {contacts} {when} joins the battery to the capacitors at {at} while {volts} are missing there: {resistors} had no time to fill them.",
      why: "The contact that closes last takes the whole inrush of {energy}, hundreds to thousands of amperes, and welds, though a pre-charge resistor is fitted.",
      mend: "Let the contact that {resistors} bridges close last, some time after all others and after the contact in series with {resistors}; move {contacts} in the sequence so that no other closes after it.",
    },
  },
  reasons: {
    capacitance:
      "Whether {contact} closes onto charged capacitors cannot be told, as a capacitance behind it is not stated.",
    delay: "Whether {contact} closes onto charged capacitors depends on a delay that is not stated.",
    broken:
      "Whether contacts close onto charged capacitors {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: ["output-undefined", "relay-chatter", "coil-sneak-path", "sense-side-wrong"],
  run(analysis, report) {
    const { fillings, unknown, broken } = fillingsOf(analysis);
    const groups = byContact(fillings);
    for (const { part, missing } of unknown) {
      if (groups.has(part)) continue;
      const contact = { place: partPlace(part) };
      report.notChecked({ where: [contact.place], reason: "capacitance", facts: { contact }, missing });
    }
    if (broken.length > 0) {
      const parts = brokenPlaces(broken, [...groups.keys()]);
      const facts = { when: whenFact(broken), parts: { places: parts } };
      report.notChecked({ where: parts, reason: "broken", facts, missing: [] });
    } else if (groups.size === 0 && unknown.length === 0) report.doesNotApply();
    for (const early of together(fillings.filter((each) => isEarly(each) && each.delays.length === 0)))
      fail(early, report);
    for (const [part, group] of groups) {
      if (group.some((each) => isEarly(each) && each.delays.length === 0)) continue;
      const place = partPlace(part);
      const contact = { place };
      const delays = group.filter(({ resistors }) => resistors.length > 0).flatMap((each) => each.delays);
      if (delays.length > 0) {
        report.notChecked({ where: [place], reason: "delay", facts: { contact }, missing: [...new Set(delays)] });
        continue;
      }
      const lacking = unknown.find((each) => each.part === part);
      if (lacking !== undefined) {
        report.notChecked({ where: [place], reason: "capacitance", facts: { contact }, missing: lacking.missing });
      } else if (group.every(({ resistors }) => resistors.length === 0)) report.doesNotApply(place);
      else if (broken.length === 0) report.passes(place);
    }
  },
});

function fail(early: readonly Filling[], report: Report): void {
  const number = ({ closing }: Filling): number => Number(closing.part.part.id.slice(1));
  const ordered = [...early].sort((a, b) => b.energy - a.energy || number(a) - number(b));
  const [worst] = ordered;
  if (worst === undefined) return;
  const transitions = TRANSITIONS.flatMap((name) => early.find(({ transition }) => transition.name === name) ?? []).map(
    ({ transition }) => transition,
  );
  const places = (parts: readonly NetworkPart[]): readonly Place[] => [...new Set(parts)].map(partPlace);
  const contacts = places(ordered.map(({ closing }) => closing.part));
  const resistors = places(ordered.flatMap((each) => each.resistors));
  const at = places(ordered.flatMap(({ capacitor }) => capacitor.part ?? []));
  report.fails({
    message: "early",
    facts: {
      contacts: { places: contacts },
      at: { places: at },
      resistors: { places: resistors },
      when: whenFact(transitions),
      volts: { value: worst.full - worst.volts, dimension: "voltage" },
      energy: { value: worst.energy, dimension: "energy" },
    },
    severity: "DANGER",
    where: [...contacts, ...resistors, ...at],
    states: endStates(transitions),
    value: worst.full - worst.volts,
    limit: CLOSING_SHARE * worst.full,
    unit: "V",
  });
}

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

/** Closings that share a contact or a capacitor are one matter. */
function together(fillings: readonly Filling[]): readonly (readonly Filling[])[] {
  let groups: Filling[][] = [];
  for (const filling of fillings) {
    const touching = groups.filter((group) =>
      group.some(({ capacitor, closing }) => capacitor === filling.capacitor || closing.part === filling.closing.part),
    );
    groups = [...groups.filter((group) => !touching.includes(group)), [...touching.flat(), filling]];
  }
  return groups;
}
