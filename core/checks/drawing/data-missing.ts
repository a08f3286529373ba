/** What the other checks lacked: one finding for each field and kind of thing, with the places where to fill it in. */
import type { Analysis } from "../../circuit/analysis.ts";
import { compareNatural } from "../../project/designation.ts";
import type { EarlierNotChecked, MissingField, Place } from "../define.ts";
import { defineCheck } from "../define.ts";
import { placeId } from "../finding.ts";

type Thing = "part" | "wire" | "enclosure" | "zone" | "title";

interface Lacking {
  readonly thing: Thing;
  /** Name in the file, so that a finding keeps its key when a title is reworded. */
  readonly id: string;
  /** As people call it. */
  readonly field: string;
  /** Where a person finds the value. */
  readonly find: string;
  readonly places: Map<string, Place>;
  readonly names: Set<string>;
  readonly checks: Set<string>;
}

/** What a wire's fields are called and where a person finds them; a field that is not listed goes by its own name. */
const WIRE_FIELDS: Readonly<Record<string, { readonly label: string; readonly find: string }>> = {
  length: { label: "Length", find: "Measure it, or estimate it where the wire is not yet cut" },
  size: { label: "Size", find: "Printed on the wire" },
  colour: { label: "Colour", find: "Look at the wire" },
  sheath: { label: "In a sheath throughout", find: "Look along the whole wire" },
  "insulation.volts": { label: "Voltage of the insulation", find: "Printed on the wire, or in its data sheet" },
  "insulation.temperature": {
    label: "Temperature class of the insulation",
    find: "Printed on the wire, or in its data sheet",
  },
  "insulation.material": { label: "Material of the insulation", find: "The wire's data sheet" },
  grommets: { label: "Grommets at walls", find: "Look at each hole that it passes" },
  lugs: { label: "Lug", find: "The stud that the hole fits, such as M8, is stamped on the lug" },
  boots: { label: "Boot", find: "Look whether a boot covers the lug" },
  zones: { label: "Zone", find: "Follow the wire through the vehicle" },
};

/** For what is a field of every part (zone, face, panel), whatever its kind. */
const AT_THE_VEHICLE = "Look at the part in the vehicle";

const ENCLOSURE_FIELDS: Readonly<Record<string, string>> = {
  toolClosed: "Opens only with a tool",
  conductive: "Of conductive material",
  voltageSign: "Bears the voltage sign",
};

const ZONE_FIELDS: Readonly<Record<string, string>> = { ambient: "Hottest air" };

/** Fewer names than this are all written out. */
const CHECKS_SHOWN = 5;

function describe(
  { network }: Analysis,
  field: MissingField,
):
  | { readonly key: string; readonly thing: Thing; readonly id: string; readonly label: string; readonly find: string }
  | undefined {
  if ("part" in field) {
    const part = network.partById.get(field.part);
    const spec = part?.kind.parameters[field.parameter];
    // Zone, face and panel are fields of the part itself, not of its kind.
    const label = spec?.title ?? field.parameter;
    return part === undefined
      ? undefined
      : {
          key: `part ${field.parameter} ${label}`,
          thing: "part",
          id: field.parameter,
          label,
          find: spec?.where.replace(/\.$/, "") ?? AT_THE_VEHICLE,
        };
  }
  if ("wire" in field) {
    const { label, find } = WIRE_FIELDS[field.field] ?? { label: field.field, find: "Look at the wire" };
    return { key: `wire ${field.field}`, thing: "wire", id: field.field, label, find };
  }
  if ("enclosure" in field) {
    return {
      key: `enclosure ${field.field}`,
      thing: "enclosure",
      id: field.field,
      label: ENCLOSURE_FIELDS[field.field] ?? field.field,
      find: "Look at the enclosure",
    };
  }
  if ("zone" in field) {
    return {
      key: `zone ${field.field}`,
      thing: "zone",
      id: field.field,
      label: ZONE_FIELDS[field.field] ?? field.field,
      find: "Measure it on the hottest day, or take it from the vehicle's maker",
    };
  }
  return { key: `title ${field.title}`, thing: "title", id: field.title, label: field.title, find: "Your own papers" };
}

/** Where the pen points: the part or wire itself; for the others what the check was looking at. */
function placesOf(field: MissingField, entry: EarlierNotChecked["entry"]): readonly Place[] {
  if ("part" in field) return [{ part: field.part }];
  if ("wire" in field) return [{ wire: field.wire }];
  return entry.where.slice(0, 1);
}

function nameOf(analysis: Analysis, field: MissingField): string | undefined {
  if ("zone" in field) {
    const zone = analysis.network.project.zones.find(({ id }) => id === field.zone);
    return zone?.name ?? zone?.kind;
  }
  if (!("enclosure" in field)) return undefined;
  return analysis.network.project.enclosures.find(({ id }) => id === field.enclosure)?.name;
}

function gather(analysis: Analysis, earlier: readonly EarlierNotChecked[]): readonly Lacking[] {
  const groups = new Map<string, Lacking>();
  for (const { check, entry } of earlier) {
    for (const field of entry.missing) {
      const found = describe(analysis, field);
      if (found === undefined) continue;
      let group = groups.get(found.key);
      if (group === undefined) {
        const { thing, id, label, find } = found;
        group = { thing, id, field: label, find, places: new Map(), names: new Set(), checks: new Set() };
        groups.set(found.key, group);
      }
      for (const place of placesOf(field, entry)) group.places.set(placeId(place), place);
      const name = nameOf(analysis, field);
      if (name !== undefined) group.names.add(name);
      group.checks.add(check);
    }
  }
  return [...groups].sort(([a], [b]) => compareNatural(a, b)).map(([, group]) => group);
}

function listed(names: readonly string[]): string {
  const shown =
    names.length > CHECKS_SHOWN
      ? [...names.slice(0, CHECKS_SHOWN - 1), `${names.length - CHECKS_SHOWN + 1} more`]
      : names;
  return shown.join(", ");
}

export const dataMissing = defineCheck({
  id: "data-missing",
  group: "drawing",
  title: "Data missing",
  about:
    "Collects the fields that other checks could not do without, after all of them have run: one finding for each field of parts, of wires, of enclosures and of the title block, with every place where it is missing and the checks that stay open. A check that could not run is never counted as passed.",
  severities: ["NOTICE"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "What the other checks lacked is always known once they have run." },
  messages: {
    part: {
      title: 'Not stated: "{field}" of {places}.',
      why: "Without it nobody can say whether these are safe there. Checks that wait for it: {checks}.",
      mend: 'State "{field}" at {places}. Where to find it: {find}.',
    },
    wire: {
      title: 'Not stated: "{field}" of {places}.',
      why: "Without it nobody can say whether these wires are safe. Checks that wait for it: {checks}.",
      mend: 'State "{field}" at {places}. Where to find it: {find}.',
    },
    enclosure: {
      title: "Of the enclosure {names} it is not stated: {field}.",
      why: "Without it nobody can say what someone can touch there. Checks that wait for it: {checks}.",
      mend: "Look at the enclosure {names} and state {field}.",
    },
    zone: {
      title: "Of the zone {names} it is not stated: {field}.",
      why: "Without it nobody can say whether what lies there stands the heat. Checks that wait for it: {checks}.",
      mend: "State {field} of the zone {names}. Where to find it: {find}.",
    },
    title: {
      title: "The title block does not say: {field}.",
      why: "Checks that wait for it: {checks}.",
      mend: "Fill in {field} in the title block.",
    },
  },
  reasons: {},
  run: () => undefined,
  runLast(analysis, earlier, report) {
    const lacking = gather(analysis, earlier);
    const incomplete = new Set<string>();
    for (const { thing, id, field, find, places, names, checks } of lacking) {
      const sorted = [...places.values()].sort((a, b) => compareNatural(placeId(a), placeId(b)));
      for (const place of sorted) incomplete.add(placeId(place));
      report.fails({
        message: thing,
        facts: {
          field,
          find,
          places: { places: sorted },
          names: [...names].join(", "),
          checks: listed([...checks].sort()),
        },
        severity: "NOTICE",
        where: sorted,
        variant: id,
      });
    }
    const { parts, wires } = analysis.network.project;
    const all: readonly Place[] = [...parts.map(({ id }) => ({ part: id })), ...wires.map(({ id }) => ({ wire: id }))];
    report.passes(...all.filter((place) => !incomplete.has(placeId(place))));
  },
});
