import type { Analysis, SolvedState } from "../../circuit/analysis.ts";
import type { Branch } from "../../network/network.ts";
import type { Watt } from "../../quantity/kinds.ts";
import { defineCheck } from "../define.ts";
import type { MissingField } from "../define.ts";
import { isClosedContact, waysBetween } from "../words/closed-feed.ts";
import { partPlace } from "../words/places.ts";
import { fuseEnds, prechargePaths } from "../words/precharge-paths.ts";
import type { PrechargePath } from "../words/precharge-paths.ts";

export const prechargeStaysIn = defineCheck({
  id: "precharge-stays-in",
  group: "precharge",
  title: "Pre-charge path stays closed",
  about:
    "Looks with the vehicle ready whether the contact in series with the pre-charge resistor is still closed. If so, it takes the main contact as failed open while driving and works out what the resistor then has to turn into heat. A resistor without a contact of its own belongs to the check on resistors that bypass the switch.",
  severities: ["WARNING", "NOTICE"],
  source: { text: "Rating of the resistor against V²/R; common practice", known: "calc" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: {
    burns: {
      title:
        "The path through {contacts} stays closed while driving; should the main contact fail open, {resistor} gets {power} and stands {rating}.",
      why: "Nothing ends it: the drive goes on pulling through the resistor, which glows and sets fire to what is beside it.",
      mend: "Open {contacts} as soon as the main contact has closed, or put a fuse in series with {resistor} that ends it.",
    },
    stays: {
      title:
        "The path through {contacts} stays closed while the vehicle is ready, although the main contact has bridged {resistor}.",
      why: "It does no harm as long as the main contact holds, but a relay that never lets go wears, and it hides a main contact that no longer closes.",
      mend: "Let {contacts} open once the main contact has closed.",
    },
  },
  reasons: {
    rating:
      "What {resistor} has to stand while the path through {contacts} stays closed cannot be told, as too little of it is stated.",
  },
  run(analysis, report) {
    const ready = analysis.state("ready");
    const driving = analysis.state("driving");
    const paths = prechargePaths(analysis).filter(({ contacts }) => contacts.length > 0);
    if (ready === undefined || driving === undefined || paths.length === 0) {
      report.doesNotApply();
      return;
    }
    for (const path of paths) {
      const { part, resistor, contacts } = path;
      const own = movingOf(analysis, contacts);
      const place = partPlace(part);
      const closed = own.length > 0 && contacts.every((contact) => isClosedContact(ready, contact));
      if (own.length === 0 || !closed) {
        if (own.length === 0) report.doesNotApply(place);
        else report.passes(place);
        continue;
      }
      const places = [...new Set(own.flatMap((contact) => contact.part ?? []))].map(partPlace);
      const facts = { resistor: { place }, contacts: { places } };
      const rating = part.values.number("power");
      const missing = ["resistance", "power"]
        .filter((name) => part.values.number(name) === undefined)
        .map((parameter): MissingField => ({ part: part.part.id, parameter }));
      if (rating === undefined || missing.length > 0) {
        report.notChecked({ where: [place], reason: "rating", facts, missing });
        continue;
      }
      const { power, ended } = withoutMain(analysis, driving, path, resistor);
      const burns = power > rating && !ended;
      report.fails({
        message: burns ? "burns" : "stays",
        facts: {
          ...facts,
          power: { value: power, dimension: "power" },
          rating: { value: rating, dimension: "power" },
        },
        severity: burns ? "WARNING" : "NOTICE",
        where: [place, ...places],
        states: [ready.name],
        ...(burns ? { value: power, limit: rating, unit: "W" } : {}),
      });
    }
  },
});

/** Those that some state opens: the others are as good as wires. */
function movingOf({ states }: Analysis, contacts: readonly Branch[]): readonly Branch[] {
  return contacts.filter((contact) => states.some((state) => !isClosedContact(state, contact)));
}

/** What the resistor takes while driving once the contacts that bridge it have failed open. */
function withoutMain(
  analysis: Analysis,
  driving: SolvedState,
  { contacts }: PrechargePath,
  { index, a, b }: Branch,
): { readonly power: Watt; readonly ended: boolean } {
  const bridging = waysBetween(analysis, driving, a, b).filter(
    (branch) => isClosedContact(driving, branch) && !contacts.includes(branch),
  );
  const failed = analysis.solveChanged(driving, { open: bridging.map((branch) => branch.index) });
  const current = Math.abs(failed.currents[index] ?? 0);
  return { power: current * Math.abs(failed.between(a, b)), ended: fuseEnds(analysis, failed, current) };
}
