/** Series motor: armature and field carry the same current. */
import { definePart } from "./define.ts";
import { caseLeak, windingLeak } from "./leak.ts";
import {
  armatureLimits,
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
import { drawn, lead, pin, view } from "./symbol.ts";

export const motorSeries = definePart({
  kind: "motor-series",
  letter: "M",
  title: "Series motor",
  words: ["series-wound motor", "traction motor", "forklift motor", "brushed motor"],
  group: "drive",
  explanation:
    "A brushed motor whose field is in line with its armature: strong at standstill, and it must never run unloaded.",
  parameters: {
    armatureResistance: windingParameter("Armature resistance", "Data sheet, or a milliohm meter between A1 and A2."),
    fieldResistance: windingParameter("Field resistance", "Data sheet, or a milliohm meter between S1 and S2."),
    ...motorRatings,
  },
  terminals: () => [
    windingStud("A1", true, "Armature"),
    windingStud("A2", true, "Armature"),
    windingStud("S1", true, "Series field"),
    windingStud("S2", true, "Series field"),
    motorCase,
  ],
  supplyPairs: () => [windingPair("A1", "A2", true), windingPair("S1", "S2", false)],
  views: () => [
    view(
      "motor",
      "Series motor",
      drawn(
        [
          lead(0, 0, 2.5, 0),
          ...machineCircle(7.5, 0, "M"),
          lead(12.5, 0, 15, 0),
          ...fieldWinding(0, -7.5),
          lead(7.5, 5, 7.5, 10),
        ],
        [
          pin("A1", 0, 0, "left"),
          pin("A2", 15, 0, "right"),
          pin("S1", 0, -7.5, "left"),
          pin("S2", 15, -7.5, "right"),
          pin("case", 7.5, 10, "down"),
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
      S1: { x: 40, y: 140, stud: "M10" },
      S2: { x: 140, y: 140, stud: "M10" },
      case: { x: 90, y: 90, stud: "M8" },
    },
    plugs: [],
    byDefault: true,
  }),
  circuit: ({ values }) => [
    winding("armature", "A1", "A2", values.number("armatureResistance"), ASSUMED_HEAVY_WINDING),
    winding("field", "S1", "S2", values.number("fieldResistance"), ASSUMED_HEAVY_WINDING),
    windingLeak("leak-armature", "A1", values.number("isolation")),
    windingLeak("leak-field", "S1"),
    caseLeak(),
  ],
  limits: (values) => armatureLimits(values, "A1", "A2", "armature"),
  traits: { load: true, motor: true },
  notes: [windingNote, standstillNote, "A stated isolation counts at the armature."],
});
