import { emergencyStopMissing } from "../../../../core/checks/switching/emergency-stop-missing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, splitPack, stepCar, supplies, twoBoxes } from "./vehicle.ts";

const DRIVEN = {
  logicFeed: "isolated-12v",
  contactorDriver: "low-side",
  inputCapacitance: "2 mF",
  nominalMin: "96 V",
  currentContinuous: "150 A",
};

/** The controller closes its own contactor; where its coil and its logic are fed is the test's matter. */
const selfClosing = (coilFrom: string, logicFrom: string, stop: boolean) => {
  const sketch = supplies(10)
    .part("Q1", "contactor", COIL)
    .part("R1", "resistor", { resistance: "1 kohm" })
    .part("T1", "dc-controller", DRIVEN)
    .part("M2", "pump", { voltage: "12 V", power: "60 W", purpose: "brake-assist" })
    .wires(POWER, "G10:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "S1:ignition - M2:+", "M2:- - X9:stud");
  if (stop) sketch.part("S2", "emergency-stop").wire("S1:ignition", "S2:11", SMALL);
  return sketch
    .wires(SMALL, `${logicFrom} - T1:logic+`, "T1:logic- - X9:stud")
    .wires(SMALL, `${coilFrom} - Q1:coil+`, "Q1:coil- - T1:contactor-out");
};

checkTable(emergencyStopMissing, {
  fails: [
    {
      name: "the column key is the only cut",
      drawing: selfClosing("S1:ignition", "S1:ignition", false).build(),
      at: "T1:B+",
      message: "none",
      severity: "WARNING",
      value: 10 * 6 * 2.47,
    },
    {
      name: "up to 60 V a notice",
      drawing: cart({ blocks: 4, stop: false, disconnect: null }).build(),
      at: "T1:B+",
      message: "none",
      severity: "NOTICE",
      remedies: [],
    },
    {
      name: "up to 60 V, with a coil that takes up its own current",
      drawing: cart({ blocks: 4, stop: false, disconnect: null, contactor: { suppression: "diode" } }).build(),
      at: "T1:B+",
      message: "none",
      severity: "NOTICE",
      remedies: ["fit-switch"],
    },
    {
      name: "disconnect out of reach",
      drawing: cart({ stop: false, zone: "engine", disconnect: { breakLoad: "yes" } }).build(),
      at: "T1:B+",
      message: "none",
      severity: "WARNING",
    },
    {
      name: "disconnect that must not be pulled under load",
      drawing: cart({ stop: false, zone: "passenger", disconnect: { breakLoad: "no" } }).build(),
      at: "T1:B+",
      message: "none",
      severity: "WARNING",
    },
    {
      name: "a stop that only asks the controller",
      drawing: selfClosing("S1:ignition", "S2:12", true).build(),
      at: "T1:B+",
      message: "dependent",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "split pack with two contactors", drawing: splitPack().build(), at: "T1:B+" },
    { name: "two boxes with an interlock loop", drawing: twoBoxes().build(), at: "T1:B+" },
    { name: "stop in the coil's feed", drawing: cart().build(), at: "T1:B+" },
    { name: "stop ahead of coil and controller", drawing: selfClosing("S2:12", "S2:12", true).build(), at: "T1:B+" },
    {
      name: "disconnect that breaks load beside the driver",
      drawing: cart({ stop: false, zone: "passenger", disconnect: { breakLoad: "yes" } }).build(),
      at: "T1:B+",
    },
    { name: "series and parallel steps with a stop", drawing: stepCar().build(), at: "M1:A1" },
  ],
  notChecked: [
    {
      name: "nobody says where the disconnect is",
      drawing: cart({ stop: false, disconnect: { breakLoad: "yes" } }).build(),
      at: "T1:B+",
      reason: "reach",
      missing: ["Q9.zone"],
    },
    {
      name: "nobody says whether the disconnect may break load",
      drawing: cart({ stop: false, zone: "passenger" }).build(),
      at: "T1:B+",
      reason: "reach",
      missing: ["Q9.breakLoad"],
    },
    {
      name: "the contactor closes in no state",
      drawing: supplies(8)
        .part("Q1", "contactor", COIL)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .wires(POWER, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out")
        .build(),
      at: "T1:B+",
      reason: "neverClosed",
      missing: ["T1.contactorDriver"],
    },
  ],
  doesNotApply: [{ name: "no drive", drawing: supplies(2).build() }],
});
