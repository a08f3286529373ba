/** The columns of the table of wires. */
import type { Insulation, Project, Wire } from "../../../core/project/document.ts";
import type { WireFields } from "../../../core/project/commands/set-wire-field.ts";
import { partById } from "../../../core/project/lookup.ts";
import type { Dimension } from "../../../core/quantity/kinds.ts";
import { answer, zoneName } from "../facts/field-words.ts";
import { WIRE_WORDS } from "../facts/wire-fields.ts";
import { byName, cannotBeEmpty, cannotBeUnknown, figureIn, NOT_KNOWN, widthFor } from "./column.ts";
import type { Cell, Column, Value } from "./column.ts";
import type { Edit, Refusal } from "./edits.ts";

type End = 0 | 1;
const ENDS: readonly End[] = [0, 1];
const YES_NO = ["yes", "no"];

function readAnswer(value: Value, where: string): { readonly answer: boolean | null | undefined } | Refusal {
  if (typeof value !== "string") return { answer: value };
  const word = value.toLowerCase();
  if (word === "yes" || word === "y") return { answer: true };
  if (word === "no" || word === "n") return { answer: false };
  return { refused: `${where}: "${value}" is neither yes nor no. Write yes, no or ${NOT_KNOWN}.` };
}

/** A pair with one end changed; undefined where then neither end states anything. */
function withEnd<Each>(
  pair: readonly [Each | null, Each | null] | undefined,
  end: End,
  value: Each | null | undefined,
): readonly [Each | null, Each | null] | undefined {
  const other = pair?.[end === 0 ? 1 : 0] ?? null;
  if (value === undefined && other === null) return undefined;
  return end === 0 ? [value ?? null, other] : [other, value ?? null];
}

/** Insulation with one of its fields changed; undefined where then nothing is stated. */
function withInsulation(
  old: Insulation | undefined,
  { [0]: field, [1]: value }: readonly [keyof Insulation, Value],
): Insulation | undefined {
  const stated = Object.entries({ ...old, [field]: value }).filter(([, each]) => each !== undefined);
  return stated.length === 0 ? undefined : Object.fromEntries(stated);
}

export function wireColumns(project: Project): readonly Column[] {
  const wires = new Map(project.wires.map((wire) => [wire.id, wire]));
  const nameOf = (id: string): string => `Wire ${wires.get(id)?.number ?? id}`;
  const words = (name: string): Pick<Column, "title" | "about" | "hint"> => {
    const { title = name, hint, explanation = "", where = "" } = WIRE_WORDS[name] ?? {};
    return { title, hint, about: `${explanation} Where: ${where}` };
  };
  const cellOf =
    (read: (wire: Wire) => Value) =>
    (id: string): Cell | undefined => {
      const wire = wires.get(id);
      return wire === undefined ? undefined : { value: read(wire) };
    };
  const state = (wire: string, fields: (wire: Wire) => WireFields): Edit => ({ set: "wire", wire, fields });
  const asked =
    (...names: readonly string[]) =>
    (wire: string) =>
      names.map((field) => ({ wire, field }));

  const typed = (name: "size" | "length" | "colour" | "conduit", width: number, dimension?: Dimension): Column => ({
    id: name,
    ...words(name),
    width,
    cell: cellOf((wire) => wire[name]),
    figure: dimension === undefined ? undefined : figureIn(dimension),
    missing: asked(name),
    edit: (id, value) => state(id, () => ({ [name]: value })),
  });
  const insulation = (field: keyof Insulation, width: number, dimension?: Dimension): Column => ({
    id: `insulation.${field}`,
    ...words(`insulation.${field}`),
    width,
    cell: cellOf((wire) => wire.insulation?.[field]),
    figure: dimension === undefined ? undefined : figureIn(dimension),
    missing: asked(`insulation.${field}`),
    edit: (id, value) =>
      value === null && field === "material"
        ? cannotBeUnknown(`${nameOf(id)}, insulation`)
        : state(id, (wire) => ({ insulation: withInsulation(wire.insulation, [field, value]) })),
  });
  const pair = (name: "lugs" | "torque", end: End, width: number): Column => ({
    id: end === 0 ? name : `${name} B`,
    ...words(name),
    title: `${words(name).title} ${end === 0 ? "from" : "to"}`,
    width,
    cell: cellOf((wire) => wire[name]?.[end]),
    figure: name === "torque" ? figureIn("torque") : undefined,
    missing: (id) => (typeof wires.get(id)?.[name]?.[end] === "string" ? [] : asked(name)(id)),
    edit: (id, value) => state(id, (wire) => ({ [name]: withEnd(wire[name], end, value) })),
  });
  const question = (
    id: string,
    name: "boots" | "sheath" | "grommets",
    title: string,
    read: (wire: Wire) => boolean | null | undefined,
    write: (wire: Wire, given: boolean | null | undefined) => WireFields,
  ): Column => ({
    id,
    ...words(name),
    title,
    width: widthFor(title, 9),
    cell: cellOf((wire) => answer(read(wire))),
    choices: () => YES_NO,
    missing: (id) => {
      const wire = wires.get(id);
      return wire !== undefined && typeof read(wire) !== "boolean" ? asked(name)(id) : [];
    },
    edit: (wireId, value) => {
      const given = readAnswer(value, `${nameOf(wireId)}, ${title.toLowerCase()}`);
      return "refused" in given ? given : state(wireId, (wire) => write(wire, given.answer));
    },
  });
  const end = (at: End): Column => ({
    id: at === 0 ? "#from" : "#to",
    title: at === 0 ? "From" : "To",
    about: "Where it goes is drawn on the sheet.",
    width: 128,
    cell: cellOf(({ ends }) => {
      const place = ends[at];
      return place === null ? "loose end" : `${partById(project, place[0])?.designation ?? place[0]}:${place[1]}`;
    }),
  });
  const zones = project.zones.map((zone) => ({ id: zone.id, name: zoneName(zone) }));
  const through: Column = {
    id: "zones",
    ...words("zones"),
    hint: "zones, separated by commas",
    width: 200,
    cell: cellOf((wire) =>
      wire.zones === undefined || wire.zones.length === 0
        ? undefined
        : wire.zones.map((id) => zones.find((zone) => zone.id === id)?.name ?? id).join(", "),
    ),
    choices: () => zones.map(({ name }) => name),
    missing: asked("zones"),
    edit: (id, value) => {
      if (value === null) return cannotBeUnknown(`${nameOf(id)}, zones`);
      if (value === undefined) return state(id, () => ({ zones: undefined }));
      const found = value
        .split(/[,;]/)
        .filter((name) => name.trim() !== "")
        .map((name) => byName(zones, name, "zone", nameOf(id)));
      const refused = found.find((each) => "refused" in each);
      if (refused !== undefined && "refused" in refused) return refused;
      return state(id, () => ({ zones: found.flatMap((each) => ("id" in each ? [each.id] : [])) }));
    },
  };
  return [
    {
      id: "#number",
      title: "Number",
      about: "What stands on the wire's markers at both ends.",
      width: 88,
      cell: cellOf(({ number }) => number),
      edit: (id, value) =>
        typeof value === "string"
          ? { set: "name", given: { what: "wire", id, name: value } }
          : cannotBeEmpty(`${nameOf(id)}, number`),
    },
    ...ENDS.map(end),
    typed("size", 96, "size"),
    typed("length", 88, "length"),
    typed("colour", 88),
    insulation("material", 96),
    insulation("volts", 96, "voltage"),
    insulation("temperature", 104, "temperature"),
    question(
      "sheath",
      "sheath",
      "In a sheath throughout",
      ({ sheath }) => sheath,
      (_, given) => ({ sheath: given }),
    ),
    ...ENDS.map((at) => pair("lugs", at, 88)),
    ...ENDS.map((at) =>
      question(
        at === 0 ? "boots" : "boots B",
        "boots",
        `Boot ${at === 0 ? "from" : "to"}`,
        ({ boots }) => boots?.[at],
        ({ boots }, given) => ({ boots: withEnd(boots, at, given) }),
      ),
    ),
    ...ENDS.map((at) => pair("torque", at, 88)),
    typed("conduit", 104),
    question(
      "grommets",
      "grommets",
      "Grommets at walls",
      ({ grommets }) => grommets,
      (_, given) => ({ grommets: given }),
    ),
    through,
  ];
}
