import { standingDrain } from "../../../../core/checks/charging/standing-drain.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart, SMALL, supplies } from "../switching/vehicle.ts";
import { lampAt, withConverter } from "./twelve-volt.ts";

const DAY = 86400;

checkTable(standingDrain, {
  fails: [
    {
      name: "a load of 11 W always on a string of eight blocks",
      drawing: supplies(8)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none" })
        .part("E1", "load", { voltage: "101 V", power: "20 W" })
        .wires(SMALL, "G8:+ - T1:B+", "T1:B- - G1:-", "G8:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: "E1",
      message: "drain",
      severity: "NOTICE",
      // 50 Ah of 100 Ah at 20 W and 101 V: 0.198 A
      value: (50 / (20 / 101)) * 3600,
      limit: 30 * DAY,
    },
    {
      name: "two idle converters of 60 ohm each on a battery of 60 Ah",
      drawing: withConverter("Q1:load", { reverseLeakage: "200 mA" })
        .part("T4", "dc-dc-converter", {
          isolated: "yes",
          outputCurrentMax: "43 A",
          enableInput: "none",
          reverseLeakage: "200 mA",
        })
        .wires(SMALL, "Q1:load - T4:in+", "T4:in- - T1:B-", "T4:out+ - F4:1", "T4:out- - X9:stud")
        .build(),
      at: "T2",
      message: "drain",
      severity: "NOTICE",
      // 30 Ah at 400 mA, less what a rest voltage below 13.8 V takes off
      value: (30 / (0.4 * (12.63 / 13.8))) * 3600,
    },
    {
      name: "a lamp ahead of the key",
      drawing: lampAt(cart({ controller: { logicCurrent: "100 mA" } }), "P1", "F9:2", "5 W").build(),
      at: "P1",
      message: "drain",
      severity: "NOTICE",
    },
    {
      name: "a ring of four blocks",
      drawing: supplies(4).wire("G4:+", "G1:-", SMALL).build(),
      at: "G1",
      message: "unknown",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "everything behind key and contactor", drawing: withConverter("Q1:load").build(), at: ["G1", "G90"] },
    {
      name: "a meter of the pack for good",
      drawing: cart()
        .part("P5", "voltmeter", { rangeMax: "150 V", resistance: "1 Mohm" })
        .wires(SMALL, "F1:2 - P5:+", "P5:- - G1:-")
        .build(),
      at: "G1",
    },
    {
      name: "9 mA of a battery of 60 Ah",
      drawing: withConverter("Q1:load", { reverseLeakage: "9 mA" }).build(),
      at: "G90",
    },
  ],
  notChecked: [
    {
      name: "nobody says how large the battery is",
      drawing: lampAt(
        supplies(0)
          .part("G91", "battery-block", { chemistry: "flooded-lead", duty: "auxiliary" })
          .wires(SMALL, "G91:+ - G90:+", "G91:- - X9:stud"),
        "P1",
        "F9:2",
        "5 W",
      ).build(),
      at: "G90",
      reason: "capacity",
      missing: ["G91.capacity"],
    },
    {
      name: "nobody says what the idle converter draws back",
      drawing: cart({ blocks: 4 })
        .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "15 A", enableInput: "none" })
        .wires(SMALL, "Q1:load - T2:in+", "T2:in- - T1:B-", "T2:out+ - G90:+", "T2:out- - X9:stud")
        .build(),
      at: "G90",
      reason: "loads",
      missing: ["T2.reverseLeakage"],
    },
  ],
  doesNotApply: [
    {
      name: "no battery",
      drawing: drawing().part("P1", "lamp", { voltage: "12 V" }).build(),
    },
  ],
});
