/** The fields of one part, or those that several parts have in common. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import type { ParameterSpec } from "../../../core/parts/define.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import { setParameter } from "../../../core/project/commands/set-parameter.ts";
import { setPartField } from "../../../core/project/commands/set-part-field.ts";
import type { PartFields } from "../../../core/project/commands/set-part-field.ts";
import type { Part, Project } from "../../../core/project/document.ts";
import { knownPart } from "../../../core/project/lookup.ts";
import { parameterSpec } from "../../../core/project/normalise.ts";
import type { FieldModel } from "../../controls/Field.tsx";
import type { EditorStore } from "../../window/editor-store.ts";
import type { Asked } from "./asked.ts";
import { hintOf, together, zoneName } from "./field-words.ts";
import { placeFields } from "./place-fields.ts";
import { refusalOf } from "./refusal.ts";

export interface FieldGroup {
  readonly title: string;
  readonly fields: readonly FieldModel[];
  /** Shown on demand: many, and seldom needed. */
  readonly folded?: boolean;
}

/** Parameters that every one of the parts has, by name; a name that means two things in two kinds is left out. */
function commonSpecs(parts: readonly Part[]): ReadonlyMap<string, ParameterSpec> {
  const each = parts.map((part): ReadonlyMap<string, ParameterSpec> => {
    const known = knownPart(part, KINDS);
    if (known === undefined) return new Map();
    const names = Object.keys(known.kind.parameters).filter(
      (name) => !name.startsWith("finish-") || known.terminalIds.has(name.slice("finish-".length)),
    );
    return new Map(
      names.flatMap((name) => {
        const spec = parameterSpec(known.kind, name, known.terminalIds);
        return spec === undefined ? [] : [[name, spec] as const];
      }),
    );
  });
  const [first = new Map<string, ParameterSpec>(), ...others] = each;
  const sameKind = new Set(parts.map(({ kind }) => kind)).size === 1;
  return new Map(
    [...first].filter(([name, spec]) =>
      others.every((other) => other.has(name) && (sameKind || other.get(name)?.title === spec.title)),
    ),
  );
}

export function partGroups(store: EditorStore, project: Project, parts: readonly Part[], asked: Asked): FieldGroup[] {
  const [first] = parts;
  if (first === undefined) return [];
  const specs = commonSpecs(parts);
  const count = (parameter: string): number => parts.reduce((sum, { id }) => sum + asked({ part: id, parameter }), 0);
  const state = (fields: PartFields): string | undefined =>
    refusalOf(store, setPartField, { changes: parts.map(({ id }) => ({ part: id, fields })) });
  const parameter = ([name, spec]: readonly [string, ParameterSpec]): FieldModel => ({
    name,
    title: spec.title,
    value: together(parts, ({ parameters }) => (Object.hasOwn(parameters, name) ? parameters[name] : undefined)),
    usual: spec.default,
    hint: hintOf(spec),
    explanation: spec.explanation,
    where: spec.where,
    choices: "choices" in spec ? spec.choices.map((value) => ({ value, label: value })) : undefined,
    canBeUnknown: true,
    asked: count(name),
    long: "text" in spec && name === "note",
    set: (value) => refusalOf(store, setParameter, { changes: parts.map(({ id }) => ({ part: id, name, value })) }),
  });
  const designation: FieldModel = {
    name: "designation",
    title: "Designation",
    value: first.designation,
    explanation: "The name on the drawing and on the label: a letter for what it is, and a number.",
    canBeUnknown: false,
    always: true,
    set: (value) =>
      refusalOf(store, rename, { what: "part", id: first.id, name: typeof value === "string" ? value : "" }),
  };
  const place: FieldModel[] = [
    ...(parts.length === 1 ? [designation] : []),
    {
      name: "zone",
      title: "Zone",
      value: together(parts, ({ zone }) => zone),
      choices: project.zones.map((zone) => ({ value: zone.id, label: zoneName(zone) })),
      explanation: "Where in the vehicle it stands; that decides how hot it gets and how wet.",
      where: project.zones.length === 0 ? "No zone yet: add one to the drawing, with nothing selected." : undefined,
      canBeUnknown: false,
      asked: count("zone"),
      set: (value) => state({ zone: value ?? undefined }),
    },
    {
      name: "enclosure",
      title: "Enclosure",
      value: together(parts, ({ enclosure }) => enclosure),
      choices: project.enclosures.map(({ id, name }) => ({ value: id, label: name })),
      explanation: "The box that it is in; a box that opens only with a tool keeps fingers out.",
      where:
        project.enclosures.length === 0
          ? "No enclosure yet: add one to the drawing, with nothing selected."
          : undefined,
      canBeUnknown: false,
      asked: count("enclosure"),
      set: (value) => state({ enclosure: value ?? undefined }),
    },
  ];
  const note: FieldModel = {
    name: "note",
    title: "Note",
    value: together(parts, (part) => part.note),
    explanation: "Free words for whoever reads the drawing; no check reads them.",
    canBeUnknown: false,
    long: true,
    set: (value) => state({ note: value ?? undefined }),
  };
  const own = parts.length === 1 ? placeFields(store, first, asked) : { panel: undefined, covers: [], face: [] };
  const isFinish = ([name]: readonly [string, ParameterSpec]): boolean => name.startsWith("finish-");
  const plain = [...specs].filter((entry) => !isFinish(entry)).map(parameter);
  const finishes = [...specs].filter(isFinish).map(parameter);
  return [
    { title: "Name and place", fields: own.panel === undefined ? place : [...place, own.panel] },
    { title: "Figures", fields: plain },
    { title: "Cover of each terminal", fields: finishes, folded: true },
    { title: "Fixed covers", fields: own.covers, folded: true },
    { title: "Places of the terminals on it", fields: own.face, folded: true },
    { title: "Words", fields: [note] },
  ].filter(({ fields }) => fields.length > 0);
}
