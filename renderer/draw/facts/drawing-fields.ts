/** The fields of the drawing as a whole: sheet, title block, zones, enclosures. */
import { declareSharedNegative } from "../../../core/project/commands/declare-shared-negative.ts";
import { rename } from "../../../core/project/commands/rename.ts";
import { setEnclosure } from "../../../core/project/commands/set-enclosure.ts";
import { setSheet } from "../../../core/project/commands/set-sheet.ts";
import { setTitle } from "../../../core/project/commands/set-title.ts";
import { setZone } from "../../../core/project/commands/set-zone.ts";
import type { Enclosure, Project, Sheet, TitleBlock, Zone, ZoneKind } from "../../../core/project/document.ts";
import type { FieldModel } from "../../controls/Field.tsx";
import type { EditorStore } from "../../window/editor-store.ts";
import { PAPERS } from "../../window/preferences.ts";
import { fieldOf } from "./ask-for-field.ts";
import type { Asked } from "./asked.ts";
import { answer, yesNo, ZONE_WORDS, zoneName } from "./field-words.ts";
import { refusalOf } from "./refusal.ts";

const TITLE_WORDS: readonly (readonly [keyof TitleBlock, title: string, explanation: string])[] = [
  ["vehicle", "Vehicle", "Make, type and year, or what you call it."],
  ["title", "Title", "What the drawing shows."],
  ["supplementaryTitle", "Second title", "A second line, where one is not enough."],
  ["owner", "Owner", "Whose drawing it is."],
  ["number", "Number", "The drawing's number among your drawings."],
  ["author", "Drawn by", "Who drew it."],
  ["approvedBy", "Approved by", "Who looked it over."],
  ["date", "Date", "When this revision was made, such as 2026-11-25."],
  ["revision", "Revision", "A letter or number that goes up with each version that leaves your hands."],
  ["documentType", "Type of document", "Such as wiring diagram."],
  ["language", "Language", "Such as en."],
];

export function titleFields(store: EditorStore, title: TitleBlock, asked: Asked): FieldModel[] {
  return TITLE_WORDS.map(
    ([name, words, explanation]): FieldModel => ({
      name,
      title: words,
      value: title[name],
      explanation,
      canBeUnknown: false,
      asked: asked({ title: name }),
      set: (value) => refusalOf(store, setTitle, { [name]: value ?? undefined }),
    }),
  );
}

const same = (words: readonly string[]): { value: string; label: string }[] =>
  words.map((value) => ({ value, label: value }));

export function sheetFields(store: EditorStore, sheet: Sheet): FieldModel[] {
  return [
    {
      name: "sheet-name",
      title: "Sheet name",
      value: sheet.name,
      canBeUnknown: false,
      always: true,
      set: (value) => refusalOf(store, rename, { what: "sheet", id: sheet.id, name: value ?? "" }),
    },
    {
      name: "sheet-paper",
      title: "Paper",
      value: sheet.paper,
      choices: same(PAPERS),
      canBeUnknown: false,
      always: true,
      set: (value) => {
        const paper = PAPERS.find((each) => each === value);
        return paper && refusalOf(store, setSheet, { sheet: sheet.id, fields: { paper } });
      },
    },
    {
      name: "sheet-orientation",
      title: "Laid",
      value: sheet.orientation,
      choices: same(["landscape", "portrait"]),
      canBeUnknown: false,
      always: true,
      set: (value) => {
        const orientation = value === "portrait" ? "portrait" : "landscape";
        return refusalOf(store, setSheet, { sheet: sheet.id, fields: { orientation } });
      },
    },
  ];
}

export function vehicleFields(store: EditorStore, project: Project): FieldModel[] {
  return [
    {
      name: "sharedNegative",
      title: "Pack minus on the chassis",
      explanation: "Whether the pack's minus is joined to the chassis on purpose, as on some low-voltage vehicles.",
      where: "Your own decision; above 60 V the pack stays apart from the chassis.",
      ...yesNo(answer(project.sharedNegative), (given) => refusalOf(store, declareSharedNegative, { value: given })),
    },
  ];
}

const ZONE_KINDS = Object.keys(ZONE_WORDS) as ZoneKind[];

export function zoneFields(store: EditorStore, zone: Zone, asked: Asked): FieldModel[] {
  return [
    {
      name: fieldOf(zone.id, "name"),
      title: "Name",
      value: zone.name,
      hint: ZONE_WORDS[zone.kind],
      canBeUnknown: false,
      set: (value) => refusalOf(store, rename, { what: "zone", id: zone.id, name: value ?? "" }),
    },
    {
      name: fieldOf(zone.id, "kind"),
      title: "What it is",
      value: zone.kind,
      choices: ZONE_KINDS.map((value) => ({ value, label: ZONE_WORDS[value] })),
      canBeUnknown: false,
      always: true,
      set: (value) => {
        const kind = ZONE_KINDS.find((each) => each === value);
        return kind && refusalOf(store, setZone, { zone: zone.id, fields: { kind } });
      },
    },
    {
      name: fieldOf(zone.id, "ambient"),
      title: "Hottest air",
      value: zone.ambient,
      hint: "°C",
      explanation: "The air around the wires on the hottest day; heat takes away from what a wire carries.",
      where: "Measure it, or take it from the vehicle's maker.",
      canBeUnknown: true,
      asked: asked({ zone: zone.id, field: "ambient" }),
      set: (value) => refusalOf(store, setZone, { zone: zone.id, fields: { ambient: value } }),
    },
  ];
}

const ENCLOSURE_WORDS: readonly (readonly [
  "toolClosed" | "conductive" | "voltageSign",
  title: string,
  explanation: string,
])[] = [
  ["toolClosed", "Opens only with a tool", "A box that opens by hand does not keep fingers off live parts."],
  ["conductive", "Of conductive material", "A metal box has to be bonded to the chassis."],
  ["voltageSign", "Bears the voltage sign", "The yellow triangle with the flash, where it can be seen before opening."],
];

export function enclosureFields(
  store: EditorStore,
  project: Project,
  enclosure: Enclosure,
  asked: Asked,
): FieldModel[] {
  return [
    {
      name: fieldOf(enclosure.id, "name"),
      title: "Name",
      value: enclosure.name,
      canBeUnknown: false,
      always: true,
      set: (value) => refusalOf(store, rename, { what: "enclosure", id: enclosure.id, name: value ?? "" }),
    },
    {
      name: fieldOf(enclosure.id, "zone"),
      title: "Zone",
      value: enclosure.zone,
      choices: project.zones.map((zone) => ({ value: zone.id, label: zoneName(zone) })),
      canBeUnknown: false,
      asked: asked({ enclosure: enclosure.id, field: "zone" }),
      set: (value) => refusalOf(store, setEnclosure, { enclosure: enclosure.id, fields: { zone: value ?? undefined } }),
    },
    ...ENCLOSURE_WORDS.map(
      ([field, title, explanation]): FieldModel => ({
        name: fieldOf(enclosure.id, field),
        title,
        explanation,
        where: "Look at the box.",
        asked: asked({ enclosure: enclosure.id, field }),
        ...yesNo(answer(enclosure[field]), (given) =>
          refusalOf(store, setEnclosure, { enclosure: enclosure.id, fields: { [field]: given } }),
        ),
      }),
    ),
  ];
}
