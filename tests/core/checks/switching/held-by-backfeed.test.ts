import { heldByBackfeed } from "../../../../core/checks/switching/held-by-backfeed.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import {
  AUXILIARY,
  CONTACTOR_12,
  earthedWhileCharging,
  HEAVY,
  inverter320,
  resistorAcrossSolenoid,
  SMALL,
  string,
  twoConverters,
} from "../known-good.ts";
import { unstated } from "../mistakes.ts";

/** Converter behind the contactor, whose output feeds the line that the key switches, at `output`. */
const converterAt = (output: string) =>
  string(drawing(), 4)
    .part("G20", "battery-block", AUXILIARY)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", CONTACTOR_12)
    .part("S1", "key-switch")
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "30 V", outputCurrentMax: "20 A" })
    .wires(HEAVY, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T2:in+", "T2:in- - G1:-")
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - G20:-", "S1:ignition - P1:+")
    .wires(SMALL, "P1:- - G20:-", "T2:out- - G20:-", `T2:out+ - ${output}`)
    .build();

/** A coil of 48 V behind the key, and a lead that feeds it from its own load side. */
const ownLoad = (through: "wire" | "lamp") => {
  const sketch = string(drawing(), 4)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "12 W", currentContinuous: "200 A" })
    .part("S1", "key-switch")
    .part("P1", "lamp", { voltage: "48 V", power: "40 W" })
    .wires(HEAVY, "G4:+ - F1:1", "F1:2 - Q1:line")
    .wires(SMALL, "F1:2 - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - G1:-");
  return (
    through === "wire"
      ? sketch.wires(SMALL, "Q1:load - Q1:coil+", "Q1:load - P1:+", "P1:- - G1:-")
      : sketch.wires(SMALL, "Q1:load - P1:+", "P1:- - Q1:coil+")
  ).build();
};

checkTable(heldByBackfeed, {
  fails: [
    {
      name: "converter feeds the line behind the key",
      drawing: converterAt("S1:ignition"),
      at: "Q1",
      message: "held",
      severity: "DANGER",
      // The converter's 13.8 V less the drop of the wires.
      value: 13.56,
      limit: 2.4,
    },
    {
      name: "lead from the load side to the contactor's own coil",
      drawing: ownLoad("wire"),
      at: "Q1",
      message: "held",
      severity: "DANGER",
    },
    {
      name: "lamp from the load side to the contactor's own coil",
      drawing: ownLoad("lamp"),
      at: "Q1",
      message: "held",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "converter feeds the battery ahead of the key", drawing: converterAt("G20:+"), at: "Q1" },
    { name: "inverter that closes its own contactor", drawing: inverter320().build(), at: "Q1" },
    { name: "coil behind key and stop, 48 V", drawing: resistorAcrossSolenoid().build(), at: "Q1" },
    { name: "converters enabled by an auxiliary contact", drawing: twoConverters().build(), at: ["Q1", "Q4"] },
  ],
  notChecked: [
    {
      name: "coil voltage unstated",
      drawing: unstated(earthedWhileCharging().build(), "Q1", "coilVoltage"),
      at: "Q1",
      reason: "unrated",
      missing: ["Q1.coilVoltage"],
    },
  ],
  doesNotApply: [
    {
      name: "contactor whose coil is not wired",
      drawing: string(drawing(), 4).part("Q1", "contactor", CONTACTOR_12).wire("G4:+", "Q1:line", HEAVY).build(),
    },
    { name: "no contactor", drawing: string(drawing(), 4).build() },
  ],
});
