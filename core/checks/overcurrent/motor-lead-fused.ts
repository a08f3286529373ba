import { devices } from "../../studies/words/devices.ts";
import { defineCheck } from "../define.ts";
import { takeOutPart } from "../remedies/take-out.ts";
import { motorCircuits } from "../../studies/words/motor-loops.ts";
import { partPlace } from "../words/places.ts";

export const motorLeadFused = defineCheck({
  id: "motor-lead-fused",
  group: "overcurrent",
  title: "Fuse or breaker in the motor's own circuit",
  about:
    "Looks for fuses and breakers in the loop of a controller's motor, forward and in reverse: between the controller's output and the motor, between the windings, and between the motor and the controller's positive side. The field of a separately excited motor and the battery's side of the controller are no part of it.",
  severities: ["WARNING"],
  source: { text: "Common practice, no source", known: "none" },
  reads: "states",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: { notChecked: "What lies in a motor's loop is always on the drawing." },
  messages: {
    fused: {
      title: "{device} lies in the motor circuit of {controller}.",
      why: "When it opens, the motor's winding drives the current on as an arc and the voltage destroys the controller; and pulling away takes more current there than from the battery, so that it opens when nothing is wrong.",
      mend: "Take {device} out of the motor circuit and protect the drive between the battery and the controller's positive side.",
    },
  },
  reasons: {},
  run(analysis, report) {
    const known = devices(analysis);
    for (const { controller, branches } of motorCircuits(analysis)) {
      const found = new Set(branches.flatMap(({ index }) => known.get(index)?.part ?? []));
      for (const part of found) {
        const place = partPlace(part);
        report.fails({
          message: "fused",
          facts: { device: { place }, controller: { place: partPlace(controller) } },
          severity: "WARNING",
          where: [place],
          touches: [partPlace(controller)],
          remedies: takeOutPart(analysis.network, part, "the motor circuit"),
        });
      }
      if (found.size === 0) report.passes(partPlace(controller));
    }
  },
});
