/** What checks could not do without: each field that is missing, where, where a person finds it, and which checks wait for it. */
import type { Network } from "../../network/network.ts";
import { compareNatural } from "../../project/designation.ts";
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

/** What a wire's fields are called and where a person finds them; a field that is not listed goes by its own name. */
const WIRE_FIELDS: Readonly<Record<string, { readonly label: string; readonly find: string }>> = {
  length: { label: "Length", find: "Measure it, or estimate it where the wire is not yet cut" },
  size: { label: "Size", find: "Printed on the wire" },
  colour: { label: "Colour", find: "Look at the wire" },
  sheath: { label: "In a sheath throughout", find: "Look along the whole wire" },
  "insulation.volts": { label: "Insulation, volts", find: "Printed on the wire, or in its data sheet" },
  "insulation.temperature": {
    label: "Insulation, temperature",
    find: "Printed on the wire, or in its data sheet",
  },
  "insulation.material": { label: "Insulation", find: "The wire's data sheet" },
  conduit: { label: "Conduit", find: "Look whether it runs in one, at walls above all" },
  grommets: { label: "Grommets at walls", find: "Look at each hole that it passes" },
  lugs: { label: "Lug", find: "The stud that the hole fits, such as M8, is stamped on the lug" },
  boots: { label: "Boot", find: "Look whether a boot covers the lug" },
  zones: { label: "Zones", find: "Follow the wire through the vehicle" },
};

/** For what is a field of every part, whatever its kind. */
const AT_THE_VEHICLE = "Look at the part in the vehicle";
const PART_FIELDS: Readonly<Record<string, { readonly label: string; readonly find: string }>> = {
  zone: { label: "Zone", find: "Look where in the vehicle the part is" },
  enclosure: { label: "Enclosure", find: "Look in which box the part is" },
  face: { label: "Face of the part", find: "Measure where on the part its terminals are" },
  panel: { label: "Place on its panel", find: "Measure where on its panel the part is" },
  covers: { label: "Fixed covers", find: "Look which terminals lie under a cover" },
};

const ENCLOSURE_FIELDS: Readonly<Record<string, string>> = {
  toolClosed: "Opens only with a tool",
  conductive: "Of conductive material",
  voltageSign: "Bears the voltage sign",
};

const ZONE_FIELDS: Readonly<Record<string, string>> = { ambient: "Hottest air" };

function describe(network: Network, field: MissingField): (Field & { readonly key: string }) | undefined {
  if ("part" in field) {
    const part = network.partById.get(field.part);
    const spec = part?.kind.parameters[field.parameter];
    // Zone, face and panel are fields of the part itself, not of its kind.
    const own = PART_FIELDS[field.parameter];
    const label = spec?.title ?? own?.label ?? field.parameter;
    return part === undefined
      ? undefined
      : {
          key: `part ${field.parameter} ${label}`,
          thing: "part",
          id: field.parameter,
          label,
          find: spec?.where.replace(/\.$/, "") ?? own?.find ?? AT_THE_VEHICLE,
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
