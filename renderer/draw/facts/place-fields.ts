/** Where a part stands on its panel, where its terminals lie on it, and which of them lie under a fixed cover. */
import { KINDS } from "../../../core/parts/catalogue.ts";
import { setPartField } from "../../../core/project/commands/set-part-field.ts";
import type { PartFields } from "../../../core/project/commands/set-part-field.ts";
import type { Part } from "../../../core/project/document.ts";
import { knownPart } from "../../../core/project/lookup.ts";
import type { Millimetre } from "../../../core/quantity/kinds.ts";
import type { FieldModel } from "../../controls/Field.tsx";
import type { EditorStore } from "../../window/editor-store.ts";
import type { Asked } from "./asked.ts";
import { refusalOf } from "./refusal.ts";

type Place = readonly [Millimetre, Millimetre];

const PLACE =
  /^(-?\d+(?:\.\d+)?)\s*(?:mm)?\s*[,;x]?\s+(-?\d+(?:\.\d+)?)\s*(?:mm)?$|^(-?\d+(?:\.\d+)?)[,;x](-?\d+(?:\.\d+)?)$/;

/** "40, 25" to millimetres; undefined for what is no place. */
export function readPlace(typed: string): Place | undefined {
  const found = PLACE.exec(typed.trim());
  const [x, y] = [found?.[1] ?? found?.[3], found?.[2] ?? found?.[4]];
  return x === undefined || y === undefined ? undefined : [Number(x), Number(y)];
}

const written = ([x, y]: Place): string => `${String(x)}, ${String(y)} mm`;

const NO_PLACE = (typed: string): string =>
  `"${typed}" is no place. Write two lengths in millimetres, across and up, such as 40, 25.`;

interface PlaceFields {
  readonly panel: FieldModel;
  readonly covers: readonly FieldModel[];
  readonly face: readonly FieldModel[];
}

/** For one part: places differ from part to part. Terminals on no sheet and within no wire are listed all the same. */
export function placeFields(store: EditorStore, part: Part, asked: Asked): PlaceFields {
  const known = knownPart(part, KINDS);
  const terminals = known?.terminals ?? [];
  const usual = known?.kind.face(known.values).terminals ?? {};
  const state = (fields: PartFields): string | undefined =>
    refusalOf(store, setPartField, { changes: [{ part: part.id, fields }] });
  const place = (
    value: string | null | undefined,
    take: (given: Place | undefined) => string | undefined,
  ): string | undefined => {
    if (typeof value !== "string") return take(undefined);
    const given = readPlace(value);
    return given === undefined ? NO_PLACE(value) : take(given);
  };
  const panel: FieldModel = {
    name: "panel",
    title: "Place on its panel",
    value: part.panel === undefined ? undefined : written([part.panel.x, part.panel.y]),
    hint: "40, 25 mm",
    explanation: "Where its lower left corner stands on the panel or in its box; distances between parts come from it.",
    where: "Measure from the panel's lower left corner, across and up.",
    canBeUnknown: false,
    asked: asked({ part: part.id, parameter: "panel" }),
    set: (value) =>
      place(value, (given) => state({ panel: given === undefined ? undefined : { x: given[0], y: given[1] } })),
  };
  const covers = terminals.map(({ id }, index): FieldModel => {
    const others = (part.covers ?? []).filter((terminal) => terminal !== id);
    const covered = others.length < (part.covers ?? []).length;
    return {
      name: index === 0 ? "covers" : `covers ${id}`,
      title: `Cover over ${id}`,
      value: covered ? "yes" : undefined,
      choices: [{ value: "yes", label: "yes" }],
      explanation: "A cover that is screwed or snapped on over this terminal, beside what covers the terminal itself.",
      where: "Look whether a finger reaches the metal with the cover in place.",
      canBeUnknown: false,
      asked: index === 0 ? asked({ part: part.id, parameter: "covers" }) : 0,
      set: (value) => {
        const next = value === "yes" ? [...others, id] : others;
        return state({ covers: next.length === 0 ? undefined : next });
      },
    };
  });
  const face = terminals.map(({ id }, index): FieldModel => {
    const own = part.face?.[id];
    const kinds = usual[id];
    return {
      name: index === 0 ? "face" : `face ${id}`,
      title: `Place of ${id}`,
      value: own === undefined ? undefined : written(own),
      usual: kinds === undefined ? undefined : written([kinds.x, kinds.y]),
      hint: "25, 40 mm",
      explanation:
        "Where this terminal lies on the part; how near bare live metal comes to other metal follows from it.",
      where: "Measure from the part's lower left corner, across and up.",
      canBeUnknown: false,
      asked: index === 0 ? asked({ part: part.id, parameter: "face" }) : 0,
      set: (value) =>
        place(value, (given) => {
          const { [id]: _before, ...rest } = part.face ?? {};
          const next = given === undefined ? rest : { ...rest, [id]: given };
          return state({ face: Object.keys(next).length === 0 ? undefined : next });
        }),
    };
  });
  return { panel, covers, face };
}
