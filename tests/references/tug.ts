/** A 48 V platform tug: string, contactor with pre-charge, series motor, converter, 12 V on the chassis. */
import type { Project } from "../../core/project/document.ts";
import { drawing } from "../harness/drawing.ts";

const HEAVY = { size: "50 mm2", length: "0.4 m" };
const SMALL = { size: "2.5 mm2", length: "3 m" };
const BLOCK = { chemistry: "flooded-lead", capacity: "180 Ah" };

export function tug(): Project {
  const sketch = drawing();
  for (let block = 1; block <= 4; block += 1) {
    sketch.part(`G${block}`, "battery-block", BLOCK);
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  return sketch
    .part("G9", "battery-block", { chemistry: "flooded-lead", capacity: "60 Ah" })
    .part("X1", "chassis-point", { structure: "body" })
    .part("F1", "fuse", { rating: "300 A" })
    .part("F2", "fuse", { rating: "10 A" })
    .part("F3", "fuse", { rating: "20 A" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "10 W" })
    .part("R1", "resistor", { resistance: "220 ohm" })
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      nominalMin: "48 V",
      voltageMin: "30 V",
      inputCapacitance: "10 mF",
      currentContinuous: "150 A",
      regeneration: "yes",
      regenerationCutVoltage: "60 V",
      contactorDriver: "none",
    })
    .part("M1", "motor-series", { currentContinuous: "120 A" })
    .part("S1", "key-switch")
    .part("B1", "throttle-two-wire")
    .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "30 V", outputCurrentMax: "20 A" })
    .wires(HEAVY, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "G9:- - X1:stud", "G9:+ - F3:1", "F3:2 - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - X1:stud")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X1:stud", "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2")
    .wires(SMALL, "Q1:load - F2:1", "F2:2 - T2:in+", "T2:in- - G1:-", "T2:out+ - F3:1", "T2:out- - X1:stud")
    .build();
}
