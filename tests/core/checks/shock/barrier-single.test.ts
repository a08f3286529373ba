import { barrierSingle } from "../../../../core/checks/shock/barrier-single.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL } from "../pack.ts";

/** A 12 V battery whose fuse stands this voltage. */
const twelve = (sketch: ReturnType<typeof pack>, voltageDc: string | undefined) =>
  sketch
    .part("G200", "battery-block", {
      duty: "auxiliary",
      chemistry: "flooded-lead",
      capacity: "60 Ah",
      resistance: "6 mohm",
    })
    .part("X1", "chassis-point", { structure: "body" })
    .part("F20", "fuse", { rating: "15 A", ...(voltageDc === undefined ? {} : { voltageDc }) })
    .part("P9", "lamp", { voltage: "12 V", power: "21 W" })
    .wires(SMALL, "G200:- - X1:stud", "G200:+ - F20:1", "F20:2 - P9:+", "P9:- - X1:stud");

/** A converter from the pack onto the 12 V battery, its input fused. */
const converter = (voltageDc: string | undefined, blocks = 8, isolated = "yes", more: Parameters = {}) =>
  twelve(pack(blocks, more), voltageDc)
    .part("F2", "fuse", { rating: "5 A", voltageDc: "500 V" })
    .part("T2", "dc-dc-converter", { isolated, outputVoltage: "13.8 V", outputCurrentMax: "30 A", inputMin: "30 V" })
    .wires(SMALL, `G${blocks}:+ - F2:1`, "F2:2 - T2:in+", "T2:in- - G1:-", "T2:out+ - F20:1", "T2:out- - X1:stud");

const port = (serialIsolated: string) =>
  twelve(pack(8), "32 V")
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", serialIsolated })
    .part("P1", "display", { isolated: "no" })
    .wires(HEAVY, "G8:+ - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "T1:serial-ground - P1:serial-ground", "T1:serial-tx - P1:serial-rx")
    .wires(SMALL, "F20:2 - P1:supply+", "P1:supply- - X1:stud");

const charger = () =>
  twelve(pack(8), "32 V")
    .part("T3", "charger", { mainsPlug: "yes", isolated: "yes", outputVoltageMax: "118 V", outputCurrentMax: "10 A" })
    .wires(HEAVY, "G8:+ - T3:out+", "T3:out- - G1:-")
    .wires(SMALL, "T3:aux+ - F20:2", "T3:aux- - X1:stud");

checkTable(barrierSingle, {
  fails: [
    {
      name: "an isolated converter from 403 V onto a 12 V side with 32 V fuses",
      drawing: converter("32 V", 27).build(),
      at: "T2:out+",
      message: "single",
      severity: "NOTICE",
      // 2.47 V x 6 x 27 on charge.
      value: 400.14,
      limit: 32,
    },
    {
      name: "an isolated serial port at 96 V",
      drawing: port("yes").build(),
      at: "T1:serial-ground",
      message: "single",
      severity: "NOTICE",
    },
    {
      name: "a charger's 12 V output",
      drawing: charger().build(),
      at: "T3:aux+",
      message: "single",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "fuses for 125 V on the 12 V side", drawing: converter("125 V").build(), at: "T2:out+" },
    { name: "fuses for 80 V on the 12 V side of 48 V", drawing: converter("80 V", 4).build(), at: "T2:out+" },
    {
      name: "a suppressor across the converter's output",
      drawing: converter("32 V")
        .part("F9", "suppressor", { type: "zener", clampVoltage: "20 V" })
        .wires(SMALL, "T2:out+ - F9:1", "F9:2 - T2:out-")
        .build(),
      at: "T2:out+",
    },
  ],
  notChecked: [
    {
      name: "fuses of unstated voltage",
      drawing: converter(undefined).build(),
      at: "T2:out+",
      reason: "rating",
      missing: ["F20.voltageDc"],
    },
    {
      name: "fuses for 58 V on a 48 V pack of unstated chemistry",
      drawing: converter("58 V", 4, "yes", { chemistry: null }).build(),
      at: "T2:out+",
      reason: "chemistry",
      missing: ["G1.chemistry", "G2.chemistry", "G3.chemistry", "G4.chemistry"],
    },
  ],
  doesNotApply: [
    { name: "a converter without any barrier", drawing: converter("32 V", 8, "no").build() },
    { name: "no traction circuit", drawing: twelve(drawing(), "32 V").build() },
  ],
});
