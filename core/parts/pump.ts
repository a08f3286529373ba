/** Pump or fan: a small motor that moves a fluid or air. */
import { definePart } from "./define.ts";
import { plainFace } from "./plain-face.ts";
import { circleBetweenLeads, drawn, letter, outline, pinPair, view } from "./symbol.ts";
import {
  type Assumed,
  assumedNote,
  consumerParameters,
  loadElement,
  loadLimits,
  loadPairs,
  loadTerminals,
} from "./two-pole-load.ts";

const ASSUMED: Assumed = { voltage: 12, power: 60 };

export const pump = definePart({
  kind: "pump",
  letter: "M",
  title: "Pump or fan",
  words: ["vacuum pump", "water pump", "coolant pump", "cooling fan", "blower", "steering pump"],
  group: "loads",
  explanation: "A small motor that moves coolant, air, oil or makes vacuum for the brakes.",
  parameters: consumerParameters,
  terminals: () => loadTerminals,
  supplyPairs: loadPairs,
  views: () => [
    view(
      "main",
      "Pump or fan",
      // A motor that delivers: the filled triangle at the top points outwards.
      drawn(
        [
          ...circleBetweenLeads(0, 0),
          letter(7.5, 1, "M", 3.5),
          outline(
            [
              [6, -2.5],
              [9, -2.5],
              [7.5, -5],
            ],
            "ink",
          ),
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
