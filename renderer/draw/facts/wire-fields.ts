/** The fields of one wire, or of several at once. */
import { WIRE_FIELD_TITLES } from "../../../core/project/field-titles.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import { setWireField } from "../../../core/project/commands/set-wire-field.ts";
import type { WireFields } from "../../../core/project/commands/set-wire-field.ts";
import type { Insulation, Project, Wire } from "../../../core/project/document.ts";
import { parseSize } from "../../../core/quantity/parse.ts";
import { printQuantity } from "../../../core/quantity/print.ts";
import type { FieldModel } from "../../controls/Field.tsx";
import type { EditorStore } from "../../window/editor-store.ts";
import type { Asked } from "./asked.ts";
import { answer, together, yesNo, zoneName } from "./field-words.ts";
import type { FieldGroup } from "./part-fields.ts";
import { refusalOf } from "./refusal.ts";

interface WireWords {
  readonly title: string;
  readonly hint?: string;
  readonly explanation: string;
  readonly where: string;
}

/** By the name that a check gives to what it lacks. */
export const WIRE_WORDS: Readonly<Record<string, WireWords>> = {
  size: {
    title: WIRE_FIELD_TITLES.size,
    hint: "mm2 or AWG",
    explanation: "Cross-section of the copper; it decides what the wire carries and how warm it gets.",
    where: "Printed on the insulation, or on the drum.",
  },
  length: {
    title: WIRE_FIELD_TITLES.length,
    hint: "m, cm, ft",
    explanation: "From lug to lug as it lies; it decides the voltage drop and what a short circuit drives.",
    where: "Measure along the way that it takes in the vehicle; estimate it while it is not cut.",
  },
  colour: {
    title: WIRE_FIELD_TITLES.colour,
    hint: "OG or orange",
    explanation:
      "Colour of the insulation, as a letter code of IEC 60757 or by name; two colours joined, such as RDBU.",
    where: "Look at the wire.",
  },
  "insulation.material": {
    title: WIRE_FIELD_TITLES["insulation.material"],
    explanation: "What the insulation is made of.",
    where: "Printed on the wire, or its data sheet.",
  },
  "insulation.volts": {
    title: WIRE_FIELD_TITLES["insulation.volts"],
    hint: "V",
    explanation: "The voltage that the insulation is made for.",
    where: "Printed on the wire: car wire is often made for 60 V only.",
  },
  "insulation.temperature": {
    title: WIRE_FIELD_TITLES["insulation.temperature"],
    hint: "°C",
    explanation: "How hot the conductor may get for good.",
    where: "Printed on the wire, or its data sheet.",
  },
  lugs: {
    title: WIRE_FIELD_TITLES.lugs,
    hint: "M8 or 5/16 in",
    explanation: "The hole of the lug; it has to fit its stud.",
    where: "Stamped on the lug, or measure the hole.",
  },
  boots: {
    title: WIRE_FIELD_TITLES.boots,
    explanation: "Whether a rubber cap covers the lug.",
    where: "Look at the lug.",
  },
  torque: {
    title: WIRE_FIELD_TITLES.torque,
    hint: "Nm",
    explanation: "How tightly the nut is to be turned.",
    where: "Data sheet of the part that carries the stud.",
  },
  sheath: {
    title: WIRE_FIELD_TITLES.sheath,
    explanation: "Whether a sheath, hose or box covers it from end to end; bare insulation chafes through.",
    where: "Look along the whole wire.",
  },
  conduit: {
    title: WIRE_FIELD_TITLES.conduit,
    explanation: "The tube or hose that it runs in; wires in one conduit warm each other.",
    where: "Your own name for the tube.",
  },
  grommets: {
    title: WIRE_FIELD_TITLES.grommets,
    explanation: "Whether a grommet or gland lines every hole through which it passes a wall; a bare edge cuts it.",
    where: "Look at each hole that it passes.",
  },
  zones: {
    title: WIRE_FIELD_TITLES.zones,
    explanation: "The zones of the vehicle that it runs through.",
    where: "Follow the wire.",
  },
  cable: {
    title: WIRE_FIELD_TITLES.cable,
    explanation: "The cable of several cores that it is one of.",
    where: "Look at the wire.",
  },
  core: {
    title: WIRE_FIELD_TITLES.core,
    explanation: "Which core of its cable it is.",
    where: "Number or colour of the core.",
  },
  note: { title: WIRE_FIELD_TITLES.note, explanation: "Free words; no check reads them.", where: "Your own words." },
};

type End = 0 | 1;
const ENDS: readonly End[] = [0, 1];

/** A pair with one end changed; undefined where then neither end states anything. */
function withEnd<Value>(
  pair: readonly [Value | null, Value | null] | undefined,
  end: End,
  value: Value | null | undefined,
): readonly [Value | null, Value | null] | undefined {
  const changed: [Value | null, Value | null] = [pair?.[0] ?? null, pair?.[1] ?? null];
  changed[end] = value ?? null;
  return changed[0] === null && changed[1] === null && value === undefined ? undefined : changed;
}

function withInsulation(old: Insulation | undefined, field: keyof Insulation, value: string | null | undefined) {
  const entries = Object.entries({ ...old, [field]: value }).filter(([, each]) => each !== undefined);
  return entries.length === 0 ? undefined : (Object.fromEntries(entries) as Insulation);
}

function inOtherUnit(size: FieldModel["value"], units: "mm2" | "awg"): string | undefined {
  if (typeof size !== "string") return undefined;
  const read = parseSize(size);
  return read.ok ? printQuantity(read.size.area, "size", { size: units === "awg" ? "AWG" : "mm2" }) : undefined;
}

export function wireGroups(
  store: EditorStore,
  project: Project,
  wires: readonly Wire[],
  asked: Asked,
  units: "mm2" | "awg",
): FieldGroup[] {
  const [first] = wires;
  if (first === undefined) return [];
  const state = (fields: (wire: Wire) => WireFields): string | undefined =>
    refusalOf(store, setWireField, { changes: wires.map((wire) => ({ wire: wire.id, fields: fields(wire) })) });
  const count = (field: string): number => wires.reduce((sum, { id }) => sum + asked({ wire: id, field }), 0);
  const words = (name: string): WireWords & { readonly name: string; readonly asked: number } => ({
    ...(WIRE_WORDS[name] ?? { title: name, explanation: "", where: "" }),
    name,
    asked: count(name),
  });
  const typed = (name: "size" | "length" | "colour" | "conduit"): FieldModel => {
    const value = together(wires, (wire) => wire[name]);
    return {
      ...words(name),
      value,
      also: name === "size" ? inOtherUnit(value, units) : undefined,
      canBeUnknown: true,
      set: (text) => state(() => ({ [name]: text })),
    };
  };
  const insulation = (field: keyof Insulation): FieldModel => ({
    ...words(`insulation.${field}`),
    asked: count(`insulation.${field}`),
    value: together(wires, (wire) => wire.insulation?.[field]),
    canBeUnknown: field !== "material",
    set: (text) => state((wire) => ({ insulation: withInsulation(wire.insulation, field, text) })),
  });
  const sideName = (end: End): string => {
    const at = wires.length === 1 ? first.ends[end] : null;
    const part = at === null ? undefined : project.parts.find(({ id }) => id === at[0]);
    return at === null || part === undefined ? `end ${end === 0 ? "A" : "B"}` : `${part.designation}:${at[1]}`;
  };
  const lug = (end: End): FieldModel => ({
    ...words("lugs"),
    name: end === 0 ? "lugs" : "lugs B",
    title: `Lug at ${sideName(end)}`,
    value: together(wires, (wire) => wire.lugs?.[end]),
    canBeUnknown: true,
    set: (text) => state((wire) => ({ lugs: withEnd(wire.lugs, end, text) })),
  });
  const boot = (end: End): FieldModel => ({
    ...words("boots"),
    name: end === 0 ? "boots" : "boots B",
    title: `Boot at ${sideName(end)}`,
    ...yesNo(
      together(wires, (wire) => answer(wire.boots?.[end])),
      (given) => state((wire) => ({ boots: withEnd(wire.boots, end, given) })),
    ),
  });
  const torque = (end: End): FieldModel => ({
    ...words("torque"),
    name: end === 0 ? "torque" : "torque B",
    title: `Torque at ${sideName(end)}`,
    value: together(wires, (wire) => wire.torque?.[end]),
    canBeUnknown: true,
    set: (text) => state((wire) => ({ torque: withEnd(wire.torque, end, text) })),
  });
  const zone = ({ id, ...rest }: Project["zones"][number]): FieldModel => ({
    ...words("zones"),
    name: `zones ${id}`,
    title: `Through ${zoneName({ id, ...rest })}`,
    asked: 0,
    choices: [{ value: "yes", label: "yes" }],
    value: together(wires, (wire) => (wire.zones?.includes(id) === true ? "yes" : undefined)),
    canBeUnknown: false,
    set: (text) =>
      state((wire) => {
        const others = (wire.zones ?? []).filter((other) => other !== id);
        const zones = text === "yes" ? [...others, id] : others;
        return { zones: zones.length === 0 ? undefined : zones };
      }),
  });
  const free = (name: "core" | "note"): FieldModel => ({
    ...words(name),
    value: together(wires, (wire) => wire[name]),
    canBeUnknown: false,
    long: name === "note",
    set: (text) => state(() => ({ [name]: text ?? undefined })),
  });
  const number: FieldModel = {
    name: "number",
    title: "Number",
    value: first.number,
    explanation: "What stands on the wire's markers at both ends.",
    canBeUnknown: false,
    always: true,
    set: (text) => refusalOf(store, rename, { what: "wire", id: first.id, name: typeof text === "string" ? text : "" }),
  };
  const cable: FieldModel = {
    ...words("cable"),
    value: together(wires, (wire) => wire.cable),
    choices: project.cables.map(({ id, name }) => ({ value: id, label: name })),
    canBeUnknown: false,
    set: (text) => state(() => ({ cable: text ?? undefined })),
  };
  const sheath: FieldModel = {
    ...words("sheath"),
    ...yesNo(
      together(wires, (wire) => answer(wire.sheath)),
      (given) => state(() => ({ sheath: given })),
    ),
  };
  const grommets: FieldModel = {
    ...words("grommets"),
    ...yesNo(
      together(wires, (wire) => answer(wire.grommets)),
      (given) => state(() => ({ grommets: given })),
    ),
  };
  return [
    {
      title: "Conductor",
      fields: [...(wires.length === 1 ? [number] : []), typed("size"), typed("length"), typed("colour")],
    },
    { title: "Insulation", fields: [insulation("material"), insulation("volts"), insulation("temperature")] },
    { title: "Ends", fields: [...ENDS.map(lug), ...ENDS.map(boot), ...ENDS.map(torque)] },
    { title: "Way", fields: [sheath, typed("conduit"), grommets, ...project.zones.map(zone)] },
    {
      title: "Words",
      fields: [...(project.cables.length > 0 ? [cable, free("core")] : []), free("note")],
    },
  ];
}
