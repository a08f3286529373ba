import { mainSwitchMissing } from "../../../../core/checks/switching/main-switch-missing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, splitPack, stepCar, supplies, twoBoxes } from "./vehicle.ts";

/** A motor on the pack through a contactor alone, its coil fed from `from`. */
const contactorKart = (from: string) =>
  supplies(4)
    .part("F1", "fuse", { rating: "150 A" })
    .part("Q1", "contactor", COIL)
    .part("M1", "motor-permanent-magnet", { currentContinuous: "80 A" })
    .wires(POWER, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - M1:+", "M1:- - G1:-")
    .wires(SMALL, `${from} - Q1:coil+`, "Q1:coil- - X9:stud");

/** A controller straight on the pack through a plug, as on a light bike. */
const bridge = () =>
  supplies(6)
    .part("F1", "fuse", { rating: "100 A" })
    .part("X1", "connector", { positions: "2" })
    .part("T1", "ac-controller", { logicFeed: "isolated-12v" })
    .wires(POWER, "G6:+ - F1:1", "F1:2 - X1:1a", "X1:1b - T1:B+", "G1:- - X1:2a", "X1:2b - T1:B-")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

/** Fed from the pack ahead of the key, the controller closes its own contactor. */
const gripKart = (logicFrom: string) =>
  supplies(4)
    .part("F1", "fuse", { rating: "250 A" })
    .part("F2", "fuse", { rating: "10 A" })
    .part("S2", "key-switch")
    .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "12 W" })
    .part("R1", "resistor", { resistance: "470 ohm" })
    .part("T1", "dc-controller", {
      logicFeed: "pack-fed",
      contactorDriver: "low-side",
      nominalMin: "48 V",
      inputCapacitance: "2 mF",
    })
    .wires(POWER, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "F1:2 - F2:1", "F2:2 - S2:battery", "Q1:line - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "S2:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out", `${logicFrom} - T1:logic+`);

checkTable(mainSwitchMissing, {
  fails: [
    {
      name: "hand-bolted lead, no contactor anywhere",
      drawing: supplies(15)
        .part("X1", "connector", { positions: "1" })
        .part("T1", "ac-controller", { inputCapacitance: "120 uF", logicFeed: "isolated-12v" })
        .wires(POWER, "G15:+ - X1:1a", "X1:1b - T1:B+", "G1:- - T1:B-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "none",
      severity: "DANGER",
      // 15 blocks of 6 cells at 2.47 V, the absorption voltage of flooded lead.
      value: 15 * 6 * 2.47,
    },
    {
      name: "bridge permanently on the pack",
      drawing: bridge().build(),
      at: "T1:B+",
      message: "none",
      severity: "DANGER",
    },
    {
      name: "coil of the main contactor ahead of the key",
      drawing: contactorKart("F9:2").build(),
      at: "M1:+",
      message: "closed",
      severity: "DANGER",
    },
    {
      name: "controller awake ahead of the key, coil too",
      drawing: gripKart("F2:2").wire("F2:2", "Q1:coil+", SMALL).build(),
      at: "T1:B+",
      message: "closed",
      severity: "DANGER",
    },
    {
      name: "contactors in both poles, both ahead of the key",
      drawing: cart({ stop: false })
        .part("Q2", "contactor", COIL)
        .wire("T1:B+", "Q2:load", POWER)
        .wire("Q2:line", "F1:2", POWER)
        .wires(SMALL, "F9:2 - Q2:coil+", "Q2:coil- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "closed",
      severity: "DANGER",
    },
    {
      name: "a wire across the main contactor",
      drawing: cart().wires(POWER, "Q1:line - Q1:load").build(),
      at: "T1:B+",
      message: "bypassed",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "split pack with two contactors", drawing: splitPack().build(), at: "T1:B+" },
    { name: "two boxes with an interlock loop", drawing: twoBoxes().build(), at: "T1:B+" },
    { name: "contactor behind the key", drawing: cart().build(), at: "T1:B+" },
    {
      name: "a resistor that bypasses it is another matter",
      drawing: cart({ resistor: "1 kohm" }).build(),
      at: "T1:B+",
    },
    { name: "motor on a contactor behind the key", drawing: contactorKart("S1:ignition").build(), at: "M1:+" },
    { name: "controller closes its contactor behind the key", drawing: gripKart("S2:ignition").build(), at: "T1:B+" },
    { name: "series and parallel steps with contactors alone", drawing: stepCar().build(), at: "M1:A1" },
    {
      name: "one open pole suffices",
      drawing: supplies(8)
        .parts("contactor", COIL, "Q1", "Q2")
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .wires(POWER, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - Q2:load", "Q2:line - G1:-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud")
        .wires(SMALL, "F9:2 - Q2:coil+", "Q2:coil- - X9:stud")
        .build(),
      at: "T1:B+",
    },
  ],
  notChecked: [
    {
      name: "nobody says how the controller drives its contactor",
      drawing: supplies(4)
        .part("Q1", "contactor", COIL)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+")
        .wire("Q1:coil-", "T1:contactor-out", SMALL)
        .build(),
      at: "T1:B+",
      reason: "neverClosed",
      missing: ["T1.contactorDriver"],
    },
  ],
  doesNotApply: [
    { name: "no drive", drawing: supplies(2).build() },
    {
      name: "a heater alone",
      drawing: supplies(2, { ...BLOCK, duty: "traction" })
        .part("E1", "heater", { voltage: "24 V", power: "100 W" })
        .wires(SMALL, "G2:+ - E1:+", "E1:- - G1:-")
        .build(),
    },
  ],
});
