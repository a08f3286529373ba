import { externalCutMismatch } from "../../../../core/checks/controls/external-cut-mismatch.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL, supplies } from "../switching/vehicle.ts";
import { boat } from "./vehicle.ts";

/** A pedal contact between key and coil, or key and interlock. */
const pedal = (externalCut: string | undefined, to: "Q1:coil+" | "T1:interlock", actuator = "throttle-pedal") => {
  const controller = externalCut === undefined ? {} : { externalCut };
  if (to === "T1:interlock")
    return cart({ controller })
      .part("S3", "micro-switch", actuator === "" ? {} : { actuator })
      .wires(SMALL, "S1:ignition - S3:common", "S3:no - T1:interlock");
  return supplies(8)
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
    .part("S3", "micro-switch", actuator === "" ? {} : { actuator })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "150 A", ...controller })
    .wires(SMALL, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "S1:ignition - T1:logic+")
    .wires(SMALL, "T1:logic- - X9:stud", "S1:ignition - S3:common", "S3:no - Q1:coil+", "Q1:coil- - X9:stud");
};

checkTable(externalCutMismatch, {
  fails: [
    {
      name: "forbidden, and the coil hangs on the pedal",
      drawing: pedal("forbidden", "Q1:coil+").build(),
      at: "T1:B+",
      message: "forbidden",
      severity: "WARNING",
    },
    {
      name: "forbidden, and a relay behind the pedal takes the coil",
      drawing: supplies(8)
        .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .part("S3", "micro-switch", { actuator: "throttle-pedal" })
        .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .part("T1", "ac-controller", { logicFeed: "isolated-12v", currentContinuous: "80 A", externalCut: "forbidden" })
        .wires(SMALL, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "S1:ignition - T1:logic+")
        .wires(SMALL, "T1:logic- - X9:stud", "S1:ignition - S3:common", "S3:no - K1:coil+", "K1:coil- - X9:stud")
        .wires(SMALL, "K1:common - S1:ignition", "K1:no - Q1:coil+", "Q1:coil- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "forbidden",
      severity: "WARNING",
    },
    {
      name: "required, and the pedal's contact is on the interlock alone",
      drawing: pedal("required", "T1:interlock").build(),
      at: "T1:B+",
      message: "required",
      severity: "NOTICE",
    },
    {
      name: "required, and there is no contact",
      drawing: cart({ controller: { externalCut: "required" } }).build(),
      at: "T1:B+",
      message: "required",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "required and there", drawing: pedal("required", "Q1:coil+").build(), at: "T1:B+" },
    { name: "forbidden, contact on the interlock", drawing: pedal("forbidden", "T1:interlock").build(), at: "T1:B+" },
    { name: "allowed", drawing: pedal("allowed", "Q1:coil+").build(), at: "T1:B+" },
  ],
  notChecked: [
    {
      name: "not stated",
      drawing: pedal(undefined, "Q1:coil+").build(),
      at: "T1:B+",
      reason: "unstated",
      missing: ["T1.externalCut"],
    },
    {
      name: "nobody says what moves the contact",
      drawing: cart({ controller: { externalCut: "required" } })
        .part("S3", "micro-switch")
        .wires(SMALL, "S1:ignition - S3:common", "S3:nc - T1:interlock")
        .build(),
      at: "T1:B+",
      reason: "actuator",
      missing: ["S3.actuator"],
    },
    {
      name: "the same in the coil's feed: it never drives",
      drawing: pedal("forbidden", "Q1:coil+", "").build(),
      at: "T1:B+",
      reason: "never",
      missing: ["S3.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no drive", drawing: supplies(2).build() },
    { name: "a motor on a contactor", drawing: boat().build() },
  ],
});
