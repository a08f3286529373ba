/** Motors whose shunt field has terminals of its own: separately excited, and compound with a series field besides. */
import { definePart, type ParameterSpec, type PartKind } from "./define.ts";
import { caseLeak, windingLeak } from "./leak.ts";
import {
  armatureLimits,
  ASSUMED_FIELD,
  ASSUMED_HEAVY_WINDING,
  fieldWinding,
  machineCircle,
  motorCase,
  motorRatings,
  standstillNote,
  winding,
  windingNote,
  windingPair,
  windingParameter,
  windingStud,
} from "./motor-winding.ts";
import { quantity } from "./parameter.ts";
import { drawn, lead, pin, view } from "./symbol.ts";

interface Naming {
  readonly kind: string;
  readonly title: string;
  readonly words: readonly string[];
  readonly explanation: string;
  readonly seriesField: boolean;
}

const seriesFieldParameter: Readonly<Record<string, ParameterSpec>> = {
  seriesFieldResistance: windingParameter(
    "Series field resistance",
    "Data sheet, or a milliohm meter between S1 and S2.",
  ),
};

/** A kind of motor with terminals F1 and F2, and S1 and S2 where it has a series field. */
export function separateField({ kind, title, words, explanation, seriesField }: Naming): PartKind {
  return definePart({
    kind,
    letter: "M",
    title,
    words,
    group: "drive",
    explanation,
    parameters: {
      armatureResistance: windingParameter("Armature resistance", "Data sheet, or a milliohm meter between A1 and A2."),
      fieldResistance: windingParameter("Field resistance", "Measure between F1 and F2 with a multimeter."),
      ...(seriesField ? seriesFieldParameter : {}),
      fieldVoltageMax: quantity("voltage", {
        title: "Highest field voltage",
        explanation: "The highest voltage that the field winding stands for good.",
        where: "Rating plate or data sheet.",
        least: 0,
      }),
      ...motorRatings,
    },
    terminals: () => [
      windingStud("A1", true, "Armature"),
      windingStud("A2", true, "Armature"),
      windingStud("F1", true, "Field"),
      windingStud("F2", true, "Field"),
      ...(seriesField ? [windingStud("S1", false, "Series field"), windingStud("S2", false, "Series field")] : []),
      motorCase,
    ],
    supplyPairs: () => [
      windingPair("A1", "A2", true),
      windingPair("F1", "F2", false),
      ...(seriesField ? [windingPair("S1", "S2", false)] : []),
    ],
    views: () => [
      view(
        "motor",
        title,
        drawn(
          [
            lead(0, 0, 2.5, 0),
            ...machineCircle(7.5, 0, "M"),
            lead(12.5, 0, 15, 0),
            ...fieldWinding(0, 7.5),
            ...(seriesField ? fieldWinding(0, -7.5) : []),
            // The dotted lead of the case stands aside of the field.
            lead(11.05, 3.55, 20, 3.55),
            lead(20, 3.55, 20, 10),
          ],
          [
            pin("A1", 0, 0, "left"),
            pin("A2", 15, 0, "right"),
            pin("F1", 0, 7.5, "left"),
            pin("F2", 15, 7.5, "right"),
            ...(seriesField ? [pin("S1", 0, -7.5, "left"), pin("S2", 15, -7.5, "right")] : []),
            pin("case", 20, 10, "down"),
          ],
        ),
      ),
    ],
    face: () => ({
      width: 180,
      height: 180,
      terminals: {
        A1: { x: 40, y: 40, stud: "M10" },
        A2: { x: 140, y: 40, stud: "M10" },
        F1: { x: 60, y: 140, stud: "M6" },
        F2: { x: 120, y: 140, stud: "M6" },
        ...(seriesField ? { S1: { x: 20, y: 95, stud: "M10" }, S2: { x: 160, y: 95, stud: "M10" } } : {}),
        case: { x: 90, y: 90, stud: "M8" },
      },
      plugs: [],
      byDefault: true,
    }),
    circuit: ({ values }) => [
      winding("armature", "A1", "A2", values.number("armatureResistance"), ASSUMED_HEAVY_WINDING),
      winding("field", "F1", "F2", values.number("fieldResistance"), ASSUMED_FIELD),
      ...(seriesField
        ? [winding("series-field", "S1", "S2", values.number("seriesFieldResistance"), ASSUMED_HEAVY_WINDING)]
        : []),
      windingLeak("leak-armature", "A1", values.number("isolation")),
      windingLeak("leak-field", "F1"),
      ...(seriesField ? [windingLeak("leak-series-field", "S1")] : []),
      caseLeak(),
    ],
    limits: (values) => [
      ...armatureLimits(values, "A1", "A2", "armature"),
      {
        parameter: "fieldVoltageMax",
        kind: "voltage-across",
        a: "F1",
        b: "F2",
        value: values.number("fieldVoltageMax"),
      },
    ],
    traits: { load: true, motor: true },
    notes: [windingNote, standstillNote, "A stated isolation counts at the armature."],
  });
}
