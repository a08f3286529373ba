/** Load: any consumer without a kind of its own. */
import { definePart } from "./define.ts";
import { plainFace } from "./plain-face.ts";
import { arrowHead, bodyBetweenLeads, drawn, lead, pinPair, view } from "./symbol.ts";
import {
  type Assumed,
  assumedNote,
  consumerParameters,
  loadElement,
  loadLimits,
  loadPairs,
  loadTerminals,
} from "./two-pole-load.ts";

const ASSUMED: Assumed = { voltage: 12, power: 24 };

export const load = definePart({
  kind: "load",
  letter: "E",
  title: "Load",
  words: ["consumer", "accessory", "radio", "wiper", "12 V load", "power steering", "brake booster"],
  group: "loads",
  explanation: "Anything that draws current and has no symbol of its own here.",
  parameters: consumerParameters,
  terminals: () => loadTerminals,
  supplyPairs: loadPairs,
  views: () => [
    view(
      "main",
      "Load",
      // A box out of which power goes: the arrow leaves it.
      drawn([...bodyBetweenLeads(0, 0, 7.5, 5), lead(7.5, 0.5, 7.5, -6), arrowHead(7.5, -6, 270)], pinPair("+", "-")),
    ),
  ],
  face: () => plainFace(loadTerminals),
  circuit: ({ values }) => [loadElement(values, ASSUMED)],
  limits: loadLimits,
  traits: { load: true },
  notes: [assumedNote(ASSUMED)],
});
