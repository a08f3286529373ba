import { prechargeStaysIn } from "../../../../core/checks/precharge/precharge-stays-in.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { cart, SMALL } from "../switching/vehicle.ts";
import { always, byController, onKey, timed } from "./precharged.ts";

const SMALL_ONE = { resistance: "30 ohm", power: "10 W" } as const;

/** A heater behind the main contactor, which goes on drawing when that has failed open. */
const heated = (sketch: Drawing): Drawing =>
  sketch.part("E1", "heater", { voltage: "96 V", power: "1.5 kW" }).wires(SMALL, "Q1:load - E1:+", "E1:- - T1:B-");

checkTable(prechargeStaysIn, {
  fails: [
    {
      name: "relay on the key, resistor that stands little, heater behind it",
      drawing: heated(onKey(SMALL_ONE)).build(),
      at: "R1",
      message: "burns",
      severity: "WARNING",
      limit: 10,
    },
    {
      name: "relay on the key, resistor that stands it for good",
      drawing: heated(onKey({ resistance: "1 kohm", power: "50 W" })).build(),
      at: "R1",
      message: "stays",
      severity: "NOTICE",
    },
    {
      name: "relay on the key behind a fuse that would open",
      drawing: heated(onKey(SMALL_ONE, "500 mA")).build(),
      at: "R1",
      message: "stays",
      severity: "NOTICE",
    },
    {
      name: "relay that the main contactor's auxiliary contact holds in",
      drawing: timed({ resistance: "500 ohm", power: "50 W" })
        .part("S6", "push-button", { contact: "make" })
        .wires(SMALL, "Q1:line - K1:common", "S1:ignition - S6:1", "S6:2 - K1:coil+", "K1:coil- - X9:stud")
        .wires(SMALL, "S1:ignition - Q1:aux-1", "Q1:aux-2 - K1:coil+")
        .build(),
      at: "R1",
      message: "stays",
      severity: "NOTICE",
    },
  ],
  passes: [
    {
      name: "the timer's break contact ends it",
      drawing: timed(SMALL_ONE).wires(SMALL, "Q1:line - K1:common", "K2:nc - K1:coil+", "K1:coil- - X9:stud").build(),
      at: "R1",
    },
    {
      name: "controller that lets its pre-charge relay go",
      drawing: byController({ resistance: "100 ohm", power: "50 W" }).build(),
      at: "R1",
    },
    {
      name: "relay on a button that is let go",
      drawing: timed(SMALL_ONE)
        .part("S6", "push-button", { contact: "make" })
        .wires(SMALL, "Q1:line - K1:common", "S1:ignition - S6:1", "S6:2 - K1:coil+", "K1:coil- - X9:stud")
        .build(),
      at: "R1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the resistor stands",
      drawing: onKey({ resistance: "100 ohm" }).build(),
      at: "R1",
      reason: "rating",
      missing: ["R1.power"],
    },
  ],
  doesNotApply: [
    { name: "no pre-charge", drawing: cart().build() },
    {
      name: "a resistor without a contact of its own",
      drawing: always({ resistance: "1 kohm", power: "20 W" }).build(),
    },
  ],
});
