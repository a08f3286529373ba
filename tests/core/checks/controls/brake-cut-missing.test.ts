import { brakeCutMissing } from "../../../../core/checks/controls/brake-cut-missing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL, supplies } from "../switching/vehicle.ts";
import { boat } from "./vehicle.ts";

const braked = (side: string, pin: string, actuator: Readonly<Record<string, string>> = { actuator: "brake-pedal" }) =>
  cart().part("S6", "micro-switch", actuator).wires(SMALL, "S1:ignition - S6:common", `S6:${side} - T1:${pin}`);

checkTable(brakeCutMissing, {
  fails: [
    { name: "no brake contact", drawing: cart().build(), at: "T1:B+", message: "missing", severity: "NOTICE" },
    {
      name: "a brake contact for the lamp alone",
      drawing: cart()
        .part("S6", "micro-switch", { actuator: "brake-pedal" })
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(SMALL, "F9:2 - S6:common", "S6:no - P1:+", "P1:- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "the interlock on a parking-brake contact",
      drawing: braked("nc", "interlock", { actuator: "parking-brake" }).build(),
      at: "T1:B+",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "a boat without any brake",
      drawing: boat().build(),
      at: "M1:+",
      message: "missing",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "break contact in the interlock", drawing: braked("nc", "interlock").build(), at: "T1:B+" },
    { name: "make contact on the brake input", drawing: braked("no", "brake").build(), at: "T1:B+" },
    {
      name: "break contact in the coil's feed",
      drawing: boat(null)
        .part("S6", "micro-switch", { actuator: "brake-pedal" })
        .wires(SMALL, "S1:ignition - S6:common", "S6:nc - Q1:coil+")
        .build(),
      at: "M1:+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what moves the contact",
      drawing: braked("nc", "interlock", {}).build(),
      at: "T1:B+",
      reason: "actuator",
      missing: ["S6.actuator"],
    },
    {
      name: "the same on the make contact: it never drives",
      drawing: braked("no", "interlock", {}).build(),
      at: "T1:B+",
      reason: "never",
      missing: ["S6.actuator"],
    },
  ],
  doesNotApply: [{ name: "no drive", drawing: supplies(2).build() }],
});
