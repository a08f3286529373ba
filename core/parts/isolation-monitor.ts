/** Isolation monitor: watches the resistance between the traction circuit and the chassis. */
import { definePart, type TerminalSpec } from "./define.ts";
import { contact, resistance } from "./make-element.ts";
import { quantity } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { chassisMark, labelledBox, moved, text, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** From each pole to chassis 1 Mohm, about 50 mA at 12 V, output 0.1 ohm (common practice, no source). */
const ASSUMED_INTERNAL = 1e6;
const SUPPLY_INPUT = 240;
const OUTPUT_RESISTANCE = 0.1;

const terminals: readonly TerminalSpec[] = together(
  [
    terminal("+", "tab", false, "Traction plus"),
    terminal("-", "tab", false, "Traction minus"),
    terminal("chassis", "tab", false, "Chassis"),
    terminal("supply+", "tab", false, "Supply, plus"),
    terminal("supply-", "tab", false, "Supply, minus"),
    terminal("alarm", "tab", false, "Alarm"),
  ],
  ["+", "-", "chassis"],
  ["supply+", "supply-"],
);

export const isolationMonitor = definePart({
  kind: "isolation-monitor",
  letter: "B",
  title: "Isolation monitor",
  words: ["ground fault detector", "insulation monitor", "IMD", "leak detector"],
  group: "sensors",
  explanation: "Warns when the traction circuit begins to leak to the chassis.",
  parameters: {
    internalResistance: quantity("resistance", {
      title: "Internal resistance",
      explanation: "Resistance that the monitor itself puts between each pole and the chassis.",
      where: "Data sheet.",
      least: 1,
    }),
    threshold: quantity("resistance", {
      title: "Alarm below",
      explanation: "The isolation resistance at which it warns.",
      where: "Data sheet, or the setting that you made on it.",
      least: 0,
    }),
  },
  terminals: () => terminals,
  supplyPairs: () => [{ plus: "supply+", minus: "supply-", polarised: true, direction: "input", main: false }],
  views: () => [
    view(
      "main",
      "Isolation monitor",
      labelledBox(["+", "-", "chassis"], ["supply+", "supply-", "alarm"], "Isolation", {
        glyph: { list: [text(0, -1.5, "Ω", 3.5), ...moved(chassisMark(0, 0), 0, -0.5)], width: 7, height: 9 },
      }),
    ),
  ],
  face: () => plainFace(terminals),
  circuit: ({ values }) => {
    const ohms = values.number("internalResistance") ?? ASSUMED_INTERNAL;
    return [
      resistance("monitor-plus", "+", "chassis", "sense", ohms),
      resistance("monitor-minus", "-", "chassis", "sense", ohms),
      resistance("supply", "supply+", "supply-", "sense", SUPPLY_INPUT),
      // Silent in the built-in states.
      { ...contact("alarm", "alarm", "supply-", false, "logic", OUTPUT_RESISTANCE), role: "driver" },
    ];
  },
  limits: () => [],
  traits: { sensor: true },
  notes: [
    "Unstated internal resistance: 1 Mohm from each pole when solving (common practice, no source).",
    "Its supply is taken to draw 50 mA at 12 V; its alarm is taken to pull to supply minus.",
  ],
});
