/** Heater: an element on traction or auxiliary voltage in a metal body. */
import { definePart, type TerminalSpec } from "./define.ts";
import { caseLeak, isolation, sideLeaks } from "./leak.ts";
import { quantity, voltageMax } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { bodyBetweenLeads, drawn, lead, pin, pinPair, view } from "./symbol.ts";
import {
  type Assumed,
  assumedNote,
  loadElement,
  loadLimits,
  loadPairs,
  loadPower,
  loadTerminals,
} from "./two-pole-load.ts";

const ASSUMED: Assumed = { voltage: 96, power: 1500 };
const terminals: readonly TerminalSpec[] = [...loadTerminals, terminal("case", "tab", false, "Metal body")];

export const heater = definePart({
  kind: "heater",
  letter: "E",
  title: "Heater",
  words: ["cabin heater", "PTC heater", "heating element", "demister", "battery heater"],
  group: "loads",
  explanation: "Turns current into heat; on traction voltage its metal body must be bonded to the chassis.",
  parameters: {
    voltage: quantity("voltage", {
      title: "Voltage",
      explanation: "The voltage at which its power holds; on less it heats less.",
      where: "Rating plate.",
      least: 0.1,
    }),
    voltageMax,
    power: loadPower,
    isolation,
  },
  terminals: () => terminals,
  supplyPairs: loadPairs,
  views: () => [
    view(
      "main",
      "Heater",
      drawn(
        [
          ...bodyBetweenLeads(0, 0, 10, 5, 20),
          ...[7.5, 10, 12.5].map((x) => lead(x, -2.5, x, 2.5)),
          lead(10, 2.5, 10, 7.5),
        ],
        [...pinPair("+", "-", 20), pin("case", 10, 7.5, "down")],
      ),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values }) => [
    loadElement(values, ASSUMED),
    ...sideLeaks("element", "+", "-", values.number("isolation")),
    caseLeak(),
  ],
  limits: loadLimits,
  traits: { load: true },
  notes: [
    assumedNote(ASSUMED),
    "Unstated isolation: 10 Mohm from the element to chassis (common practice, no source).",
  ],
});
