/** Charging inlet: where the mains come in. */
import type { Ampere, Ohm, Volt } from "../quantity/kinds.ts";
import { definePart } from "./define.ts";
import { windingLeak } from "./leak.ts";
import { contact } from "./make-element.ts";
import { choice, quantity, YES_NO } from "./parameter.ts";
import { plainFace, terminal } from "./plain-face.ts";
import { circle, labelledBox, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";
import { neededBy } from "./terminal-needs.ts";

const PINS = ["L", "N", "PE", "pilot", "proximity"] as const;
/** Mains behind the house's wiring (common practice, no source). */
const MAINS: { readonly volts: Volt; readonly ohms: Ohm; readonly unlimited: Ampere } = {
  volts: 230,
  ohms: 0.5,
  unlimited: 1e4,
};

const terminals = () =>
  neededBy(
    together(
      [
        terminal("L", "tab", false, "Line"),
        terminal("N", "tab", false, "Neutral"),
        terminal("PE", "tab", false, "Protective earth, to chassis"),
        terminal("pilot", "tab", false, "Control pilot"),
        terminal("proximity", "tab", false, "Proximity"),
      ],
      ["L", "N"],
    ),
    "PE",
    "L",
    "N",
  );

export const inlet = definePart({
  kind: "inlet",
  letter: "X",
  title: "Charging inlet",
  words: ["mains inlet", "charge socket", "charge port", "appliance inlet"],
  group: "sources",
  explanation: "The socket on the vehicle into which the mains cord is plugged.",
  parameters: {
    inputVoltage: quantity("voltage", {
      title: "Mains voltage",
      explanation: "The voltage that comes in; 230 V is taken when solving until it is stated.",
      where: "Your country's mains.",
      least: 0,
    }),
    currentMax: quantity("current", {
      title: "Current, most",
      explanation: "The most that the socket carries, or to which its circuit is fused.",
      where: "Print on the socket, or the house's breaker.",
      least: 0,
    }),
    residualCurrentDevice: choice(YES_NO, {
      title: "Residual-current device",
      explanation: "Whether its mains circuit has a device that cuts off when current leaks to earth.",
      where: "The house's distribution board, or a box in the cord, with a test button.",
    }),
  },
  terminals,
  supplyPairs: () => [],
  views: () => [
    view(
      "inlet",
      "Charging inlet",
      labelledBox([], PINS, "Inlet", {
        glyph: {
          list: [circle(0, 0, 5), ...[-2, 0, 2].map((x) => circle(x, x === 0 ? 2 : -1, 0.8))],
          width: 12.5,
          height: 12.5,
        },
      }),
    ),
  ],
  face: () => plainFace(terminals()),
  circuit: ({ values, position }) => [
    {
      type: "limited-source",
      name: "mains",
      a: ":mains-L",
      b: ":mains-N",
      role: "driver",
      emf: values.number("inputVoltage") ?? MAINS.volts,
      resistance: MAINS.ohms,
      limit: values.number("currentMax") ?? MAINS.unlimited,
      oneWay: false,
    },
    contact("plug-L", ":mains-L", "L", position === "plugged", "control"),
    contact("plug-N", ":mains-N", "N", position === "plugged", "control"),
    windingLeak("leak-mains", ":mains-N"),
  ],
  control: {
    positions: () => ["unplugged", "plugged"],
    at: (condition) => condition.mains,
    flip: false,
  },
  limits: (values) => [
    {
      parameter: "currentMax",
      kind: "current-through",
      a: "L",
      b: "N",
      element: "plug-L",
      value: values.number("currentMax"),
    },
  ],
  traits: { inlet: true },
  notes: [
    "Mains are solved as a direct voltage of the same size between L and N, 230 V until stated, free of earth: the house's earthing is not part of the vehicle.",
  ],
});
