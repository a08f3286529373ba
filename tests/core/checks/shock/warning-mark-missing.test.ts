import { warningMarkMissing } from "../../../../core/checks/shock/warning-mark-missing.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { HEAVY, SMALL } from "../pack.ts";

const PACK = { duty: "traction", chemistry: "lifepo4", cells: "4", resistance: "40 mohm" };

/** A pack in a battery box and a heater behind a contactor in a drive box, each with its sign or without. */
const boxes = (
  battery: boolean | null | undefined,
  drive: boolean | null | undefined,
  blocks = "8",
  more: Parameters = {},
) =>
  drawing()
    .zone("engine")
    .zone("underfloor")
    .enclosure("battery box", { toolClosed: true, ...(battery === undefined ? {} : { voltageSign: battery }) })
    .enclosure("drive box", {
      zone: "engine",
      toolClosed: true,
      ...(drive === undefined ? {} : { voltageSign: drive }),
    })
    .enclosure("tray", { zone: "underfloor", voltageSign: false })
    .part("G1", "battery-pack", { ...PACK, blocks, ...more }, { enclosure: "battery box" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" }, { enclosure: "drive box" })
    .part("E1", "heater", { voltage: "100 V", power: "1 kW" })
    .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-");

checkTable(warningMarkMissing, {
  fails: [
    {
      name: "no sign on the battery box",
      drawing: boxes(false, true).build(),
      at: "G1",
      message: "missing",
      severity: "NOTICE",
      remedies: ["add-sign"],
    },
    {
      name: "no sign on the drive box, behind an open contactor",
      drawing: boxes(true, false).build(),
      at: "Q1",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "no sign anywhere",
      drawing: boxes(false, false).build(),
      at: ["G1", "Q1"],
      message: "missing",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "a sign on both", drawing: boxes(true, true).build(), at: ["G1", "Q1"] },
    { name: "a sign on both at 350 V", drawing: boxes(true, true, "24").build(), at: ["G1", "Q1"] },
    {
      name: "a tray under the floor needs none",
      drawing: boxes(true, true)
        .part("F1", "fuse", { rating: "10 A" }, { enclosure: "tray" })
        .part("E2", "heater", { voltage: "100 V", power: "1 kW" })
        .wires(SMALL, "G1:+ - F1:1", "F1:2 - E2:+", "E2:- - G1:-")
        .build(),
      at: ["G1", "Q1"],
    },
  ],
  notChecked: [
    {
      name: "a box of which nobody said whether it carries a sign",
      drawing: boxes(undefined, null).build(),
      at: ["G1", "Q1"],
      reason: "sign",
      missing: ["battery box.voltageSign", "drive box.voltageSign"],
    },
    {
      name: "a box without sign on a pack of unstated chemistry",
      drawing: boxes(false, true, "4", { chemistry: null }).build(),
      at: "G1",
      reason: "voltage",
      missing: ["G1.chemistry"],
    },
  ],
  doesNotApply: [
    { name: "no sign at 48 V", drawing: boxes(false, false, "4").build() },
    {
      name: "no enclosure",
      drawing: drawing()
        .part("G1", "battery-pack", { ...PACK, blocks: "8" })
        .build(),
    },
  ],
});
