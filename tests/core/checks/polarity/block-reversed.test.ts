import { blockReversed } from "../../../../core/checks/polarity/block-reversed.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, CONTACTOR_12, HEAVY, resistorAcrossSolenoid, stepCar, string } from "../known-good.ts";
import { KNOWN_GOOD } from "../known-good-list.ts";
import { splitPack } from "../known-good-packs.ts";
import { swapped } from "../mistakes.ts";

const LITHIUM = { chemistry: "lifepo4", cells: "4", capacity: "50 Ah", dischargeMax: "50 A" };

/** Four 12 V lithium blocks, separately excited motor, two contactors. */
const separatelyExcited = () =>
  string(drawing(), 4, LITHIUM)
    .parts("contactor", { ...CONTACTOR_12, suppression: "none" }, "Q1", "Q2")
    .part("T1", "dc-controller", { currentContinuous: "150 A", nominalMin: "48 V" })
    .part("M1", "motor-separately-excited", { currentContinuous: "150 A" })
    .wires(HEAVY, "G4:+ - Q1:line", "Q1:load - T1:B+", "G1:- - Q2:line", "Q2:load - T1:B-")
    .wires(HEAVY, "T1:M+ - M1:A1", "T1:M- - M1:A2", "T1:F1 - M1:F1", "T1:F2 - M1:F2")
    .build();

/** Two strings of three side by side on one lamp. */
const sideBySide = () =>
  drawing()
    .parts("battery-block", BLOCK, "G1", "G2", "G3", "G4", "G5", "G6")
    .part("E1", "load", { voltage: "36 V", power: "500 W" })
    .wires(HEAVY, "G1:+ - G2:-", "G2:+ - G3:-", "G4:+ - G5:-", "G5:+ - G6:-", "G1:- - G4:-", "G3:+ - G6:+")
    .wires(HEAVY, "G3:+ - E1:+", "G1:- - E1:-")
    .build();

/** Two strings of two side by side behind a contactor in each pole: nothing but the strings tells which way is right. */
const behindContactors = () =>
  drawing()
    .parts("battery-block", BLOCK, "G1", "G2", "G3", "G4")
    .parts("contactor", CONTACTOR_12, "Q1", "Q2")
    .part("E1", "load", { voltage: "24 V", power: "500 W" })
    .wires(HEAVY, "G1:+ - G2:-", "G3:+ - G4:-", "G1:- - G3:-", "G2:+ - G4:+")
    .wires(HEAVY, "G2:+ - Q1:line", "Q1:load - E1:+", "G1:- - Q2:line", "Q2:load - E1:-")
    .build();

const pair = () =>
  string(drawing(), 2)
    .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "10 V" })
    .wires(HEAVY, "G2:+ - T2:in+", "G1:- - T2:in-")
    .build();

/** Twelve volts and six in a row. */
const unequalPair = () =>
  drawing()
    .part("G1", "battery-block", BLOCK)
    .part("G2", "battery-block", { ...BLOCK, cells: "3" })
    .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "10 V" })
    .wires(HEAVY, "G1:+ - G2:-", "G2:+ - T2:in+", "G1:- - T2:in-")
    .build();

checkTable(blockReversed, {
  fails: [
    {
      name: "one of four lithium blocks",
      drawing: swapped(separatelyExcited(), "G3:+", "G3:-"),
      at: "G3",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
      // Iron phosphate rests at about 3.4 V a cell when full: 54 V as a string, one block taken off twice.
      value: 27.2,
      limit: 54.4,
    },
    {
      name: "in the front half of a split pack",
      drawing: swapped(splitPack().build(), "G8:+", "G8:-"),
      at: "G8",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "in one of two strings side by side",
      drawing: swapped(sideBySide(), "G5:+", "G5:-"),
      at: "G5",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "half of one of two strings side by side: the other string tells which",
      drawing: swapped(behindContactors(), "G1:+", "G1:-"),
      at: "G1",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "the other half of it",
      drawing: swapped(behindContactors(), "G4:+", "G4:-"),
      at: "G4",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "the larger of two: what they feed gets it the wrong way round",
      drawing: swapped(unequalPair(), "G1:+", "G1:-"),
      at: "G1",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "one of two: what they feed tells which",
      drawing: swapped(pair(), "G1:+", "G1:-"),
      at: "G1",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
      value: 0,
    },
    {
      name: "the other of two",
      drawing: swapped(pair(), "G2:+", "G2:-"),
      at: "G2",
      message: "opposed",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
  ],
  passes: [
    { name: "four lithium blocks in a row", drawing: separatelyExcited(), at: ["G1", "G2", "G3", "G4"] },
    { name: "two strings side by side", drawing: sideBySide(), at: ["G1", "G6"] },
    { name: "two strings behind open contactors", drawing: behindContactors(), at: ["G1", "G4"] },
    { name: "halves in parallel, then in series", drawing: stepCar().build(), at: ["G1", "G2", "G3", "G4"] },
    {
      name: "two batteries side by side on a series motor",
      drawing: drawing()
        .parts("battery-block", BLOCK, "G1", "G2")
        .part("M1", "motor-series", { currentContinuous: "80 A" })
        .wires(HEAVY, "G1:+ - G2:+", "G1:- - G2:-", "G1:+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-")
        .build(),
      at: ["G1", "G2"],
    },
    { name: "48 V cart", drawing: resistorAcrossSolenoid().build(), at: "G4" },
    {
      name: "blocks in a closed ring all push the same way",
      drawing: string(drawing(), 4).wire("G4:+", "G1:-", HEAVY).build(),
      at: "G1",
    },
  ],
  doesNotApply: [
    { name: "one battery alone", drawing: string(drawing(), 1).build() },
    { name: "one pack in one case", drawing: KNOWN_GOOD[1]?.[1]() ?? string(drawing(), 1).build() },
  ],
});
