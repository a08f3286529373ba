import { enableBypassesKey } from "../../../../core/checks/controls/enable-bypasses-key.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { inverter320, twoCuts } from "../known-good.ts";
import { BLOCK, cart, COIL, POWER, SMALL, splitPack, stepCar, supplies, twoBoxes } from "../switching/vehicle.ts";
import { boat, kart } from "./vehicle.ts";

/** The main contactor held in by a relay that the brake lamp pulls in through a diode. */
const lampFeeds = () =>
  cart()
    .part("K5", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("S3", "micro-switch", { actuator: "brake-pedal" })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .part("R2", "diode")
    .wires(SMALL, "F9:2 - S3:common", "S3:no - P1:+", "P1:- - X9:stud", "P1:+ - R2:anode", "R2:cathode - K5:coil+")
    .wires(SMALL, "K5:coil- - X9:stud", "F9:2 - K5:common", "K5:no - Q1:coil+");

/** The cart with its contactor behind the key and its logic nowhere yet. */
const bare = () =>
  supplies(8)
    .part("Q1", "contactor", COIL)
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "150 A", contactorDriver: "none" })
    .wires(POWER, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

/** A cart of 24 V with a switch where others have a key; its logic hangs on `logic`, its contactor on the logic. */
const keyless = (logic: string) =>
  drawing()
    .parts("battery-block", BLOCK, "G1", "G2")
    .part("S3", "switch")
    .part("S4", "switch")
    .part("Q1", "contactor", { coilVoltage: "24 V", coilPower: "12 W" })
    .part("P1", "lamp", { voltage: "24 V", power: "10 W" })
    .part("T1", "dc-controller", { logicFeed: "pack-fed", currentContinuous: "50 A", contactorDriver: "low-side" })
    .part("R1", "resistor", { resistance: "220 ohm" })
    .wires(POWER, "G1:+ - G2:-", "G2:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "G2:+ - S3:common", "G2:+ - S4:common", "S4:out - P1:+")
    .wires(SMALL, "P1:- - G1:-", `${logic} - T1:logic+`, "T1:logic+ - Q1:coil+", "Q1:coil- - T1:contactor-out");

checkTable(enableBypassesKey, {
  fails: [
    {
      name: "a kart whose logic hangs on the constant lead",
      drawing: kart("F2:2").build(),
      at: "T1:logic+",
      message: "enabled",
      severity: "DANGER",
      remedies: ["behind-key"],
    },
    {
      name: "12 V logic ahead of the key, the contactor behind it",
      drawing: bare().wire("F9:2", "T1:logic+", SMALL).build(),
      at: "T1:logic+",
      message: "awake",
      severity: "DANGER",
      remedies: ["behind-key"],
    },
    {
      name: "coil of the main contactor ahead of the key",
      drawing: boat("F9:2").build(),
      at: "Q1",
      message: "contactor",
      severity: "DANGER",
      remedies: ["behind-key"],
    },
    {
      name: "the brake lamp pulls the main contactor in",
      drawing: lampFeeds().build(),
      at: "Q1",
      message: "contactor",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a toggle switch instead of a key, bypassed",
      drawing: keyless("G2:+").build(),
      at: "T1:logic+",
      message: "enabled",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "logic and coil behind the key", drawing: cart().build(), at: "T1:B+" },
    { name: "a toggle switch in front of everything", drawing: keyless("S3:out").build(), at: "T1:B+" },
    { name: "kart behind the key", drawing: kart("S1:ignition").build(), at: "T1:B+" },
    {
      name: "logic always fed, its interlock behind the key",
      drawing: bare().wires(SMALL, "F9:2 - T1:logic+", "S1:ignition - T1:interlock").build(),
      at: "T1:B+",
    },
    { name: "two boxes with an interlock loop", drawing: twoBoxes().build(), at: "T1:B+" },
    { name: "rear contactor that the charge flap closes too", drawing: splitPack().build(), at: "T1:B+" },
    { name: "two cuts behind the pedal", drawing: twoCuts().build(), at: "T1:B+" },
    { name: "an inverter that closes its own contactor", drawing: inverter320().build(), at: "T1:B+" },
    { name: "a step car on contactors", drawing: stepCar().build(), at: "M1:A1" },
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
      reason: "never",
      missing: ["T1.contactorDriver"],
    },
  ],
  doesNotApply: [
    { name: "no drive", drawing: supplies(2).build() },
    {
      name: "nothing to switch off",
      drawing: drawing()
        .parts("battery-block", BLOCK, "G1", "G2")
        .part("T1", "dc-controller", { logicFeed: "pack-fed", currentContinuous: "50 A" })
        .wires(POWER, "G1:+ - G2:-", "G2:+ - T1:B+", "T1:B- - G1:-", "G2:+ - T1:logic+")
        .build(),
    },
  ],
});
