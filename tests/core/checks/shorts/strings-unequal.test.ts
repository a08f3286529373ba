import { stringsUnequal } from "../../../../core/checks/shorts/strings-unequal.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { AUXILIARY, earthedWhileCharging, HEAVY, SMALL, stepCar, string, twoConverters } from "../known-good.ts";
import { swapped, unstated } from "../mistakes.ts";

const CELLS = {
  chemistry: "lifepo4",
  cells: "4",
  capacity: "100 Ah",
  resistance: "3 mohm",
  chargeMax: "50 A",
  dischargeMax: "100 A",
};

/** Two strings of four side by side, one of them as stated. */
const strings = (second: Readonly<Record<string, string>> = CELLS) =>
  drawing()
    .parts("battery-block", CELLS, "G1", "G2", "G3", "G4")
    .parts("battery-block", second, "G5", "G6", "G7", "G8")
    .parts("fuse", { rating: "200 A" }, "F1", "F2")
    .wires(HEAVY, "G1:+ - G2:-", "G2:+ - G3:-", "G3:+ - G4:-", "G4:+ - F1:1")
    .wires(HEAVY, "G5:+ - G6:-", "G6:+ - G7:-", "G7:+ - G8:-", "G8:+ - F2:1", "F1:2 - F2:2", "G1:- - G5:-")
    .build();

/** Two packs, each behind a contactor that the key closes. */
const packs = (chargeState: string) =>
  drawing()
    .part("G1", "battery-pack", { ...CELLS, cells: "16", blocks: "1", resistance: "20 mohm", duty: "traction" })
    .part("G2", "battery-pack", {
      ...CELLS,
      cells: "16",
      blocks: "1",
      resistance: "20 mohm",
      chargeState,
      duty: "traction",
    })
    .part("G20", "battery-block", AUXILIARY)
    .parts("contactor", { coilVoltage: "12 V", coilPower: "12 W", currentContinuous: "200 A" }, "Q1", "Q2")
    .part("S1", "key-switch")
    .wires(HEAVY, "G1:+ - Q1:line", "G2:+ - Q2:line", "Q1:load - Q2:load", "G1:- - G2:-")
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - Q1:coil+", "S1:ignition - Q2:coil+")
    .wires(SMALL, "Q1:coil- - G20:-", "Q2:coil- - G20:-")
    .build();

checkTable(stringsUnequal, {
  fails: [
    {
      name: "one block of a string turned round",
      drawing: swapped(strings(), "G6:+", "G6:-"),
      at: "G5",
      message: "circulates",
      severity: "DANGER",
    },
    {
      name: "a string of lithium-nickel cells beside one of iron phosphate",
      drawing: strings({ ...CELLS, chemistry: "nmc" }),
      at: "G1",
      message: "circulates",
      severity: "DANGER",
      limit: 50,
    },
    {
      name: "a 12 V block beside a 24 V pair",
      drawing: string(drawing(), 2, CELLS)
        .part("G3", "battery-block", CELLS)
        .wires(HEAVY, "G2:+ - G3:+", "G1:- - G3:-")
        .build(),
      at: "G3",
      message: "circulates",
      severity: "DANGER",
    },
    {
      name: "an empty pack beside a full one as the key closes both contactors",
      drawing: packs("0 %"),
      at: "G2",
      message: "circulates",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "two equal strings", drawing: strings(), at: ["G1", "G8"] },
    { name: "two equal packs behind contactors", drawing: packs("100 %"), at: ["G1", "G2"] },
    {
      name: "halves in parallel",
      drawing: stepCar().state("creeping", "ready", { S4: "actuated", S3: "free" }).build(),
      at: ["G1", "G4"],
    },
  ],
  notChecked: [
    {
      name: "charging current unstated",
      drawing: ["G1", "G2"].reduce((drawn, name) => unstated(drawn, name, "chargeMax", "dischargeMax"), packs("95 %")),
      at: "G2",
      reason: "unrated",
      missing: ["G1.dischargeMax", "G2.chargeMax"],
    },
    {
      name: "chemistry unstated",
      drawing: unstated(strings(), "G5", "chemistry"),
      at: "G5",
      reason: "unknownChemistry",
      missing: ["G5.chemistry"],
    },
    {
      name: "internal resistance unstated",
      drawing: ["G1", "G2"].reduce((drawn, name) => unstated(drawn, name, "resistance"), packs("90 %")),
      at: "G2",
      reason: "unknownResistance",
      missing: ["G1.resistance", "G2.resistance"],
    },
  ],
  doesNotApply: [
    { name: "one string", drawing: string(drawing(), 4).build() },
    { name: "a converter and a charger beside their batteries", drawing: earthedWhileCharging().build() },
    { name: "two converters beside one battery", drawing: twoConverters().build() },
  ],
});
