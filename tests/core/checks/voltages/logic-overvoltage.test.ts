import { logicOvervoltage } from "../../../../core/checks/voltages/logic-overvoltage.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

/** Twelve lead blocks: 2.47 V x 72 = 177.84 V on charge. The logic of T1 is fed as the test says. */
function cart(controller: Parameters) {
  return withTwelveVolts(pack(12))
    .part("S1", "key-switch")
    .part("F2", "fuse", { rating: "5 A" })
    .part("T1", "dc-controller", { currentContinuous: "100 A", ...controller })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "100 A" })
    .wires(HEAVY, "G12:+ - T1:B+", "T1:B- - G1:-", "T1:B+ - M1:+", "M1:- - T1:M-");
}
const TWELVE = { logicFeed: "isolated-12v" };
const fromPack = ["G12:+ - F2:1", "F2:2 - S1:battery", "S1:ignition - T1:logic+"];

checkTable(logicOvervoltage, {
  fails: [
    {
      name: "12 V-fed logic on the pack's plus, its return on the chassis: nothing flows yet",
      drawing: cart(TWELVE)
        .wires(SMALL, ...fromPack, "T1:logic- - X1:stud")
        .build(),
      at: "T1:logic+",
      message: "logic",
      severity: "DANGER",
      value: 177.84,
      limit: 16,
    },
    {
      name: "12 V-fed logic with both its wires on the pack",
      drawing: cart({ ...TWELVE, logicMax: "30 V" })
        .wires(SMALL, ...fromPack, "T1:logic- - G1:-")
        .build(),
      at: "T1:logic+",
      message: "logic",
      severity: "DANGER",
      value: 177.84,
      limit: 30,
    },
    {
      name: "logic shared with the pack's minus, fed from its plus",
      drawing: cart({ logicFeed: "shared-12v" })
        .wires(SMALL, ...fromPack, "T1:logic- - G1:-")
        .build(),
      at: "T1:logic+",
      message: "logic",
      severity: "DANGER",
    },
    {
      name: "only the direction switch takes its feed from the pack",
      drawing: cart(TWELVE)
        .part("S3", "selector-switch")
        .wires(
          SMALL,
          "F20:2 - T1:logic+",
          "T1:logic- - X1:stud",
          "G12:+ - F2:1",
          "F2:2 - S3:common",
          "S3:a - T1:forward",
        )
        .build(),
      at: "T1:forward",
      message: "logic",
      severity: "DANGER",
    },
    {
      name: "a contactor's coil fed from the pack and sunk by the 12 V-fed controller",
      drawing: cart({ ...TWELVE, contactorDriver: "low-side" })
        .part("Q1", "contactor", { coilVoltage: "144 V", coilPower: "12 W" })
        .wires(
          SMALL,
          "F20:2 - T1:logic+",
          "T1:logic- - X1:stud",
          "G12:+ - F2:1",
          "F2:2 - Q1:coil+",
          "Q1:coil- - T1:contactor-out",
        )
        .build(),
      at: "T1:contactor-out",
      message: "logic",
      severity: "DANGER",
    },
    {
      name: "a 12 V pump between the pack's minus and the 12 V plus",
      drawing: withTwelveVolts(pack(12))
        .part("S4", "switch")
        .part("M4", "pump", { voltage: "12 V", power: "60 W", voltageMax: "16 V" })
        .wires(SMALL, "F20:2 - S4:common", "S4:out - M4:+", "M4:- - G1:-")
        .build(),
      at: "M4:+",
      message: "supply",
      severity: "DANGER",
      value: 177.84,
      limit: 16,
    },
  ].map((c) => ({ ...c, message: c.message, severity: "DANGER" as const })),
  passes: [
    {
      name: "12 V-fed logic on the 12 V battery",
      drawing: cart(TWELVE)
        .wires(SMALL, "F20:2 - S1:battery", "S1:ignition - T1:logic+", "T1:logic- - X1:stud")
        .build(),
      at: "T1:logic+",
    },
    {
      name: "12 V-fed logic and a pack-sense lead, which is made for the pack",
      drawing: cart({ ...TWELVE, packSense: "source-side" })
        .wires(SMALL, "F20:2 - T1:logic+", "T1:logic- - X1:stud", "G12:+ - F2:1", "F2:2 - T1:pack-sense")
        .build(),
      at: "T1:logic+",
    },
    {
      name: "12 V-fed logic whose return meets the pack's minus on the chassis, a throttle on its pins",
      drawing: cart({ ...TWELVE, throttleInput: "resistance-rising" })
        .part("B2", "throttle-two-wire")
        .wires(SMALL, "F20:2 - T1:logic+", "T1:logic- - X1:stud", "G1:- - X1:stud")
        .wires(SMALL, "B2:1 - T1:throttle-1", "B2:2 - T1:throttle-2")
        .build(),
      at: "T1:logic+",
    },
    {
      name: "a 12 V lamp whose return fell off, the pack's minus on the chassis",
      drawing: withTwelveVolts(pack(12))
        .part("P1", "lamp", { voltage: "12 V", voltageMax: "16 V", power: "21 W" })
        .wires(SMALL, "G1:- - X1:stud", "F20:2 - P1:+")
        .wire("P1:-", null, SMALL)
        .build(),
      at: "P1:+",
    },
    {
      name: "a 12 V pump on the 12 V battery",
      drawing: withTwelveVolts(pack(12))
        .part("M4", "pump", { voltage: "12 V", power: "60 W", voltageMax: "16 V" })
        .wires(SMALL, "F20:2 - M4:+", "M4:- - X1:stud")
        .build(),
      at: "M4:+",
    },
    {
      name: "logic from an isolated converter that feeds nothing else",
      drawing: cart(TWELVE)
        .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "10 A" })
        .wires(SMALL, "G12:+ - T2:in+", "T2:in- - G1:-", "T2:out+ - T1:logic+", "T2:out- - T1:logic-")
        .build(),
      at: "T1:logic+",
    },
  ],
  notChecked: [
    {
      name: "nobody said what feeds the logic",
      drawing: cart({})
        .wires(SMALL, ...fromPack)
        .build(),
      at: "T1:logic+",
      reason: "feed",
      missing: ["T1.logicFeed"],
    },
    {
      name: "a lamp of unstated rating between the pack's plus and the chassis",
      drawing: withTwelveVolts(pack(12))
        .part("S4", "switch")
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "F20:2 - S4:common", "S4:out - P1:+", "P1:- - G1:-")
        .build(),
      at: "P1:+",
      reason: "rating",
      missing: ["P1.voltageMax"],
    },
  ],
  doesNotApply: [
    {
      name: "pack-fed logic, which takes the pack's voltage",
      drawing: pack(12)
        .part("T1", "dc-controller", { logicFeed: "pack-fed", logicMax: "200 V" })
        .wires(HEAVY, "G12:+ - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "G12:+ - T1:logic+")
        .build(),
    },
  ],
});
