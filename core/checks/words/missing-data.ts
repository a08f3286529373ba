/** What checks could not do without: each field that is missing, where, where a person finds it, and which checks wait for it. */
import type { Network } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
import { fieldTitle } from "../../project/field-titles.ts";
import type { MissingField, Place } from "../define.ts";
import { placeId } from "../finding.ts";

type Thing = "part" | "wire" | "enclosure" | "zone" | "title";

/** Something that could not be checked. */
export interface Waiting {
  readonly check: string;
  readonly where: readonly Place[];
  readonly missing: readonly MissingField[];
}

interface Field {
  readonly thing: Thing;
  /** Name in the file, so that a finding keeps its key when a title is reworded. */
  readonly id: string;
  /** As people call it. */
  readonly label: string;
  /** Where a person finds the value, without a full stop. */
  readonly find: string;
}

export interface Lacking extends Field {
  /** Kinds of the parts that lack it. */
  readonly kinds: readonly string[];
  readonly places: readonly Place[];
  /** Of enclosures and zones. */
  readonly names: readonly string[];
  /** Ids of the checks that wait for it. */
  readonly checks: readonly string[];
}

interface Growing extends Field {
  readonly kinds: Set<string>;
  readonly places: Map<string, Place>;
  readonly names: Set<string>;
  readonly checks: Set<string>;
}

/** Where a person finds the fields of a wire. */
const OF_WIRE: Readonly<Record<string, string>> = {
  length: "Measure it, or estimate it where the wire is not yet cut",
  size: "Printed on the wire",
  colour: "Look at the wire",
  sheath: "Look along the whole wire",
  "insulation.volts": "Printed on the wire, or in its data sheet",
  "insulation.temperature": "Printed on the wire, or in its data sheet",
  "insulation.material": "The wire's data sheet",
  conduit: "Look whether it runs in one, at walls above all",
  grommets: "Look at each hole that it passes",
  lugs: "The stud that the hole fits, such as M8, is stamped on the lug",
  boots: "Look whether a boot covers the lug",
  zones: "Follow the wire through the vehicle",
};

/** The same for what is a field of every part, whatever its kind. */
const OF_PART: Readonly<Record<string, string>> = {
  zone: "Look where in the vehicle the part is",
  enclosure: "Look in which box the part is",
  face: "Measure where on the part its terminals are",
  panel: "Measure where on its panel the part is",
  covers: "Look which terminals lie under a cover",
};
const AT_THE_VEHICLE = "Look at the part in the vehicle";

function describe(network: Network, field: MissingField): (Field & { readonly key: string }) | undefined {
  if ("part" in field) {
    const part = network.partById.get(field.part);
    const spec = part?.kind.parameters[field.parameter];
    // Zone, face and panel are fields of the part itself, not of its kind.
    const label = spec?.title ?? fieldTitle("part", field.parameter);
    return part === undefined
      ? undefined
      : {
          key: `part ${field.parameter} ${label}`,
          thing: "part",
          id: field.parameter,
          label,
          find: spec?.where.replace(/\.$/, "") ?? OF_PART[field.parameter] ?? AT_THE_VEHICLE,
        };
  }
  if ("wire" in field) {
    const find = OF_WIRE[field.field] ?? "Look at the wire";
    return { key: `wire ${field.field}`, thing: "wire", id: field.field, label: fieldTitle("wire", field.field), find };
  }
  const plain = (thing: "enclosure" | "zone", id: string, find: string) => ({
    key: `${thing} ${id}`,
    thing,
    id,
    label: fieldTitle(thing, id),
    find,
  });
  if ("enclosure" in field) return plain("enclosure", field.field, "Look at the enclosure");
  if ("zone" in field)
    return plain("zone", field.field, "Measure it on the hottest day, or take it from the vehicle's maker");
  return { key: `title ${field.title}`, thing: "title", id: field.title, label: field.title, find: "Your own papers" };
}

/** Where the pen points: the part or wire itself; for the others what the check was looking at. */
function placesOf(field: MissingField, entry: Waiting): readonly Place[] {
  if ("part" in field) return [{ part: field.part }];
  if ("wire" in field) return [{ wire: field.wire }];
  return entry.where.slice(0, 1);
}

function nameOf(network: Network, field: MissingField): string | undefined {
  if ("zone" in field) {
    const zone = network.project.zones.find(({ id }) => id === field.zone);
    return zone?.name ?? zone?.kind;
  }
  if (!("enclosure" in field)) return undefined;
  return network.project.enclosures.find(({ id }) => id === field.enclosure)?.name;
}

/**
 * What all of these wait for, each field of each kind of thing once, in the order of the checks that wait: what the
 * gravest checks need comes first.
 */
export function missingData(network: Network, waiting: readonly Waiting[]): readonly Lacking[] {
  const groups = new Map<string, Growing>();
  for (const entry of waiting) {
    for (const field of entry.missing) {
      const found = describe(network, field);
      if (found === undefined) continue;
      const { key, thing, id, label, find } = found;
      const group = groups.get(key) ?? {
        thing,
        id,
        label,
        find,
        kinds: new Set(),
        places: new Map(),
        names: new Set(),
        checks: new Set(),
      };
      groups.set(key, group);
      for (const place of placesOf(field, entry)) group.places.set(placeId(place), place);
      const name = nameOf(network, field);
      if (name !== undefined) group.names.add(name);
      if ("part" in field) group.kinds.add(network.partById.get(field.part)?.kind.kind ?? "");
      group.checks.add(entry.check);
    }
  }
  return [...groups.values()].map(({ places, names, kinds, checks, ...group }) => ({
    ...group,
    kinds: [...kinds],
    names: [...names],
    checks: [...checks],
    places: [...places.values()].sort((a, b) => compareNatural(placeId(a), placeId(b))),
  }));
}
