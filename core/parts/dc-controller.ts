/** Motor controller for brushed motors: chops the motor's minus, so that the motor hangs between B+ and M-. */
import { busElements, controlElements, controllerLimits, CONTROLLER_NOTES, outputStage } from "./controller-circuit.ts";
import { controllerAtRest, controllerInTime, settleController } from "./controller-logic.ts";
import { controllerParameters } from "./controller-parameters.ts";
import {
  controllerCase,
  controllerFace,
  controllerSupplyPairs,
  controllerViews,
  controlTerminals,
} from "./controller-terminals.ts";
import { definePart, type PartContext } from "./define.ts";
import type { Element } from "./element.ts";
import { driver } from "./input-pin.ts";
import { diode, tie } from "./make-element.ts";
import { terminal } from "./plain-face.ts";
import { circle, lead, letter, rectangle } from "./symbol.ts";
import { together } from "./terminal-needs.ts";

/** Field output: full bus across F1 and F2 while driving, turned round in reverse. */
function fieldElements({ state, wired }: PartContext): readonly Element[] {
  if (!wired("F1") && !wired("F2")) return [];
  const on = state["drive"] !== "off" && state["drive"] !== undefined;
  const turned = state["drive"] === "reverse";
  return [
    driver("field-1-high", "B+", "F1", on && !turned),
    driver("field-1-low", "F1", "B-", on && turned),
    driver("field-2-high", "B+", "F2", on && turned),
    driver("field-2-low", "F2", "B-", on && !turned),
  ];
}

const stud = (id: string, required: boolean, title: string) => terminal(id, "stud", required, title);

export const dcController = definePart({
  kind: "dc-controller",
  letter: "T",
  title: "DC controller",
  words: ["motor controller", "chopper", "speed controller", "drive", "brushed controller"],
  group: "drive",
  explanation: "Gives a brushed motor as much current as the throttle asks for, by switching its minus side very fast.",
  parameters: controllerParameters,
  terminals: (values) => [
    stud("B+", true, "Pack plus"),
    stud("B-", true, "Pack minus"),
    stud("M-", true, "Motor minus, the switched side"),
    stud("M+", false, "Motor plus, the same metal as B+"),
    ...together([stud("F1", false, "Field output"), stud("F2", false, "Field output")], ["F1", "F2"]),
    ...controlTerminals(values),
    controllerCase,
  ],
  supplyPairs: controllerSupplyPairs,
  views: () =>
    controllerViews("DC controller", ["M+", "M-", null, "F1", "F2"], false, [
      rectangle(-5, -5, 10, 10),
      lead(-5, 5, 5, -5),
      letter(-2.2, -2.2, "=", 2.5),
      circle(2.2, 2.2, 1.6),
    ]),
  face: () =>
    controllerFace(
      {
        "M-": { x: 185, y: 75, stud: "M8" },
        "M+": { x: 185, y: 30, stud: "M8" },
        F1: { x: 90, y: 30, stud: "M6" },
        F2: { x: 130, y: 30, stud: "M6" },
      },
      false,
    ),
  circuit: (context) => [
    ...busElements(context.values),
    diode("freewheel-diode", "M-", "B+"),
    tie("motor-plus", "M+", "B+"),
    outputStage(context, "M-", "B-", "driver"),
    ...fieldElements(context),
    ...controlElements(context),
  ],
  initial: controllerAtRest,
  settle: settleController,
  inTime: controllerInTime,
  limits: controllerLimits,
  traits: { load: true, controller: true },
  notes: [...CONTROLLER_NOTES, "F1 and F2 are at full bus voltage while driving, turned round in reverse."],
});
