/** A drive of the 320 V class in which nothing is wrong: what other drawings add one thing to. */
import type { Drawing } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

/** A known-good drive: disconnect, fuse, pre-charge, controller with isolated 12 V logic, everything stated. */
export function inverter(blocks: number, drive: Drawing): Drawing {
  return drive
    .part("Q9", "manual-disconnect")
    .part("F1", "fuse", { rating: "200 A" })
    .part("F2", "fuse", { rating: "5 A" })
    .part("S9", "emergency-stop")
    .part("S1", "key-switch")
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W", aux: "make" })
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("R1", "resistor", { resistance: "600 ohm", power: "50 W", pulseEnergy: "60 J", voltage: "500 V" })
    .part("T1", "ac-controller", {
      logicFeed: "isolated-12v",
      logicMin: "9 V",
      logicMax: "16 V",
      voltageMin: "200 V",
      voltageMax: "420 V",
      nominalMin: "300 V",
      currentContinuous: "150 A",
      inputCapacitance: "500 uF",
      contactorDriver: "low-side",
      prechargeThreshold: "90 %",
      prechargeTimeout: "3 s",
      regeneration: "yes",
      regenerationCutVoltage: "410 V",
      serialIsolated: "yes",
    })
    .part("M1", "motor-ac", { currentContinuous: "150 A", voltageMax: "420 V" })
    .part("B5", "throttle-two-wire")
    .wires(HEAVY, `G${blocks}:+ - Q9:line`, "Q9:load - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .wires(SMALL, "F1:2 - F2:1", "F2:2 - K1:common", "K1:no - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "F20:2 - S1:battery", "S1:ignition - S9:11", "S9:12 - K1:coil+", "S9:12 - Q1:coil+")
    .wires(SMALL, "K1:coil- - T1:precharge-out", "Q1:coil- - T1:contactor-out")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X1:stud", "B5:1 - T1:throttle-1", "B5:2 - T1:throttle-2")
    .wires(SMALL, "T1:case - X1:stud", "M1:case - X1:stud");
}

export const LITHIUM = { chemistry: "nmc", cells: "11", resistance: "10 mohm" };
/** 8 blocks of 11 cells: 369.6 V full; the 12 V side on the chassis at X1, behind F20. */
export const drive320 = () => inverter(8, withTwelveVolts(pack(8, LITHIUM)));
