import { emergencyStopIneffective } from "../../../../core/checks/switching/emergency-stop-ineffective.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, stepCar, supplies } from "./vehicle.ts";

/** The stop in the controller's logic supply alone; the contactor hangs on the key. */
const logicOnly = () =>
  supplies(8)
    .part("Q1", "contactor", COIL)
    .part("S2", "emergency-stop")
    .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
    .wires(POWER, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "S1:ignition - S2:11", "S2:12 - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

const motorKart = (twoPoles: boolean) => {
  const sketch = supplies(4)
    .part("Q1", "contactor", COIL)
    .part("S2", "emergency-stop")
    .part("M1", "motor-permanent-magnet", { currentContinuous: "80 A" })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - M1:+", "M1:- - G1:-")
    .wires(SMALL, "S1:ignition - S2:11", "S2:12 - Q1:coil+", "Q1:coil- - X9:stud");
  if (!twoPoles) return sketch;
  return sketch
    .part("Q2", "contactor", COIL)
    .wires(POWER, "G4:+ - Q2:line", "Q2:load - M1:+")
    .wires(SMALL, "S1:ignition - Q2:coil+", "Q2:coil- - X9:stud");
};

checkTable(emergencyStopIneffective, {
  fails: [
    {
      name: "stop in the logic supply alone",
      drawing: logicOnly().build(),
      at: "T1:B+",
      message: "closed",
      severity: "DANGER",
    },
    {
      name: "a second contactor beside the one that the stop opens",
      drawing: motorKart(true).build(),
      at: "M1:+",
      message: "closed",
      severity: "DANGER",
      value: 4 * 6 * 2.47,
    },
    {
      name: "a stop, but no contactor",
      drawing: supplies(8)
        .part("S2", "emergency-stop")
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .wires(POWER, "G8:+ - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - S2:11", "S2:12 - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "direct",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "stop in the coil's feed", drawing: cart().build(), at: "T1:B+" },
    {
      name: "what a resistor lets through is another matter",
      drawing: cart({ resistor: "1 kohm" }).build(),
      at: "T1:B+",
    },
    { name: "motor on a contactor", drawing: motorKart(false).build(), at: "M1:+" },
    { name: "series and parallel steps", drawing: stepCar().build(), at: "M1:A1" },
  ],
  notChecked: [
    {
      name: "the contactor closes in no state",
      drawing: supplies(4)
        .part("Q1", "contactor", COIL)
        .part("S2", "emergency-stop")
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - S2:11", "S2:12 - T1:logic+", "T1:logic- - X9:stud")
        .wires(SMALL, "S2:12 - Q1:coil+", "Q1:coil- - T1:contactor-out")
        .build(),
      at: "T1:B+",
      reason: "neverClosed",
      missing: ["T1.contactorDriver"],
    },
  ],
  doesNotApply: [{ name: "no emergency stop", drawing: cart({ stop: false }).build() }],
});
