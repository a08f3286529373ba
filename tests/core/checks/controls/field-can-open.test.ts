import { fieldCanOpen } from "../../../../core/checks/controls/field-can-open.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

/** A tractor of 36 V on a main contactor; the test leads the field. */
const tractor = () =>
  supplies(3, BLOCK)
    .part("F1", "fuse", { rating: "200 A" })
    .part("Q1", "contactor", COIL)
    .part("K2", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("M1", "motor-compound", {
      armatureResistance: "0.2 ohm",
      fieldResistance: "20 ohm",
      currentContinuous: "100 A",
    })
    .wires(POWER, "G3:+ - F1:1", "F1:2 - Q1:line", "Q1:load - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-")
    .wires(SMALL, "Q1:coil- - X9:stud", "M1:F2 - G1:-");

const onKey = (sketch: ReturnType<typeof tractor>) => sketch.wire("S1:ignition", "Q1:coil+", SMALL);

/** A cart whose controller feeds the armature; `from` feeds the field. */
const sepex = (from: string) =>
  supplies(4)
    .part("Q1", "contactor", COIL)
    .part("F3", "fuse", { rating: "20 A" })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "100 A", contactorDriver: "none" })
    .part("M1", "motor-separately-excited", { fieldResistance: "10 ohm", currentContinuous: "100 A" })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "T1:M+ - M1:A1", "M1:A2 - T1:M-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, "Q1:load - F3:1", `${from} - M1:F1`, from === "T1:F1" ? "M1:F2 - T1:F2" : "M1:F2 - G1:-");

checkTable(fieldCanOpen, {
  fails: [
    {
      name: "field through a direction relay",
      drawing: onKey(tractor())
        .wires(SMALL, "F1:2 - K2:common", "K2:no - M1:F1", "S1:ignition - K2:coil+", "K2:coil- - X9:stud")
        .build(),
      at: "M1:F1",
      message: "opens",
      severity: "DANGER",
    },
    {
      name: "field behind a fuse of its own",
      drawing: sepex("F3:2").build(),
      at: "M1:F1",
      message: "opens",
      severity: "DANGER",
    },
    {
      name: "relay whose coil nothing feeds",
      drawing: onKey(tractor()).wires(SMALL, "F1:2 - K2:common", "K2:no - M1:F1").build(),
      at: "M1:F1",
      message: "dead",
      severity: "DANGER",
    },
    {
      name: "field through one side of a lever: dead in reverse",
      drawing: onKey(tractor())
        .part("S2", "selector-switch", { centre: "no" })
        .wires(SMALL, "F1:2 - S2:common", "S2:a - M1:F1")
        .build(),
      at: "M1:F1",
      message: "dead",
      severity: "DANGER",
    },
  ],
  passes: [
    {
      name: "field straight from the armature's stud",
      drawing: onKey(tractor()).wire("Q1:load", "M1:F1", SMALL).build(),
      at: "M1:F1",
    },
    { name: "the controller feeds it", drawing: sepex("T1:F1").build(), at: "M1:F1" },
    {
      name: "fuse in the field, and a relay in its circuit that holds the contactor in",
      drawing: tractor()
        .part("F3", "fuse", { rating: "10 A" })
        .part("K3", "relay", { coilVoltage: "36 V", coilResistance: "500 ohm" })
        .wires(SMALL, "F1:2 - F3:1", "F3:2 - M1:F1", "F3:2 - K3:coil+", "K3:coil- - G1:-")
        .wires(SMALL, "S1:ignition - K3:common", "K3:no - Q1:coil+")
        .build(),
      at: "M1:F1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what moves the contact ahead of the coil",
      drawing: tractor()
        .part("S3", "micro-switch")
        .wires(SMALL, "Q1:load - M1:F1", "S1:ignition - S3:common", "S3:no - Q1:coil+")
        .build(),
      at: "M1:F1",
      reason: "never",
      missing: ["S3.actuator"],
    },
  ],
  doesNotApply: [
    { name: "a series motor", drawing: cart().build() },
    { name: "no motor", drawing: supplies(2).build() },
  ],
});
