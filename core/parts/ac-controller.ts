/** Motor controller for three-phase motors. */
import type { Ohm } from "../quantity/kinds.ts";
import { busElements, controlElements, controllerLimits, CONTROLLER_NOTES, outputStage } from "./controller-circuit.ts";
import { controllerAtRest, controllerInTime, isLive, settleController } from "./controller-logic.ts";
import { controllerParameters } from "./controller-parameters.ts";
import {
  controllerCase,
  controllerFace,
  controllerSupplyPairs,
  controllerViews,
  controlTerminals,
  motorSensorTerminals,
  referenceOf,
} from "./controller-terminals.ts";
import { definePart, type PartContext, type Values } from "./define.ts";
import type { Element } from "./element.ts";
import { driver } from "./input-pin.ts";
import { diode, resistance, tie } from "./make-element.ts";
import { terminal } from "./plain-face.ts";
import { lead, letter, rectangle, text } from "./symbol.ts";

const PHASES = ["U", "V", "W"] as const;

/** Encoder supply, tracks and temperature input (common practice, no source). */
const ENCODER = { volts: 5, supply: 100, track: 10_000, temperature: 10_000 } as const satisfies Record<string, number>;

/**
 * Each phase averages to half the bus while the output stage works: two equal resistances, large enough to draw next
 * to nothing from the pack and small enough (10 ohm per volt) that a phase still counts as part of it.
 */
const averagingResistance = (values: Values): Ohm =>
  20 * (values.number("voltageMax") ?? values.number("nominalMax") ?? 50);

function phaseElements({ values, state }: PartContext): readonly Element[] {
  const on = state["drive"] !== "off" && state["drive"] !== undefined;
  const ohms = averagingResistance(values);
  return PHASES.flatMap((phase) => [
    driver(`phase-${phase}-high`, "B+", phase, on, ohms),
    driver(`phase-${phase}-low`, phase, "B-", on, ohms),
    diode(`phase-${phase}-diode-high`, phase, "B+"),
    diode(`phase-${phase}-diode-low`, "B-", phase),
  ]);
}

function sensorElements({ values, state, wired }: PartContext): readonly Element[] {
  if (!motorSensorTerminals.some(({ id }) => wired(id))) return [];
  const reference = referenceOf(values, wired);
  return [
    {
      type: "source",
      name: "encoder-supply",
      a: "encoder-supply",
      b: "encoder-ground",
      role: "sense",
      emf: isLive(state) ? ENCODER.volts : 0,
      resistance: ENCODER.supply,
      storage: false,
    },
    resistance("encoder-a", "encoder-a", "encoder-ground", "sense", ENCODER.track),
    resistance("encoder-b", "encoder-b", "encoder-ground", "sense", ENCODER.track),
    resistance("temperature", "temperature-1", "temperature-2", "sense", ENCODER.temperature),
    tie("encoder-return", "encoder-ground", reference),
    tie("temperature-return", "temperature-2", reference),
  ];
}

export const acController = definePart({
  kind: "ac-controller",
  letter: "T",
  title: "AC controller",
  words: ["inverter", "motor controller", "drive", "three-phase controller", "frequency converter"],
  group: "drive",
  explanation: "Makes three phases from the pack for a brushless motor, as strong and as fast as the throttle asks.",
  parameters: controllerParameters,
  terminals: (values) => [
    terminal("B+", "stud", true, "Pack plus"),
    terminal("B-", "stud", true, "Pack minus"),
    ...PHASES.map((phase) => terminal(phase, "stud", true, `Phase ${phase}`)),
    ...controlTerminals(values),
    ...motorSensorTerminals,
    controllerCase,
  ],
  supplyPairs: controllerSupplyPairs,
  views: () =>
    controllerViews("AC controller", ["U", "V", "W"], true, [
      rectangle(-5, -5, 10, 10),
      lead(-5, 5, 5, -5),
      letter(-2.2, -2.2, "=", 2.5),
      text(2.2, 3.4, "3~", 1.8),
    ]),
  face: () =>
    controllerFace(
      {
        U: { x: 185, y: 30, stud: "M8" },
        V: { x: 185, y: 75, stud: "M8" },
        W: { x: 185, y: 115, stud: "M8" },
      },
      true,
    ),
  circuit: (context) => [
    ...busElements(context.values),
    outputStage(context, "B+", "B-", "load"),
    ...phaseElements(context),
    ...sensorElements(context),
    ...controlElements(context),
  ],
  initial: controllerAtRest,
  settle: settleController,
  inTime: controllerInTime,
  limits: controllerLimits,
  traits: { load: true, controller: true },
  notes: [
    ...CONTROLLER_NOTES,
    "While driving, the pack current is drawn between B+ and B-, and the phases stand at half the bus: their own alternating current is not solved.",
  ],
});
