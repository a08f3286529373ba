import { converterOverloaded } from "../../../../core/checks/charging/converter-overloaded.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { cart, SMALL, supplies } from "../switching/vehicle.ts";
import { lampAt, withConverter } from "./twelve-volt.ts";

/** A pump of 9.5 A and lamps of 10 A together, as in a small car whose converter burnt out. */
const loaded = (converter: Readonly<Record<string, string>> = {}): Drawing =>
  lampAt(
    lampAt(
      withConverter("Q1:load", converter)
        .part("M2", "pump", { voltage: "13.8 V", power: "131 W" })
        .wires(SMALL, "F4:2 - M2:+", "M2:- - X9:stud"),
      "P1",
      "F4:2",
      "60 W",
    ),
    "P2",
    "F4:2",
    "60 W",
  );

/** A lone converter of 48 V with lamps and no 12 V battery. */
const alone = (power: string) =>
  supplies(4)
    .part("F5", "fuse", { rating: "20 A" })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none" })
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "5 A", enableInput: "none" })
    .part("P1", "lamp", { voltage: "12 V", power, needsPolarity: "no" })
    .wires(SMALL, "G4:+ - F5:1", "F5:2 - T2:in+", "T2:in- - G1:-", "T2:out+ - P1:+", "P1:- - T2:out-")
    .wires(SMALL, "G4:+ - T1:B+", "T1:B- - G1:-");

checkTable(converterOverloaded, {
  fails: [
    {
      name: "pump, lamps and contactor on a converter of 15 A",
      drawing: loaded().build(),
      at: "T2",
      message: "battery",
      severity: "WARNING",
      limit: 15,
    },
    {
      name: "two converters side by side that are too small together",
      drawing: loaded({ outputCurrentMax: "8 A" })
        .part("T4", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "6 A", enableInput: "none" })
        .wires(SMALL, "Q1:load - T4:in+", "T4:in- - T1:B-", "T4:out+ - F4:1", "T4:out- - X9:stud")
        .build(),
      at: "T2",
      message: "battery",
      severity: "WARNING",
      limit: 14,
    },
    {
      name: "nobody says how large the battery is",
      drawing: lampAt(
        withConverter("Q1:load", { outputCurrentMax: "2 A" })
          .part("G91", "battery-block", { chemistry: "flooded-lead", duty: "auxiliary" })
          .wires(SMALL, "G91:+ - F4:2", "G91:- - X9:stud"),
        "P1",
        "F4:2",
        "60 W",
      ).build(),
      at: "T2",
      message: "unknown",
      severity: "WARNING",
      limit: 2,
    },
    {
      name: "lamps on a converter of 5 A without a battery",
      drawing: alone("100 W").build(),
      at: "T2",
      message: "alone",
      severity: "WARNING",
      limit: 5,
    },
  ],
  passes: [
    { name: "a converter of 30 A", drawing: loaded({ outputCurrentMax: "30 A" }).build(), at: "T2" },
    { name: "a small lamp on a lone converter", drawing: alone("40 W").build(), at: "T2" },
    { name: "the contactor's coil alone", drawing: withConverter("Q1:load").build(), at: "T2" },
  ],
  notChecked: [
    {
      name: "nobody says what the converter can give",
      drawing: cart({ controller: { logicCurrent: "100 mA" } })
        .part("T2", "dc-dc-converter", { isolated: "yes", enableInput: "none" })
        .wires(SMALL, "Q1:load - T2:in+", "T2:in- - T1:B-", "T2:out+ - G90:+", "T2:out- - X9:stud")
        .build(),
      at: "T2",
      reason: "limit",
      missing: ["T2.outputCurrentMax"],
    },
    {
      name: "nobody says what the pump draws",
      drawing: withConverter("Q1:load")
        .part("M2", "pump", { voltage: "12 V" })
        .wires(SMALL, "F4:2 - M2:+", "M2:- - X9:stud")
        .build(),
      at: "T2",
      reason: "loads",
      missing: ["M2.power"],
    },
  ],
  doesNotApply: [{ name: "no converter", drawing: cart().build() }],
});
