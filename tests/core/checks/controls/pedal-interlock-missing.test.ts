import { pedalInterlockMissing } from "../../../../core/checks/controls/pedal-interlock-missing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { twoCuts } from "../known-good.ts";
import { cart, SMALL, stepCar, supplies } from "../switching/vehicle.ts";
import { boat } from "./vehicle.ts";

const pedal = (from: string, side: string, actuator: Readonly<Record<string, string>>) =>
  cart().part("S3", "micro-switch", actuator).wires(SMALL, `S1:ignition - S3:${from}`, `S3:${side} - T1:interlock`);

const ofThrottle = { actuator: "throttle-pedal" };

checkTable(pedalInterlockMissing, {
  fails: [
    { name: "no pedal contact at all", drawing: cart().build(), at: "T1:B+", message: "missing", severity: "NOTICE" },
    {
      name: "a pedal contact that only lights a lamp",
      drawing: cart()
        .part("S3", "micro-switch", ofThrottle)
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "S1:ignition - S3:common", "S3:no - P1:+", "P1:- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "a pedal contact bridged by a wire",
      drawing: pedal("common", "no", ofThrottle).wire("S3:common", "T1:interlock", SMALL).build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "the interlock on a seat contact instead",
      drawing: pedal("common", "no", { actuator: "seat" }).build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "a boat on a contactor that follows the key alone",
      drawing: boat().build(),
      at: "M1:+",
      message: "missing",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "pedal contact in the interlock", drawing: pedal("common", "no", ofThrottle).build(), at: "T1:B+" },
    { name: "pedal contact in the coil and the logic's feed", drawing: twoCuts().build(), at: "T1:B+" },
    { name: "pedal contact in the coil of the motor's contactor", drawing: stepCar().build(), at: "M1:A1" },
  ],
  notChecked: [
    {
      name: "nobody says what moves the contact",
      drawing: pedal("common", "nc", {}).build(),
      at: "T1:B+",
      reason: "actuator",
      missing: ["S3.actuator"],
    },
    {
      name: "nobody says how the controller drives its contactor",
      drawing: cart({ stop: false, controller: { contactorDriver: "none" } })
        .part("S3", "micro-switch", {})
        .part("Q2", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .wire("Q1:load", "Q2:line", SMALL)
        .wires(SMALL, "S1:ignition - S3:common", "S3:no - T1:interlock")
        .build(),
      at: "T1:B+",
      reason: "never",
      missing: ["S3.actuator"],
    },
  ],
  doesNotApply: [{ name: "no drive", drawing: supplies(2).build() }],
});
