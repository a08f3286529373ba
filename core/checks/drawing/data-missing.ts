/** What the other checks lacked: one finding for each thing to go and look at, with the fields to fill in there. */
import { compareNatural } from "../../project/designation.ts";
import { defineCheck } from "../define.ts";
import type { Place } from "../define.ts";
import { placeId } from "../finding.ts";
import { missingData } from "../words/missing-data.ts";
import type { Lacking } from "../words/missing-data.ts";

/** Longer lists of fields and of checks are cut and the rest counted. */
const FIELDS_SHOWN = 6;
const CHECKS_SHOWN = 5;

/**
 * Fields that are looked up in one go stand together: those that only one kind of part has, by its kind, and those of
 * the wires.
 */
function together({ thing, id, kinds }: Lacking): string {
  const [kind, another] = kinds;
  if (thing === "part" && kind !== undefined && another === undefined) return `part ${kind}`;
  return thing === "wire" ? "wire" : `${thing} ${id}`;
}

function listed(names: readonly string[], longest: number): string {
  const shown = names.length > longest ? [...names.slice(0, longest - 1), `${names.length - longest + 1} more`] : names;
  return shown.join(", ");
}

const distinct = <T>(lists: readonly (readonly T[])[]): readonly T[] => [...new Set(lists.flat())];

export const dataMissing = defineCheck({
  id: "data-missing",
  group: "drawing",
  title: "Data missing",
  about:
    "Collects the fields that other checks could not do without, after all of them have run: one finding for what is to be looked up at one kind of part, one for each field that several kinds lack, one for the wires, and one for each field of enclosures, zones and the title block. Each names the places and the checks that stay open. A check that could not run is never counted as passed.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "What the other checks lacked is always known once they have run." },
  messages: {
    part: {
      title: "Not stated of {places}: {fields}.",
      why: "Without it nobody can say whether these are safe there. Checks that wait for it: {checks}.",
      mend: "Fill in what is missing at {places}; beside each field stands where its value is found. For {first}: {find}.",
    },
    wire: {
      title: "Not stated of {places}: {fields}.",
      why: "Without it nobody can say whether these wires are safe. Checks that wait for it: {checks}.",
      mend: "Fill in what is missing at {places}; beside each field stands where its value is found. For {first}: {find}.",
    },
    enclosure: {
      title: "Of the enclosure {names} it is not stated: {fields}.",
      why: "Without it nobody can say what someone can touch there. Checks that wait for it: {checks}.",
      mend: "Look at the enclosure {names} and state {fields}.",
    },
    zone: {
      title: "Of the zone {names} it is not stated: {fields}.",
      why: "Without it nobody can say whether what lies there stands the heat. Checks that wait for it: {checks}.",
      mend: "State {fields} of the zone {names}. Where to find it: {find}.",
    },
    title: {
      title: "The title block does not say: {fields}.",
      why: "Checks that wait for it: {checks}.",
      mend: "Fill in {fields} in the title block.",
    },
  },
  reasons: {},
  run: () => undefined,
  runLast(analysis, earlier, report) {
    const groups = new Map<string, Lacking[]>();
    const waiting = earlier.map(({ check, entry: { where, missing } }) => ({ check, where, missing }));
    for (const lacking of missingData(analysis.network, waiting)) {
      const key = together(lacking);
      groups.set(key, [...(groups.get(key) ?? []), lacking]);
    }
    const incomplete = new Set<string>();
    for (const [variant, group] of groups) {
      const [first] = group;
      if (first === undefined) continue;
      const places = new Map(group.flatMap((each) => each.places.map((place) => [placeId(place), place] as const)));
      const sorted = [...places.values()].sort((a, b) => compareNatural(placeId(a), placeId(b)));
      for (const id of places.keys()) incomplete.add(id);
      const fields = group.map(({ label }) => (first.thing === "title" ? label : `"${label}"`));
      const checks = distinct(group.map((each) => each.checks));
      report.fails({
        message: first.thing,
        facts: {
          fields: listed(fields, FIELDS_SHOWN),
          first: fields[0] ?? "",
          find: first.find.charAt(0).toLowerCase() + first.find.slice(1),
          places: { places: sorted },
          names: distinct(group.map((each) => each.names)).join(", "),
          checks: listed([...checks].sort(), CHECKS_SHOWN),
        },
        severity: "NOTICE",
        where: sorted,
        variant,
      });
    }
    const { parts, wires } = analysis.network.project;
    const all: readonly Place[] = [...parts.map(({ id }) => ({ part: id })), ...wires.map(({ id }) => ({ wire: id }))];
    report.passes(...all.filter((place) => !incomplete.has(placeId(place))));
  },
});
