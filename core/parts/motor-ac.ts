/** Three-phase motor with its encoder and its temperature sensor. */
import { definePart } from "./define.ts";
import { caseLeak, windingLeak } from "./leak.ts";
import { resistance } from "./make-element.ts";
import {
  ASSUMED_HEAVY_WINDING,
  machineCircle,
  motorCase,
  motorRatings,
  winding,
  windingPair,
  windingStud,
} from "./motor-winding.ts";
import { choice } from "./parameter.ts";
import { terminal } from "./plain-face.ts";
import { drawn, labelledBox, lead, pin, stroke, text, view } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

const PHASES = ["U", "V", "W"] as const;
const PLUG = [
  ["encoder-a", "Encoder, track A"],
  ["encoder-b", "Encoder, track B"],
  ["encoder-supply", "Encoder, supply"],
  ["encoder-ground", "Encoder, ground"],
  ["temperature-1", "Temperature sensor"],
  ["temperature-2", "Temperature sensor"],
] as const;
const PLUG_PINS: readonly string[] = PLUG.map(([id]) => id);

/** Inputs of an encoder and a resistive temperature sensor (common practice, no source). */
const ENCODER_SUPPLY = 1000;
const ENCODER_TRACK = 10_000;
const TEMPERATURE_SENSOR = 1000;

export const motorAc = definePart({
  kind: "motor-ac",
  letter: "M",
  title: "Three-phase motor",
  words: ["AC motor", "induction motor", "asynchronous motor", "synchronous motor", "brushless motor"],
  group: "drive",
  explanation: "A brushless motor with three phases, which only runs on its controller; an encoder tells how it turns.",
  parameters: {
    machine: choice(["induction", "permanent-magnet"], {
      title: "Machine",
      explanation: "A permanent-magnet machine generates whenever it turns, an induction machine only when it is fed.",
      where: "Data sheet; a shaft that turns in notches has magnets.",
    }),
    ...motorRatings,
  },
  terminals: () => [
    ...PHASES.map((phase) => windingStud(phase, true, `Phase ${phase}`)),
    ...together(
      PLUG.map(([id, title]) => terminal(id, "pin", false, title, "plug")),
      PLUG_PINS.slice(0, 4),
      PLUG_PINS.slice(4),
    ),
    motorCase,
  ],
  supplyPairs: () => [windingPair("U", "V", true), windingPair("V", "W", false)],
  views: () => [
    view(
      "motor",
      "Three-phase motor",
      drawn(
        [
          ...[0, 5, 10].flatMap((y) => [lead(0, y, 5, y)]),
          stroke([
            [5, 0],
            [8.5, 1.5],
          ]),
          lead(5, 5, 7.5, 5),
          stroke([
            [5, 10],
            [8.5, 8.5],
          ]),
          ...machineCircle(12.5, 5, "M"),
          text(12.5, 9, "3~", 1.8),
          lead(12.5, 10, 12.5, 15),
        ],
        [pin("U", 0, 0, "left"), pin("V", 0, 5, "left"), pin("W", 0, 10, "left"), pin("case", 12.5, 15, "down")],
      ),
    ),
    view("sensors", "Encoder and temperature sensor", labelledBox(PLUG_PINS, [], "Encoder")),
  ],
  face: () => ({
    width: 200,
    height: 220,
    terminals: {
      U: { x: 50, y: 40, stud: "M8" },
      V: { x: 100, y: 40, stud: "M8" },
      W: { x: 150, y: 40, stud: "M8" },
      case: { x: 100, y: 180, stud: "M8" },
      ...Object.fromEntries(PLUG_PINS.map((id, place) => [id, { x: 80 + place * 5, y: 110 }])),
    },
    plugs: [{ id: "sensors", box: { x: 77.5, y: 105, width: 30, height: 10 }, pitch: 5, pins: PLUG_PINS }],
    byDefault: true,
  }),
  circuit: ({ values }) => [
    ...PHASES.map((phase) => winding(`winding-${phase}`, phase, ":star", undefined, ASSUMED_HEAVY_WINDING)),
    resistance("encoder", "encoder-supply", "encoder-ground", "sense", ENCODER_SUPPLY),
    resistance("track-a", "encoder-a", "encoder-ground", "sense", ENCODER_TRACK),
    resistance("track-b", "encoder-b", "encoder-ground", "sense", ENCODER_TRACK),
    resistance("temperature", "temperature-1", "temperature-2", "sense", TEMPERATURE_SENSOR),
    windingLeak("leak-winding", ":star", values.number("isolation")),
    caseLeak(),
  ],
  limits: (values) => [
    { parameter: "voltageMax", kind: "voltage-across", a: "U", b: "V", value: values.number("voltageMax") },
  ],
  traits: {
    load: true,
    motor: true,
    generates: (values) => {
      const machine = values.choice("machine");
      return machine === undefined ? undefined : machine === "permanent-magnet";
    },
  },
  notes: [
    "Each phase is taken as 10 mohm to the star point when solving: in a steady direct current picture nothing flows in it.",
    "What the controller draws from the pack for it is solved at the controller.",
  ],
});
