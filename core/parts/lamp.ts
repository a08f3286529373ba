/** Lamp: warning light, head lamp, any light. */
import { definePart } from "./define.ts";
import { needsPolarity, voltageMax } from "./parameter.ts";
import { plainFace } from "./plain-face.ts";
import { circle, drawn, lead, pinPair, view } from "./symbol.ts";
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

const ASSUMED: Assumed = { voltage: 12, power: 3 };
/** Half of the cross's bar, which ends on the circle. */
const ARM = 3.75 * Math.SQRT1_2;

export const lamp = definePart({
  kind: "lamp",
  letter: "P",
  title: "Lamp",
  words: ["light", "bulb", "indicator", "warning light", "pilot light", "LED"],
  group: "loads",
  explanation: "A light: for the driver to see by, or to tell the driver something.",
  parameters: { voltage: loadVoltage, voltageMax, power: loadPower, needsPolarity },
  terminals: () => loadTerminals,
  supplyPairs: loadPairs,
  views: () => [
    view(
      "main",
      "Lamp",
      drawn(
        [
          lead(0, 0, 3.75, 0),
          circle(7.5, 0, 3.75),
          lead(7.5 - ARM, -ARM, 7.5 + ARM, ARM),
          lead(7.5 - ARM, ARM, 7.5 + ARM, -ARM),
          lead(11.25, 0, 15, 0),
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
