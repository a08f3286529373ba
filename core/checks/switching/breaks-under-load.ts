import { defineCheck } from "../define.ts";
import type { MissingField, Report } from "../define.ts";
import { contactThatBreaks } from "../remedies/exchange-contact.ts";
import { brokenPlaces, endStates, whenFact } from "../words/in-time.ts";
import { LEAST_BROKEN, openingsOf } from "../words/openings.ts";
import type { BreakAt, ContactAt } from "../words/openings.ts";
import { partPlace } from "../words/places.ts";

export const breaksUnderLoad = defineCheck({
  id: "breaks-under-load",
  group: "switching",
  title: "Contact opens more than it can break",
  about:
    "Follows the vehicle through switching on and off, emergency stop, plugging in and out, the disconnect and the loss of the 12 V supply, and compares what flows through each contact as it parts with the direct current that it may break. Motors and wiring are taken without inductance. Fuses, plugs and electronic outputs are left out, and so is less than half an ampere.",
  severities: ["WARNING"],
  source: { text: "The contact's own rating, by the meaning of the word", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    over: {
      title: "{part} may break {rating} of direct current and has to break {current} {when}.",
      why: "Direct current does not go out by itself: the arc goes on burning between the contacts, burns the part or welds it, and the circuit stays live.",
      mend: "Use a part that breaks at least {current} at this voltage, or let something else switch off the load before {part} opens.",
    },
    idle: {
      title: "{part} opens {current} {when}, although it must not be opened under load.",
      why: "A contact that is not made to break load draws an arc that goes on burning, and whoever holds its handle stands beside it.",
      mend: "Use a disconnect that may break load, or let a contactor open the circuit first.",
    },
  },
  reasons: {
    rating: "What {part} may break is not stated, and it opens {current} {when}.",
    inductance:
      "How much {part} has to break depends on how fast its coil lets go, which rests on an inductance that is not stated.",
    broken: "What contacts have to break {when} cannot be told: the circuit finds no rest around {parts}.",
  },
  foldsUnder: [
    "source-shorted",
    "strings-unequal",
    "block-reversed",
    "supply-reversed",
    "load-bypassed",
    "diode-reversed",
    "contacts-can-short",
    "contact-current-low",
  ],
  run(analysis, report) {
    const { contacts, broken } = openingsOf(analysis);
    if (broken.length > 0) {
      const parts = brokenPlaces(
        broken,
        contacts.map(({ part }) => part),
      );
      const facts = { when: whenFact(broken), parts: { places: parts } };
      report.notChecked({ where: parts, reason: "broken", facts, missing: [] });
    } else if (contacts.length === 0) report.doesNotApply();
    for (const part of new Set(contacts.map((each) => each.part))) {
      judge(
        contacts.filter((each) => each.part === part),
        broken.length === 0,
        report,
      );
    }
  },
});

/** All contacts of one part: its worst one counts. */
function judge(contacts: readonly ContactAt[], whole: boolean, report: Report): void {
  const breaks = contacts.flatMap(({ spec, breaks }) => breaks.map((each) => ({ spec, ...each })));
  const [first] = contacts;
  if (first === undefined) return;
  const { part } = first;
  const place = partPlace(part);
  const worst = worstOf(breaks);
  const facts = (told: readonly BreakAt[], current: number) => ({
    part: { place },
    current: { value: current, dimension: "current" } as const,
    when: whenFact(told.map(({ transition }) => transition)),
  });
  const loaded = breaks.filter(({ most }) => most >= LEAST_BROKEN);
  const over = loaded.filter(
    ({ spec, current }) => Math.abs(current) > Math.max(spec.breaking ?? Infinity, LEAST_BROKEN),
  );
  const most = worstOf(over);
  if (most !== undefined) {
    const rating = most.spec.breaking ?? 0;
    const transitions = over.map(({ transition }) => transition);
    report.fails({
      message: rating > 0 ? "over" : "idle",
      facts: { ...facts(over, Math.abs(most.current)), rating: { value: rating, dimension: "current" } },
      severity: "WARNING",
      where: [place],
      states: endStates(transitions),
      value: Math.abs(most.current),
      limit: rating,
      unit: "A",
      remedies: rating > 0 ? contactThatBreaks(part, most.spec, Math.max(...over.map((each) => each.most))) : [],
    });
    return;
  }
  const unrated = loaded.filter(({ spec }) => spec.breaking === undefined);
  const open = (reason: string, told: readonly BreakAt[], missing: readonly MissingField[]): void =>
    report.notChecked({ where: [place], reason, facts: facts(told, Math.abs(worst?.current ?? 0)), missing });
  const [unknown] = unrated;
  if (unknown !== undefined) {
    const parameter = unknown.spec.breakingParameter ?? unknown.spec.continuousParameter;
    open("rating", unrated, [{ part: part.part.id, parameter }]);
    return;
  }
  const unsure = loaded.filter(({ spec, most: highest }) => highest > (spec.breaking ?? 0));
  if (unsure.length > 0)
    open(
      "inductance",
      unsure,
      unsure.flatMap(({ missing }) => missing),
    );
  else if (whole) report.passes(place);
}

function worstOf<T extends BreakAt>(breaks: readonly T[]): T | undefined {
  return breaks.reduce<T | undefined>(
    (most, each) => (most === undefined || Math.abs(each.current) > Math.abs(most.current) ? each : most),
    undefined,
  );
}
