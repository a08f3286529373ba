import { chargerMismatch } from "../../../../core/checks/voltages/charger-mismatch.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

const charged = (charger: Parameters, block: Parameters = {}) =>
  pack(8, block)
    .part("F3", "fuse", { rating: "30 A" })
    .part("Q9", "manual-disconnect")
    .part("T3", "charger", { mainsPlug: "yes", isolated: "yes", outputCurrentMax: "15 A", ...charger })
    .wires(HEAVY, "G8:+ - Q9:line")
    .wires(SMALL, "Q9:load - F3:1", "F3:2 - T3:out+", "T3:out- - G1:-")
    .build();
const lead = (volts: string) => ({ chemistry: "flooded-lead", outputVoltageMax: volts });

checkTable(chargerMismatch, {
  fails: [
    {
      name: "a charger for ten blocks on eight",
      drawing: charged(lead("148 V")),
      at: "T3",
      message: "high",
      severity: "DANGER",
      // 2.67 V x 48: even while equalising.
      limit: 128.16,
      value: 148,
    },
    {
      name: "a charger for six blocks on eight",
      drawing: charged(lead("88 V")),
      at: "T3",
      message: "low",
      severity: "DANGER",
      limit: 96,
    },
    {
      name: "a lead-acid charger on iron phosphate of the same voltage",
      drawing: charged(lead("116.8 V"), { chemistry: "lifepo4", cells: "4" }),
      at: "T3",
      message: "chemistry",
      severity: "DANGER",
    },
    {
      name: "a charger for lithium of another kind",
      drawing: charged({ chemistry: "nmc", outputVoltageMax: "117.6 V" }, { chemistry: "lifepo4", cells: "4" }),
      at: "T3",
      message: "chemistry",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "eight lead blocks at 14.4 V each", drawing: charged(lead("115.2 V")), at: "T3" },
    {
      name: "iron phosphate at 3.65 V a cell",
      drawing: charged({ chemistry: "lifepo4", outputVoltageMax: "116.8 V" }, { chemistry: "lifepo4", cells: "4" }),
      at: "T3",
    },
    {
      name: "cells of nickel, manganese, cobalt charged to less than full on purpose",
      drawing: charged({ chemistry: "nmc", outputVoltageMax: "98.4 V" }, { chemistry: "nmc", cells: "3" }),
      at: "T3",
    },
    {
      name: "a small charger that keeps the 12 V battery",
      drawing: withTwelveVolts(pack(1))
        .part("T4", "charger", { mainsPlug: "yes", chemistry: "agm-lead", outputVoltageMax: "13.8 V" })
        .wires(SMALL, "F20:2 - T4:out+", "T4:out- - X1:stud")
        .build(),
      at: "T4",
    },
  ],
  notChecked: [
    {
      name: "a charger of unstated voltage",
      drawing: charged({ chemistry: "flooded-lead" }),
      at: "T3",
      reason: "unstated",
      missing: ["T3.outputVoltageMax"],
    },
    {
      name: "a charger of unstated chemistry",
      drawing: charged({ outputVoltageMax: "115.2 V" }),
      at: "T3",
      reason: "unstated",
      missing: ["T3.chemistry"],
    },
  ],
  doesNotApply: [
    { name: "a charger that charges nothing", drawing: pack(2).part("T3", "charger", { mainsPlug: "yes" }).build() },
  ],
});
