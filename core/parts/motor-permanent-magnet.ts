/** Permanent-magnet motor with brushes: two terminals. */
import { definePart } from "./define.ts";
import { caseLeak, windingLeak } from "./leak.ts";
import {
  armatureLimits,
  ASSUMED_HEAVY_WINDING,
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
import { drawn, lead, pin, plusMark, rectangle, view } from "./symbol.ts";

export const motorPermanentMagnet = definePart({
  kind: "motor-permanent-magnet",
  letter: "M",
  title: "Permanent-magnet motor",
  words: ["pancake motor", "brushed motor", "magnet motor"],
  group: "drive",
  explanation: "A brushed motor with magnets instead of a field winding; turned by the wheels it generates at once.",
  parameters: {
    resistance: windingParameter("Resistance", "Data sheet, or a milliohm meter between + and - while it stands."),
    ...motorRatings,
  },
  terminals: () => [windingStud("+", true, "Plus for forward"), windingStud("-", true, "Minus for forward"), motorCase],
  supplyPairs: () => [windingPair("+", "-", true)],
  views: () => [
    view(
      "motor",
      "Permanent-magnet motor",
      drawn(
        [
          lead(0, 0, 2.5, 0),
          ...machineCircle(7.5, 0, "M"),
          lead(12.5, 0, 15, 0),
          ...plusMark(1.2, -2),
          rectangle(5, -8, 2.5, 2),
          rectangle(7.5, -8, 2.5, 2, "ink"),
          lead(7.5, 5, 7.5, 10),
        ],
        [pin("+", 0, 0, "left"), pin("-", 15, 0, "right"), pin("case", 7.5, 10, "down")],
      ),
    ),
  ],
  face: () => ({
    width: 200,
    height: 200,
    terminals: {
      "+": { x: 60, y: 40, stud: "M8" },
      "-": { x: 140, y: 40, stud: "M8" },
      case: { x: 100, y: 150, stud: "M8" },
    },
    plugs: [],
    byDefault: true,
  }),
  circuit: ({ values }) => [
    winding("armature", "+", "-", values.number("resistance"), ASSUMED_HEAVY_WINDING),
    windingLeak("leak-armature", "-", values.number("isolation")),
    caseLeak(),
  ],
  limits: (values) => armatureLimits(values, "+", "-", "armature"),
  traits: { load: true, motor: true, generates: () => true },
  notes: [
    windingNote,
    standstillNote,
    "+ and - name the forward direction: reversed, it runs backwards and is not harmed.",
  ],
});
