/** The columns of the table of parts: what the kinds shown have in common, or everything that one kind has. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { ParameterSpec } from "../../../core/parts/define.ts";
import type { Part, Project } from "../../../core/project/document.ts";
import { knownPart, partById } from "../../../core/project/lookup.ts";
import { parameterSpec } from "../../../core/project/normalise.ts";
import { hintOf, zoneName } from "../facts/field-words.ts";
import { byName, cannotBeEmpty, cannotBeUnknown, figureIn, widthFor } from "./column.ts";
import type { Column } from "./column.ts";

const FINISH = "finish-";

function specOf(part: Part | undefined, name: string): ParameterSpec | undefined {
  const known = part === undefined ? undefined : knownPart(part, KINDS);
  if (known === undefined || !Object.hasOwn(known.kind.parameters, name)) return undefined;
  if (name.startsWith(FINISH) && !known.terminalIds.has(name.slice(FINISH.length))) return undefined;
  return parameterSpec(known.kind, name, known.terminalIds);
}

/**
 * Parameters worth a column, by name. Of one kind: all, their finish last. Of several: what at
 * least two of the kinds and a tenth of the parts have, under one title.
 */
export function sharedParameters(parts: readonly Part[]): ReadonlyMap<string, ParameterSpec> {
  const single = new Set(parts.map(({ kind }) => kind)).size === 1;
  const found = new Map<string, { readonly spec: ParameterSpec; readonly kinds: Set<string>; count: number }>();
  const ambiguous = new Set<string>();
  for (const part of parts) {
    for (const name of Object.keys(KINDS.get(part.kind)?.parameters ?? {})) {
      const spec = specOf(part, name);
      if (spec === undefined) continue;
      const already = found.get(name);
      if (already === undefined) found.set(name, { spec, kinds: new Set([part.kind]), count: 1 });
      else if (already.spec.title === spec.title) {
        already.count += 1;
        already.kinds.add(part.kind);
      } else ambiguous.add(name);
    }
  }
  const worth = [...found].filter(
    ([name, { kinds, count }]) =>
      single || (kinds.size > 1 && count >= parts.length / 10 && !ambiguous.has(name) && !name.startsWith(FINISH)),
  );
  const last = ([name]: (typeof worth)[number]): number => (name.startsWith(FINISH) ? 2 : name === "finish" ? 1 : 0);
  return new Map(worth.sort((a, b) => last(a) - last(b)).map(([name, { spec }]) => [name, spec]));
}

function longestChoice(spec: ParameterSpec): number {
  if ("choices" in spec) return Math.max(...spec.choices.map((choice) => choice.length));
  return "text" in spec || "curve" in spec ? 16 : 0;
}

function parameterColumn(project: Project, name: string, spec: ParameterSpec): Column {
  const specAt = (id: string): ParameterSpec | undefined => specOf(partById(project, id), name);
  return {
    id: name,
    title: spec.title,
    about: `${spec.explanation} Where: ${spec.where}`,
    hint: hintOf(spec),
    width: widthFor(spec.title, longestChoice(spec)),
    cell: (id) => {
      const part = partById(project, id);
      const own = specOf(part, name);
      if (part === undefined || own === undefined) return undefined;
      const { parameters } = part;
      // A terminal has the finish of its part, unless it is said to have its own.
      const ofPart = name.startsWith(FINISH) ? (parameters["finish"] ?? undefined) : undefined;
      return { value: Object.hasOwn(parameters, name) ? parameters[name] : undefined, usual: own.default ?? ofPart };
    },
    choices: (id) => {
      const own = specAt(id);
      return own !== undefined && "choices" in own ? own.choices : [];
    },
    figure: "dimension" in spec ? figureIn(spec.dimension) : undefined,
    missing: (id) => [{ part: id, parameter: name }],
    edit: (part, value) => ({ set: "parameter", change: { part, name, value } }),
  };
}

/** `shown`: the parts that the filter by kind lets through. */
export function partColumns(project: Project, shown: readonly Part[]): readonly Column[] {
  const nameOf = (id: string): string => partById(project, id)?.designation ?? id;
  const zones = project.zones.map((zone) => ({ id: zone.id, name: zoneName(zone) }));
  const place = (field: "zone" | "enclosure", title: string, things: typeof zones, about: string): Column => ({
    id: field,
    title,
    about,
    width: widthFor(title, Math.max(12, ...things.map(({ name }) => name.length))),
    cell: (id) => {
      const stated = partById(project, id)?.[field];
      return { value: things.find((thing) => thing.id === stated)?.name };
    },
    choices: () => things.map(({ name }) => name),
    missing: (id) => [{ part: id, parameter: field }],
    edit: (part, value) => {
      if (value === undefined) return { set: "part", part, fields: { [field]: undefined } };
      if (value === null) return cannotBeUnknown(`${nameOf(part)}, ${field}`);
      const found = byName(things, value, field, nameOf(part));
      return "refused" in found ? found : { set: "part", part, fields: { [field]: found.id } };
    },
  });
  return [
    {
      id: "#designation",
      title: "Designation",
      about: "The name on the drawing and on the label.",
      width: 104,
      cell: (id) => ({ value: partById(project, id)?.designation }),
      edit: (id, value) =>
        typeof value === "string"
          ? { set: "name", given: { what: "part", id, name: value } }
          : cannotBeEmpty(`${nameOf(id)}, designation`),
    },
    {
      id: "#kind",
      title: "Kind",
      about: "What the part is.",
      width: 168,
      cell: (id) => {
        const kind = partById(project, id)?.kind ?? "";
        return { value: KINDS.get(kind)?.title ?? kind };
      },
    },
    ...[...sharedParameters(shown)].map(([name, spec]) => parameterColumn(project, name, spec)),
    place("zone", "Zone", zones, "Where in the vehicle it stands; that decides how hot it gets and how wet."),
    place(
      "enclosure",
      "Enclosure",
      project.enclosures.map(({ id, name }) => ({ id, name })),
      "The box that it is in.",
    ),
  ];
}
