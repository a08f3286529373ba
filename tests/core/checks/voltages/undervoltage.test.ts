import { undervoltage } from "../../../../core/checks/voltages/undervoltage.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

/** Eight lead blocks at 10 % of charge: 8 x 11.31 V = 90.5 V, less 200 A through 8 x 5 mohm = 8 V. */
function cart(controller: Parameters, block: Parameters = {}, cable: Readonly<Record<string, string>> = HEAVY) {
  return pack(8, block)
    .part("T1", "dc-controller", { logicFeed: "pack-fed", logicMin: "20 V", currentContinuous: "200 A", ...controller })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "200 A", resistance: "10 mohm" })
    .wire("G8:+", "T1:B+", cable)
    .wires(HEAVY, "T1:B- - G1:-", "T1:B+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "G8:+ - T1:logic+")
    .build();
}

const onTwelve = (least: string | null) =>
  withTwelveVolts(pack(1))
    .part("P1", "gauge", { isolated: "yes", supplyMin: least })
    .wires(SMALL, "F20:2 - P1:supply+", "P1:supply- - X1:stud")
    .build();

checkTable(undervoltage, {
  fails: [
    {
      name: "a controller that cuts out at 85 V",
      drawing: cart({ voltageMin: "85 V" }),
      at: "T1:B+",
      message: "pack",
      severity: "NOTICE",
      limit: 85,
    },
    {
      name: "a thin, long cable takes the rest",
      drawing: cart({ voltageMin: "81 V" }, {}, { size: "16 mm2", length: "8 m" }),
      at: "T1:B+",
      message: "pack",
      severity: "NOTICE",
      except: { contact: "the contacts drawn in have a resistance of their own" },
    },
    {
      name: "a gauge that needs 11 V on a 12 V battery that nothing holds up",
      drawing: onTwelve("11 V"),
      at: "P1:supply+",
      message: "auxiliary",
      severity: "NOTICE",
      value: 10.5,
    },
  ],
  passes: [
    { name: "a controller that works down to 60 V", drawing: cart({ voltageMin: "60 V" }), at: ["T1:B+", "T1:logic+"] },
    { name: "a gauge that works from 9 V", drawing: onTwelve("9 V"), at: "P1:supply+" },
    {
      name: "thicker cable",
      drawing: cart({ voltageMin: "81 V" }, {}, { size: "70 mm2", length: "2 m" }),
      at: "T1:B+",
    },
  ],
  notChecked: [
    {
      name: "nobody stated the least voltage",
      drawing: cart({}),
      at: "T1:B+",
      reason: "least",
      missing: ["T1.voltageMin"],
    },
    {
      name: "blocks of unstated chemistry",
      drawing: pack(1, { chemistry: null })
        .part("P1", "gauge", { isolated: "yes", supplyMin: "9 V" })
        .wires(SMALL, "G1:+ - P1:supply+", "P1:supply- - G1:-")
        .build(),
      at: "P1:supply+",
      reason: "chemistry",
      missing: ["G1.chemistry"],
    },
    {
      name: "too low only at the upper end of the batteries' resistance",
      drawing: cart({ voltageMin: "78 V" }, { resistance: null }),
      at: "T1:B+",
      reason: "range",
      missing: [
        "G1.resistance",
        "G2.resistance",
        "G3.resistance",
        "G4.resistance",
        "G5.resistance",
        "G6.resistance",
        "G7.resistance",
        "G8.resistance",
      ],
    },
    {
      name: "the main cable's length is unstated",
      drawing: cart({ voltageMin: "60 V" }, {}, { size: "35 mm2" }),
      at: "T1:B+",
      reason: "wires",
      missing: ["W8.length"],
    },
  ],
  doesNotApply: [
    {
      name: "a controller that is on no battery",
      drawing: pack(2).part("T1", "dc-controller", { voltageMin: "60 V" }).build(),
    },
  ],
});
