/** What is different between two drawings of one thing, by designation: ids and wire numbers say nothing. */
import type { Part, Project, Wire, WireEnd, ZoneKind } from "../../core/project/document.ts";

/** Parts by designation, wires by what they join; of several alike the second is "F1 #2". */
export interface Keyed {
  readonly project: Project;
  readonly parts: ReadonlyMap<string, Part>;
  readonly wires: ReadonlyMap<string, Wire>;
  readonly partKeys: ReadonlyMap<string, string>;
  readonly wireKeys: ReadonlyMap<string, string>;
}

function numbered<T extends { readonly id: string }>(
  things: readonly T[],
  name: (thing: T) => string,
): readonly [ReadonlyMap<string, T>, ReadonlyMap<string, string>] {
  const byKey = new Map<string, T>();
  const keys = new Map<string, string>();
  for (const thing of things) {
    const plain = name(thing);
    let key = plain;
    for (let count = 2; byKey.has(key); count += 1) key = `${plain} #${String(count)}`;
    byKey.set(key, thing);
    keys.set(thing.id, key);
  }
  return [byKey, keys];
}

export function keyed(project: Project): Keyed {
  const [parts, partKeys] = numbered(project.parts, ({ designation }) => designation);
  const end = (at: WireEnd | null): string => (at === null ? "loose" : `${partKeys.get(at[0]) ?? at[0]}:${at[1]}`);
  const [wires, wireKeys] = numbered(project.wires, ({ ends: [a, b] }) => [end(a), end(b)].sort().join(" - "));
  return { project, parts, wires, partKeys, wireKeys };
}

export interface Differences {
  /** Keys of parts and wires that only one of the two has, or that are stated otherwise. */
  readonly parts: ReadonlySet<string>;
  readonly wires: ReadonlySet<string>;
  /** Anything else: title, zones, enclosures, cables, states. */
  readonly others: number;
}

export function differences(a: Keyed, b: Keyed): Differences {
  const partText = (of: Keyed, part: Part | undefined): string =>
    JSON.stringify(
      part && {
        ...part,
        id: "",
        views: part.views.length,
        zone: zoneName(of.project, part.zone),
        enclosure: enclosureName(of.project, part),
      },
    );
  const wireText = (of: Keyed, wire: Wire | undefined): string =>
    JSON.stringify(
      wire && {
        ...wire,
        id: "",
        number: wire.number === "",
        ends: wire.ends.map((at) => at === null),
        zones: wire.zones?.map((zone) => zoneName(of.project, zone)),
      },
    );
  const parts = union(a.parts, b.parts).filter(
    (key) => partText(a, a.parts.get(key)) !== partText(b, b.parts.get(key)),
  );
  const wires = union(a.wires, b.wires).filter(
    (key) => wireText(a, a.wires.get(key)) !== wireText(b, b.wires.get(key)),
  );
  const others = (["title", "zones", "enclosures", "cables", "states", "sharedNegative", "netNames"] as const).filter(
    (field) => JSON.stringify(a.project[field]) !== JSON.stringify(b.project[field]),
  );
  return { parts: new Set(parts), wires: new Set(wires), others: others.length };
}

const union = (a: ReadonlyMap<string, unknown>, b: ReadonlyMap<string, unknown>): readonly string[] => [
  ...new Set([...a.keys(), ...b.keys()]),
];

export function zoneName(project: Project, id: string | undefined): string | undefined {
  const zone = project.zones.find((candidate) => candidate.id === id);
  if (zone === undefined) return undefined;
  return zone.name === undefined || zone.name === zone.kind ? ZONE_WORDS[zone.kind] : zone.name;
}

const ZONE_WORDS: Readonly<Record<ZoneKind, string>> = {
  outside: "the outside",
  engine: "engine space",
  passenger: "passenger space",
  luggage: "luggage space",
  underfloor: "the underfloor",
  "battery-box": "battery box",
  other: "another place",
};

export function enclosureName(project: Project, part: Part): string | undefined {
  return project.enclosures.find(({ id }) => id === part.enclosure)?.name;
}
