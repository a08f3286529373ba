import { drivesWhileCharging } from "../../../../core/checks/controls/drives-while-charging.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { earthedWhileCharging } from "../known-good.ts";
import { cart, SMALL, splitPack, supplies } from "../switching/vehicle.ts";

const CHARGER = {
  mainsPlug: "yes",
  isolated: "yes",
  batteryDetect: "yes",
  chemistry: "flooded-lead",
  outputVoltageMax: "118 V",
  outputCurrentMax: "10 A",
  outputCapacitance: "10 uF",
} as const;

const charged = (more: Readonly<Record<string, string>> = {}) =>
  cart()
    .part("T3", "charger", { ...CHARGER, ...more })
    .part("F3", "fuse", { rating: "20 A" })
    .wires(SMALL, "F1:2 - F3:1", "F3:2 - T3:out+", "T3:out- - G1:-");

/** The interlock led through the charger's inhibit contact. */
const inhibited = (more: Readonly<Record<string, string>>) =>
  charged(more).wires(SMALL, "S1:ignition - T3:inhibit-1", "T3:inhibit-2 - T1:interlock");

checkTable(drivesWhileCharging, {
  fails: [
    {
      name: "inhibit contact unused",
      drawing: charged({ inhibitFollows: "charging" }).build(),
      at: "T3",
      message: "drives",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "inhibit contact that follows the plug, and unused",
      drawing: charged({ inhibitFollows: "plugged" }).build(),
      at: "T3",
      message: "drives",
      severity: "WARNING",
      remedies: ["through-inhibit"],
    },
    {
      name: "inhibit contact that follows charging alone",
      drawing: inhibited({ inhibitFollows: "charging" }).build(),
      at: "T3",
      message: "charging",
      severity: "WARNING",
    },
    {
      name: "inhibit contact that only lights a lamp",
      drawing: charged({ inhibitFollows: "plugged" })
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "S1:ignition - T3:inhibit-1", "T3:inhibit-2 - P1:+", "P1:- - X9:stud")
        .build(),
      at: "T3",
      message: "drives",
      severity: "WARNING",
    },
    {
      name: "charger on an inlet, nothing at all holds the drive off",
      drawing: cart()
        .part("X2", "inlet", { currentMax: "16 A" })
        .part("T3", "charger", { ...CHARGER, mainsPlug: "no" })
        .wires(SMALL, "F1:2 - T3:out+", "T3:out- - G1:-", "X2:L - T3:L", "X2:N - T3:N", "X2:PE - T3:PE")
        .build(),
      at: "T3",
      message: "drives",
      severity: "WARNING",
    },
  ],
  passes: [
    {
      name: "inhibit contact that follows the plug",
      drawing: inhibited({ inhibitFollows: "plugged" }).build(),
      at: "T1:B+",
    },
    {
      name: "inhibit contact in coil and logic, mains from an inlet",
      drawing: earthedWhileCharging({ isolated: "yes", inhibitFollows: "plugged" }).build(),
      at: "T1:B+",
    },
    {
      name: "a break contact at the charge flap",
      drawing: charged()
        .part("S4", "micro-switch", { actuator: "charge-flap" })
        .wires(SMALL, "S1:ignition - S4:common", "S4:nc - T1:interlock")
        .build(),
      at: "T1:B+",
    },
    {
      name: "a relay on the charger's own 12 V",
      drawing: charged()
        .part("K4", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .wires(SMALL, "T3:aux+ - K4:coil+", "K4:coil- - T3:aux-", "S1:ignition - K4:common", "K4:nc - T1:interlock")
        .build(),
      at: "T1:B+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the inhibit contact follows",
      drawing: splitPack().build(),
      at: "T1:B+",
      reason: "follows",
      missing: ["T3.inhibitFollows"],
    },
    {
      name: "nobody says what moves a contact in the interlock",
      drawing: charged({ inhibitFollows: "plugged" })
        .part("S4", "micro-switch")
        .wires(SMALL, "S1:ignition - S4:common", "S4:nc - T1:interlock")
        .build(),
      at: "T1:B+",
      reason: "follows",
      missing: ["S4.actuator"],
    },
    {
      name: "the same on the other contact: it never drives",
      drawing: charged({ inhibitFollows: "plugged" })
        .part("S4", "micro-switch")
        .wires(SMALL, "S1:ignition - S4:common", "S4:no - T1:interlock")
        .build(),
      at: "T1:B+",
      reason: "never",
      missing: ["S4.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no charger", drawing: cart().build() },
    {
      name: "no drive",
      drawing: supplies(2)
        .part("T3", "charger", { ...CHARGER, outputVoltageMax: "29 V" })
        .wires(SMALL, "G2:+ - T3:out+", "T3:out- - G1:-")
        .build(),
    },
  ],
});
