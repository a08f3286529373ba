import { limitsUnstated } from "../../../../core/checks/drawing/limits-unstated.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

const COIL = { coilVoltage: "12 V", pickUp: "66 %", dropOut: "10 %" };

checkTable(limitsUnstated, {
  fails: [
    {
      name: "twelve blocks without a number of cells are told together",
      drawing: drawing()
        .parts("battery-block", { chemistry: "agm-lead" }, ...Array.from({ length: 12 }, (_, block) => `G${block + 1}`))
        .build(),
      at: "G1",
      message: "assumed",
      severity: "NOTICE",
    },
    {
      name: "pick-up and drop-out of a relay, pick-up alone of another",
      drawing: drawing()
        .part("K1", "relay", { coilVoltage: "12 V" })
        .part("K2", "relay", { coilVoltage: "12 V", dropOut: "12 %" })
        .build(),
      at: ["K1", "K2"],
      message: "assumed",
      severity: "NOTICE",
    },
    {
      name: "a converter's output voltage",
      drawing: drawing().part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "30 A" }).build(),
      at: "T2",
      message: "assumed",
      severity: "NOTICE",
    },
    {
      name: "a throttle",
      drawing: drawing().part("B1", "throttle-two-wire", { resistanceIdle: "0 ohm" }).build(),
      at: "B1",
      message: "assumed",
      severity: "NOTICE",
    },
  ],
  passes: [
    {
      name: "a block with its cells",
      drawing: drawing().part("G1", "battery-block", { chemistry: "agm-lead", cells: "6" }).build(),
      at: "G1",
    },
    { name: "a relay with its coil's data", drawing: drawing().part("K1", "relay", COIL).build(), at: "K1" },
    {
      name: "contact ratings of a switch",
      drawing: drawing().part("S1", "switch", { contactVoltage: "24 V", contactCurrent: "10 A" }).build(),
      at: "S1",
    },
  ],
  doesNotApply: [
    { name: "ratings that have no usual figure", drawing: drawing().part("F1", "fuse").part("S1", "switch").build() },
    { name: "a rating known to be unknown", drawing: drawing().part("G1", "battery-block", { cells: null }).build() },
  ],
});
