import { prechargeBypassesSwitch } from "../../../../core/checks/precharge/precharge-bypasses-switch.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, POWER, SMALL, splitPack, stepCar, supplies, twoBoxes } from "../switching/vehicle.ts";

/** The resistor behind a relay of its own, driven from `from`. */
const relayed = (from: string, blocks = 8) =>
  cart({ blocks })
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: "150 V" })
    .part("R1", "resistor", { resistance: "750 ohm", power: "50 W" })
    .wires(SMALL, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load", `${from} - K1:coil+`, "K1:coil- - X9:stud");

/** The controller closes its pre-charge relay, then its contactor; both are dead behind the stop. */
const sequenced = (blocks: number) =>
  supplies(blocks)
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
    .part("S2", "emergency-stop")
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("R1", "resistor", { resistance: "600 ohm", power: "50 W" })
    .part("T1", "ac-controller", {
      logicFeed: "isolated-12v",
      contactorDriver: "high-side",
      inputCapacitance: "500 uF",
      nominalMin: `${blocks * 12} V`,
    })
    .wires(POWER, `G${blocks}:+ - Q1:line`, "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "S1:ignition - S2:11", "S2:12 - T1:logic+", "T1:logic- - X9:stud")
    .wires(
      SMALL,
      "T1:contactor-out - Q1:coil+",
      "Q1:coil- - X9:stud",
      "T1:precharge-out - K1:coil+",
      "K1:coil- - X9:stud",
    )
    .wires(SMALL, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load");

/** From ahead of the disconnect to behind the contactor. */
const aroundBoth = (blocks: number) =>
  cart({ blocks })
    .part("R1", "resistor", { resistance: "750 ohm", power: "50 W" })
    .wires(SMALL, `G${blocks}:+ - R1:1`, "R1:2 - Q1:load");

checkTable(prechargeBypassesSwitch, {
  fails: [
    {
      name: "72 V, 1 kohm always across the contactor",
      drawing: cart({ blocks: 6, resistor: "1 kohm" }).build(),
      at: "R1",
      message: "open",
      severity: "WARNING",
      value: 6 * 6 * 2.47,
    },
    // Values that cart builders use for good: 24 V 220 ohm, 36 V 250 ohm, 48 V 470 ohm.
    {
      name: "24 V, 220 ohm",
      drawing: cart({ blocks: 2, resistor: "220 ohm" }).build(),
      at: "R1",
      message: "open",
      severity: "NOTICE",
    },
    {
      name: "36 V, 250 ohm",
      drawing: cart({ blocks: 3, resistor: "250 ohm" }).build(),
      at: "R1",
      message: "open",
      severity: "NOTICE",
    },
    {
      name: "48 V, 470 ohm",
      drawing: cart({ blocks: 4, resistor: "470 ohm" }).build(),
      at: "R1",
      message: "open",
      severity: "NOTICE",
    },
    {
      name: "from ahead of the disconnect, 96 V",
      drawing: aroundBoth(8).build(),
      at: "R1",
      message: "stored",
      severity: "DANGER",
    },
    {
      name: "from ahead of the disconnect, 48 V",
      drawing: aroundBoth(4).build(),
      at: "R1",
      message: "stored",
      severity: "WARNING",
    },
    {
      name: "its relay ahead of the emergency stop",
      drawing: relayed("S1:ignition").build(),
      at: "R1",
      message: "open",
      severity: "WARNING",
    },
    {
      name: "two resistors in a row, a bleeder beside them",
      drawing: cart({ blocks: 8 })
        .parts("resistor", { resistance: "400 ohm" }, "R1", "R2")
        .part("R3", "resistor", { resistance: "100 kohm" })
        .wires(SMALL, "Q1:line - R1:1", "R1:2 - R2:1", "R2:2 - Q1:load", "T1:B+ - R3:1", "R3:2 - T1:B-")
        .build(),
      at: "R1",
      message: "open",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "split pack with two contactors", drawing: splitPack().build(), at: "R1" },
    { name: "two boxes with an interlock loop", drawing: twoBoxes().build(), at: "R1" },
    { name: "its relay behind the emergency stop", drawing: sequenced(8).build(), at: "R1" },
    { name: "likewise at 320 V", drawing: sequenced(26).build(), at: "R1" },
    {
      name: "always across the plus contactor, the minus pole opens as well",
      drawing: cart({ blocks: 12, stop: false })
        .part("Q2", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .part("R1", "resistor", { resistance: "750 ohm" })
        .part("E1", "heater", { voltage: "144 V", power: "1 kW" })
        .part("S5", "micro-switch", { actuator: "throttle-pedal" })
        .part("Q3", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .wires(POWER, "Q2:line - G1:-", "F1:2 - Q3:line", "Q3:load - E1:+", "E1:- - Q2:load")
        .wires(SMALL, "Q3:line - R1:1", "R1:2 - Q3:load", "S1:ignition - Q2:coil+", "Q2:coil- - X9:stud")
        .wires(SMALL, "S1:ignition - S5:common", "S5:no - Q3:coil+", "Q3:coil- - X9:stud")
        .build(),
      at: "R1",
    },
  ],
  doesNotApply: [
    { name: "no resistor", drawing: cart().build() },
    { name: "no resistor, contactors alone", drawing: stepCar().build() },
    {
      name: "a bleeder across the controller",
      drawing: cart()
        .part("R3", "resistor", { resistance: "10 kohm" })
        .wires(SMALL, "T1:B+ - R3:1", "R3:2 - T1:B-")
        .build(),
    },
  ],
});
