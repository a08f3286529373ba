/** Questions to a project that are asked often. Each answer is kept with the list it was made from, so an edit that leaves the list alone keeps the answer. */
import type { PartKind, TerminalSpec, Values, View } from "../parts/define.ts";
import { readValues } from "../parts/values.ts";
import type { Cable, Enclosure, Part, Project, Sheet, Wire, WireEnd, Zone } from "./document.ts";

export type Kinds = ReadonlyMap<string, PartKind>;

interface WithId {
  readonly id: string;
}

const byIdOf = new WeakMap<readonly WithId[], ReadonlyMap<string, WithId>>();

function find<T extends WithId>(list: readonly T[], id: string): T | undefined {
  let index = byIdOf.get(list);
  if (index === undefined) {
    // The first of two equal ids: reading refuses the second, a draft in the making may hold it for a moment.
    index = new Map(list.map((entry): [string, T] => [entry.id, entry]).reverse());
    byIdOf.set(list, index);
  }
  return index.get(id) as T | undefined;
}

export const partById = (project: Project, id: string): Part | undefined => find(project.parts, id);
export const sheetById = (project: Project, id: string): Sheet | undefined => find(project.sheets, id);
export const zoneById = (project: Project, id: string): Zone | undefined => find(project.zones, id);
export const enclosureById = (project: Project, id: string): Enclosure | undefined => find(project.enclosures, id);
export const cableById = (project: Project, id: string): Cable | undefined => find(project.cables, id);

const wiresByEnd = new WeakMap<readonly Wire[], ReadonlyMap<string, readonly Wire[]>>();

/** The wires at a terminal, in the order of the document; a wire with both ends there is listed once. */
export function wiresAt(project: Project, [part, terminal]: WireEnd): readonly Wire[] {
  let index = wiresByEnd.get(project.wires);
  if (index === undefined) {
    const made = new Map<string, Wire[]>();
    for (const wire of project.wires) {
      const keys = wire.ends.filter((end) => end !== null).map((end) => end.join(":"));
      for (const key of new Set(keys)) {
        const there = made.get(key);
        if (there === undefined) made.set(key, [wire]);
        else there.push(wire);
      }
    }
    wiresByEnd.set(project.wires, made);
    index = made;
  }
  return index.get(`${part}:${terminal}`) ?? [];
}

export interface KnownPart {
  readonly kind: PartKind;
  readonly values: Values;
  readonly terminals: readonly TerminalSpec[];
  readonly terminalIds: ReadonlySet<string>;
  /** Made on demand: symbols are larger than the rest. */
  readonly views: () => readonly View[];
}

const knownParts = new WeakMap<Kinds, WeakMap<Part, KnownPart>>();

/** A part together with what its kind says of it; undefined for a kind that the catalogue lacks. */
export function knownPart(part: Part, kinds: Kinds): KnownPart | undefined {
  const kind = kinds.get(part.kind);
  if (kind === undefined) return undefined;
  let kept = knownParts.get(kinds);
  if (kept === undefined) knownParts.set(kinds, (kept = new WeakMap()));
  const already = kept.get(part);
  if (already !== undefined) return already;
  const values = readValues(kind, part.parameters);
  const terminals = kind.terminals(values);
  let views: readonly View[] | undefined;
  const made: KnownPart = {
    kind,
    values,
    terminals,
    terminalIds: new Set(terminals.map((terminal) => terminal.id)),
    views: () => (views ??= kind.views(values)),
  };
  kept.set(part, made);
  return made;
}
