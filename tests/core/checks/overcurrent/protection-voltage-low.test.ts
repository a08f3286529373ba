/** 33 CFR 183.455(d): the device's voltage rating is not below the circuit's. Highest voltages by chemistry. */
import { protectionVoltageLow } from "../../../../core/checks/overcurrent/protection-voltage-low.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { cart, THICK, THIN } from "./cart.ts";

const string = (fuse: Parameters, battery: Parameters = {}): Drawing =>
  drawing()
    .part("G1", "battery-pack", { chemistry: "lifepo4", cells: "1", blocks: "24", duty: "traction", ...battery })
    .part("F1", "fuse", { rating: "100 A", ...fuse })
    .part("E1", "load", { voltage: "77 V", power: "500 W" })
    .wires(THICK, "G1:+ - F1:1", "F1:2 - E1:+", "E1:- - G1:-");

checkTable(protectionVoltageLow, {
  fails: [
    {
      name: "58 V on 24 cells of iron phosphate, charged 87.6 V",
      drawing: string({ voltageDc: "58 V" }).build(),
      at: "F1",
      message: "low",
      severity: "DANGER",
      remedies: ["higher-voltage"],
      value: 58,
      limit: 87.6,
    },
    {
      name: "an AC rating alone",
      drawing: string({ voltageAc: "500 V" }).build(),
      at: "F1",
      message: "acOnly",
      severity: "DANGER",
      remedies: ["higher-voltage"],
    },
    {
      name: "a blade fuse in the feed of a converter",
      drawing: cart({ parts: { F4: { voltageDc: "32 V" } } }).build(),
      at: "F4",
      message: "low",
      severity: "DANGER",
      remedies: ["higher-voltage"],
      value: 32,
    },
    {
      name: "the fuse inside a pack",
      drawing: string({ voltageDc: "100 V" }, { internalFuseRating: "150 A", internalFuseVoltage: "60 V" }).build(),
      at: "G1",
      message: "low",
      severity: "DANGER",
      remedies: [],
      value: 60,
    },
    {
      name: "a breaker behind a contact that no state closes",
      drawing: cart({
        more: (made) => {
          made
            .part("K9", "relay", { coilVoltage: "12 V" })
            .part("F9", "circuit-breaker", { rating: "10 A", voltageDc: "14 V" })
            .part("E9", "load", { voltage: "12 V", power: "10 W" })
            .wires(THIN, "F5:2 - F9:line", "F9:load - K9:common", "K9:no - E9:+", "E9:- - X1:stud");
        },
      }).build(),
      at: "F9",
      message: "low",
      severity: "DANGER",
      remedies: ["higher-voltage"],
      value: 14,
    },
  ],
  passes: [
    { name: "a sound cart with blade fuses on its 12 V side", drawing: cart().build(), at: ["F1", "F2", "F5"] },
    { name: "90 V on 24 cells of iron phosphate", drawing: string({ voltageDc: "90 V" }).build(), at: "F1" },
    {
      name: "the fuse inside a pack, rated for it",
      drawing: string({ voltageDc: "100 V" }, { internalFuseRating: "150 A", internalFuseVoltage: "100 V" }).build(),
      at: ["F1", "G1"],
    },
    {
      name: "a fuse on an output alone",
      drawing: drawing()
        .part("G9", "dc-source", { voltage: "24 V", currentMax: "10 A" })
        .part("F1", "fuse", { rating: "10 A", voltageDc: "32 V" })
        .part("P1", "lamp", { voltage: "24 V", power: "20 W" })
        .wires(THIN, "G9:+ - F1:1", "F1:2 - P1:+", "P1:- - G9:-")
        .build(),
      at: "F1",
    },
  ],
  notChecked: [
    {
      name: "neither rating stated",
      drawing: string({}).build(),
      at: "F1",
      reason: "rating",
      missing: ["F1.voltageDc"],
    },
    {
      name: "batteries of unstated chemistry",
      drawing: drawing()
        .part("G1", "battery-block", { duty: "traction" })
        .part("F1", "fuse", { rating: "100 A", voltageDc: "32 V" })
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wires(THICK, "G1:+ - F1:1", "F1:2 - E1:+", "E1:- - G1:-")
        .build(),
      at: "F1",
      reason: "chemistry",
      missing: ["G1.chemistry"],
    },
  ],
  doesNotApply: [
    { name: "a fuse that nothing is wired to", drawing: drawing().part("F1", "fuse", { voltageDc: "32 V" }).build() },
  ],
});
