/** Buzzer, horn, chime: tells by sound. */
import { definePart } from "./define.ts";
import { needsPolarity, voltageMax } from "./parameter.ts";
import { plainFace } from "./plain-face.ts";
import { arc, drawn, lead, pinPair, stroke, view } from "./symbol.ts";
import {
  type Assumed,
  assumedNote,
  loadElement,
  loadLimits,
  loadPairs,
  loadPower,
  loadTerminals,
  loadVoltage,
} from "./two-pole-load.ts";

const ASSUMED: Assumed = { voltage: 12, power: 1 };

export const buzzer = definePart({
  kind: "buzzer",
  letter: "P",
  title: "Buzzer",
  words: ["horn", "chime", "beeper", "alarm sounder", "reversing alarm"],
  group: "loads",
  explanation: "Tells the driver or bystanders something by sound.",
  parameters: { voltage: loadVoltage, voltageMax, power: loadPower, needsPolarity },
  terminals: () => loadTerminals,
  supplyPairs: loadPairs,
  views: () => [
    view(
      "main",
      "Buzzer",
      drawn(
        [
          // A dome on a base line, its leads from below.
          arc(7.5, -2.5, 4, 180, 360),
          lead(3.5, -2.5, 11.5, -2.5),
          stroke([
            [0, 0],
            [5.5, 0],
            [5.5, -2.5],
          ]),
          stroke([
            [15, 0],
            [9.5, 0],
            [9.5, -2.5],
          ]),
        ],
        pinPair("+", "-"),
      ),
    ),
  ],
  face: () => plainFace(loadTerminals),
  circuit: ({ values }) => [loadElement(values, ASSUMED)],
  limits: loadLimits,
  traits: { load: true },
  notes: [assumedNote(ASSUMED)],
});
