import { meterUnfed } from "../../../../core/checks/charging/meter-unfed.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";
import { CHARGER } from "./vehicle.ts";

/** Drive and charger behind a shunt with its gauge, whose supply the test draws; `charger` is where its minus goes. */
const counted = (charger = "B1:load") =>
  supplies(8)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", COIL)
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none", currentContinuous: "100 A" })
    .part("B1", "shunt", { ratedCurrent: "300 A" })
    .part("P1", "gauge", { isolated: "yes" })
    .part("T3", "charger", CHARGER)
    .wires(POWER, "G8:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - B1:load", "B1:line - G1:-")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud")
    .wires(SMALL, "P1:sense+ - B1:sense-line", "P1:sense- - B1:sense-load", "P1:supply- - X9:stud")
    .wires(SMALL, "F1:2 - T3:out+", `T3:out- - ${charger}`);

/** A gauge of the pack's voltage behind a contact. */
const behind = (contact: Readonly<Record<string, string>>) =>
  cart()
    .part("S3", "micro-switch", contact)
    .part("P1", "gauge", { isolated: "yes" })
    .wires(SMALL, "S1:ignition - S3:common", "S3:no - P1:supply+", "P1:supply- - X9:stud");

checkTable(meterUnfed, {
  fails: [
    {
      name: "gauge of a shunt on the key",
      drawing: counted().wire("S1:ignition", "P1:supply+", SMALL).build(),
      at: "P1:supply+",
      message: "charge",
      severity: "NOTICE",
    },
    {
      name: "gauge of a shunt behind the main contactor's auxiliary contact",
      drawing: counted()
        .part("K4", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .wires(SMALL, "S1:ignition - K4:coil+", "K4:coil- - X9:stud", "F9:2 - K4:common", "K4:no - P1:supply+")
        .build(),
      at: "P1:supply+",
      message: "charge",
      severity: "NOTICE",
    },
    {
      name: "gauge behind the throttle pedal's contact",
      drawing: behind({ actuator: "throttle-pedal" }).build(),
      at: "P1:supply+",
      message: "still",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "gauge of a shunt straight on the battery", drawing: counted().wire("F9:2", "P1:supply+", SMALL).build() },
    {
      name: "gauge of a shunt on the key and on the charge flap",
      drawing: counted()
        .part("S4", "micro-switch", { actuator: "charge-flap" })
        .wires(SMALL, "S1:ignition - P1:supply+", "F9:2 - S4:common", "S4:no - P1:supply+")
        .build(),
      at: "P1:supply+",
    },
    {
      name: "gauge on the key of a shunt that the charger does not pass",
      drawing: counted("G1:-").wire("S1:ignition", "P1:supply+", SMALL).build(),
      at: "P1:supply+",
    },
    {
      name: "gauge of the pack's voltage on the key",
      drawing: cart()
        .part("P1", "gauge", { isolated: "yes" })
        .wires(SMALL, "S1:ignition - P1:supply+", "P1:supply- - X9:stud")
        .build(),
      at: "P1:supply+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what moves a contact that feeds it while charging",
      drawing: counted()
        .part("S4", "micro-switch")
        .wires(SMALL, "S1:ignition - P1:supply+", "F9:2 - S4:common", "S4:no - P1:supply+")
        .build(),
      at: "P1:supply+",
      reason: "undecided",
      missing: ["S4.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no gauge", drawing: cart().build() },
    { name: "a gauge that nothing feeds", drawing: cart().part("P1", "gauge", { isolated: "yes" }).build() },
  ],
});
