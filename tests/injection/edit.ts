/** Edits as somebody with a screwdriver makes them: one mistake, the rest of the drawing as it was. */
import { KINDS } from "../../core/parts/catalogue.ts";
import type { Part, Project, Wire, WireEnd } from "../../core/project/document.ts";
import { knownPart } from "../../core/project/lookup.ts";
import { parseSize } from "../../core/quantity/parse.ts";
import { ampacity } from "../../core/standards/ampacity.ts";
import type { KnownPart } from "../../core/project/lookup.ts";

/** One place at which a mistake can be made, and the drawing with it. */
export interface Site {
  readonly make: () => Project;
}

export interface Mistake {
  readonly id: string;
  /** What somebody did, in a few words. */
  readonly what: string;
  /** Any of these checks is the one for it. */
  readonly expects: readonly string[];
  /**
   * Kinds of part that the finding names where it does not name what was touched: a wire across the key shows at the
   * controller that it enables.
   */
  readonly showsAt?: readonly string[];
  readonly sites: (project: Project) => readonly Site[];
}

export type KnownKind = KnownPart & { readonly part: Part };

export function known(project: Project): readonly KnownKind[] {
  return project.parts.flatMap((part): KnownKind[] => {
    const found = knownPart(part, KINDS);
    return found === undefined ? [] : [{ ...found, part }];
  });
}

export const ofKind = (project: Project, ...kinds: readonly string[]): readonly Part[] =>
  project.parts.filter(({ kind }) => kinds.includes(kind));

const is = (end: WireEnd | null, part: string, terminal: string): boolean => end?.[0] === part && end[1] === terminal;

export const wiresAt = (project: Project, part: string, terminal: string): readonly Wire[] =>
  project.wires.filter(({ ends }) => ends.some((end) => is(end, part, terminal)));

export function withPart(project: Project, id: string, change: (part: Part) => Part): Project {
  return { ...project, parts: project.parts.map((part) => (part.id === id ? change(part) : part)) };
}

export function withWire(project: Project, id: string, change: (wire: Wire) => Wire): Project {
  return { ...project, wires: project.wires.map((wire) => (wire.id === id ? change(wire) : wire)) };
}

export function withParameters(project: Project, id: string, parameters: Readonly<Record<string, string>>): Project {
  return withPart(project, id, (part) => ({ ...part, parameters: { ...part.parameters, ...parameters } }));
}

export const withoutWire = (project: Project, id: string): Project => ({
  ...project,
  wires: project.wires.filter((wire) => wire.id !== id),
});

/** Everything at terminal `a` goes to `b` and the other way round. */
export function swapEnds(project: Project, part: string, a: string, b: string): Project {
  const moved = (end: WireEnd | null): WireEnd | null =>
    is(end, part, a) ? [part, b] : is(end, part, b) ? [part, a] : end;
  return { ...project, wires: project.wires.map((wire) => withEnds(wire, moved)) };
}

/** A wire like the one that is already at `from`, laid straight from one terminal to another. */
export function bridge(project: Project, from: WireEnd, to: WireEnd): Project {
  const like = wiresAt(project, ...from)[0] ?? project.wires[0];
  const number = (project.lastIds["w"] ?? 0) + 1;
  const { ends: _, routes: __, lugs: ___, ...rest } = like ?? { ends: [null, null] };
  const wire = {
    ...rest,
    id: `w${number}`,
    number: `W${number}`,
    ends: [from, to],
    boots: [true, true],
    length: "1 m",
  } as Wire;
  return { ...project, wires: [...project.wires, wire], lastIds: { ...project.lastIds, w: number } };
}

/** The part is gone and what was at its one terminal is joined to what was at the other. */
export function joinedAcross(project: Project, part: string, a: string, b: string): Project | undefined {
  const [one] = wiresAt(project, part, a);
  const [other] = wiresAt(project, part, b);
  if (one === undefined || other === undefined || one.id === other.id) return undefined;
  const far = one.ends.find((end) => !is(end, part, a));
  if (far === undefined) return undefined;
  // What else hung on the removed part hangs on the far end now.
  const moved = (end: WireEnd | null): WireEnd | null => (is(end, part, a) || is(end, part, b) ? far : end);
  return {
    ...project,
    wires: project.wires.filter((wire) => wire.id !== one.id).map((wire) => withEnds(wire, moved)),
    parts: project.parts.filter(({ id }) => id !== part),
  };
}

/** The very same wire where neither end moves: what was touched is told by identity. */
function withEnds(wire: Wire, moved: (end: WireEnd | null) => WireEnd | null): Wire {
  const [from, to] = [moved(wire.ends[0]), moved(wire.ends[1])];
  return from === wire.ends[0] && to === wire.ends[1] ? wire : { ...wire, ends: [from, to] };
}

/** The same change of parameters at every part of these kinds that states them. */
export function eachWith(
  project: Project,
  kinds: readonly string[],
  parameters: (part: Part) => Readonly<Record<string, string>> | undefined,
): readonly Site[] {
  return ofKind(project, ...kinds).flatMap((part): Site[] => {
    const changed = parameters(part);
    return changed === undefined ? [] : [{ make: () => withParameters(project, part.id, changed) }];
  });
}

/** Number at the head of a typed quantity: "250 A" is 250. */
export const figure = (text: string | null | undefined): number => Number.parseFloat(text ?? "");

/** Square metres of a typed size; 0 where it is none. */
export function areaOf(size: string | null | undefined): number {
  const read = parseSize(size ?? "");
  return read.ok ? read.size.area : 0;
}

/** Amperes that a wire may carry: 33 CFR 183.425, table 5, by the column of its insulation; 0 where it is too thin for the table. */
export function amperesOf({ size, insulation }: Wire): number {
  const read = parseSize(size ?? "");
  const celsius = figure(insulation?.temperature);
  return read.ok ? (ampacity(read.size, Number.isNaN(celsius) ? undefined : celsius + 273.15)?.amperes ?? 0) : 0;
}

/** A part more, joined by short wires like those that are already at the places it goes to. */
export function added(
  project: Project,
  kind: string,
  parameters: Readonly<Record<string, string>>,
  joins: Readonly<Record<string, WireEnd>>,
): Project {
  const number = (project.lastIds["p"] ?? 0) + 1;
  const id = `p${number}`;
  const part: Part = { id, designation: `Z${number}`, kind, parameters, views: [] };
  const bigger = { ...project, parts: [...project.parts, part], lastIds: { ...project.lastIds, p: number } };
  return Object.entries(joins).reduce<Project>((made, [terminal, to]) => bridge(made, to, [id, terminal]), bigger);
}

/** What is at one terminal goes to another place. */
export function moved(project: Project, [part, terminal]: WireEnd, to: WireEnd): Project {
  return {
    ...project,
    wires: project.wires.map((wire) => withEnds(wire, (end) => (is(end, part, terminal) ? to : end))),
  };
}

/** The far ends of the wires at a terminal. */
export const farEnds = (project: Project, part: string, terminal: string): readonly WireEnd[] =>
  wiresAt(project, part, terminal).flatMap(
    ({ ends }) => ends.filter((end) => end !== null && !is(end, part, terminal)) as WireEnd[],
  );
