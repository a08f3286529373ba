import { inertiaSwitchMissing } from "../../../../core/checks/controls/inertia-switch-missing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL, supplies, twoBoxes } from "../switching/vehicle.ts";
import { boat } from "./vehicle.ts";

checkTable(inertiaSwitchMissing, {
  fails: [
    {
      name: "none drawn",
      drawing: cart().build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
      remedies: [],
    },
    {
      name: "none drawn, with a coil that takes up its own current",
      drawing: cart({ contactor: { suppression: "diode" } }).build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
      remedies: ["fit-switch"],
    },
    {
      name: "one that only sounds a buzzer",
      drawing: cart()
        .part("S5", "inertia-switch")
        .part("P1", "buzzer", { voltage: "12 V", power: "2 W", needsPolarity: "no" })
        .wires(SMALL, "F9:2 - S5:common", "S5:no - P1:+", "P1:- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "one that lies on a shelf",
      drawing: boat().part("S5", "inertia-switch").build(),
      at: "M1:+",
      message: "missing",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "in the interlock loop of two boxes", drawing: twoBoxes().build(), at: "T1:B+" },
    {
      name: "in the interlock of the controller",
      drawing: cart()
        .part("S5", "inertia-switch")
        .wires(SMALL, "S1:ignition - S5:common", "S5:nc - T1:interlock")
        .build(),
      at: "T1:B+",
    },
    {
      name: "in the coil's feed of a boat",
      drawing: boat(null)
        .part("S5", "inertia-switch")
        .wires(SMALL, "S1:ignition - S5:common", "S5:nc - Q1:coil+")
        .build(),
      at: "M1:+",
    },
  ],
  notChecked: [
    {
      name: "nobody says how the controller drives its contactor",
      drawing: supplies(4)
        .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .wires(SMALL, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "S1:ignition - T1:logic+")
        .wires(SMALL, "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out")
        .build(),
      at: "T1:B+",
      reason: "never",
      missing: ["T1.contactorDriver"],
    },
  ],
  doesNotApply: [{ name: "no drive", drawing: supplies(2).build() }],
});
