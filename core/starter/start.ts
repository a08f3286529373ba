/** A few answers become a complete sound drawing, sized by the studies and laid out on sheets. */
import type { Project } from "../project/document.ts";
import type { Answers } from "./answers.ts";
import { auxiliary } from "./auxiliary.ts";
import { charging, monitor } from "./charging.ts";
import { control } from "./control.ts";
import { Draft } from "./draft.ts";
import { drive } from "./drive.ts";
import { bonds, gauge, heater, isolationMonitor } from "./fittings.ts";
import { traction } from "./traction.ts";
import { vehicleOf } from "./vehicle.ts";

/** The same answers give the same drawing. Throws a RangeError where no single cable carries the current asked for. */
export function startDrawing(answers: Answers): Project {
  const vehicle = vehicleOf(answers);
  const draft = new Draft();
  // Plus, minus and small fuse of the traction side; feed, minus, key and enable of the fuse box.
  draft.bar("X9", "drive box").bar("X3", "drive box").bar("X8", "drive box");
  draft.bar("X2", "12 V box").bar("X4", "12 V box").bar("X5", "12 V box").bar("X6", "12 V box").bar("X7", "12 V box");
  if (answers.logic === "pack-fed" && vehicle.figures.classB) draft.markLowBox();
  traction(draft, vehicle);
  drive(draft, vehicle);
  auxiliary(draft, vehicle);
  control(draft, vehicle);
  if (answers.monitor) monitor(draft, vehicle);
  if (answers.charger) charging(draft, vehicle);
  if (answers.gauge) gauge(draft, vehicle);
  if (answers.isolationMonitor) isolationMonitor(draft, vehicle);
  if (answers.heater) heater(draft, vehicle);
  bonds(draft, vehicle);
  return draft.project(
    {
      vehicle: answers.vehicle,
      title: "Traction, control and 12 V",
      author: answers.author,
      date: answers.date,
      revision: "A",
      documentType: "Circuit diagram",
      language: "en",
    },
    answers.paper,
  );
}
