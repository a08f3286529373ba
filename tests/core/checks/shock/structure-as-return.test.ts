import { structureAsReturn } from "../../../../core/checks/shock/structure-as-return.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { SMALL } from "../pack.ts";

const LAMP = { voltage: "12 V", power: "21 W" };

/** A 12 V battery whose minus is at X1; a lamp and a relay whose minus is at X2. */
const cart = (battery: Parameters, loads: Parameters) =>
  drawing()
    .part("G200", "battery-block", {
      duty: "auxiliary",
      chemistry: "flooded-lead",
      capacity: "60 Ah",
      resistance: "6 mohm",
    })
    .part("F20", "fuse", { rating: "15 A" })
    .part("X1", "chassis-point", battery)
    .part("X2", "chassis-point", loads)
    .part("S1", "key-switch", {})
    .part("P1", "lamp", LAMP)
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .wires(SMALL, "G200:- - X1:stud", "G200:+ - F20:1", "F20:2 - S1:battery", "S1:ignition - P1:+", "P1:- - X2:stud")
    .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X2:stud");

const [BODY, MOTOR, FRAME] = [{ structure: "body" }, { structure: "motor" }, { structure: "frame" }];

checkTable(structureAsReturn, {
  fails: [
    {
      name: "battery on the motor's metal, loads on the body",
      drawing: cart(MOTOR, BODY).build(),
      at: "X1:stud",
      message: "parted",
      severity: "WARNING",
      remedies: ["join-structures"],
    },
    {
      name: "battery on the body, loads on a frame that is not joined to it",
      drawing: cart(BODY, FRAME).build(),
      at: "X1:stud",
      message: "parted",
      severity: "WARNING",
    },
    {
      name: "one lamp alone on the motor's metal",
      drawing: cart(BODY, BODY)
        .part("X3", "chassis-point", MOTOR)
        .part("P2", "lamp", LAMP)
        .wires(SMALL, "F20:2 - P2:+", "P2:- - X3:stud")
        .build(),
      at: "X1:stud",
      message: "parted",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "battery and loads on one body", drawing: cart(BODY, BODY).build(), at: ["P1:-", "K1:coil-"] },
    {
      name: "motor and body joined by a wire",
      drawing: cart(MOTOR, BODY).wires(SMALL, "X1:stud - X2:stud").build(),
      at: ["P1:-", "K1:coil-"],
    },
    {
      name: "motor and body joined by a bonding strap",
      drawing: cart(MOTOR, BODY)
        .part("X3", "earth-bond")
        .wires(SMALL, "X1:stud - X3:case", "X3:stud - X2:stud")
        .build(),
      at: ["P1:-", "K1:coil-"],
    },
    {
      name: "points of unstated metal with a wire between them",
      drawing: cart({}, {}).wires(SMALL, "X1:stud - X2:stud").build(),
      at: ["P1:-", "K1:coil-"],
    },
  ],
  notChecked: [
    {
      name: "points of unstated metal",
      drawing: cart({}, {}).build(),
      at: ["P1:-", "K1:coil-"],
      reason: "structure",
      missing: ["X1.structure", "X2.structure"],
    },
  ],
  doesNotApply: [
    {
      name: "a lamp with two wires to its battery",
      drawing: drawing()
        .part("G200", "battery-block", { duty: "auxiliary", chemistry: "flooded-lead", capacity: "60 Ah" })
        .part("P1", "lamp", LAMP)
        .wires(SMALL, "G200:+ - P1:+", "P1:- - G200:-")
        .build(),
    },
  ],
});
