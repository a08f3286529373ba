/**
 * ISO 8820-3 (memory): a blade fuse at 200 % opens within 5 s, at 135 % not before 0.75 s and within 1800 s. ISO 8820-5:
 * a strip at 135 % not before 120 s.
 */
import { expect, test } from "vitest";
import { faultCurrentLow } from "../../../../core/checks/overcurrent/fault-current-low.ts";
import { runCheck } from "../../../../core/checks/run.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { splitPack } from "../known-good-packs.ts";
import { cart } from "./cart.ts";
import { fusedLamp, PVC } from "./fused-lamp.ts";

const BLADE = { curve: "blade", rating: "15 A" };

checkTable(faultCurrentLow, {
  fails: [
    {
      name: "40 m of thin wire: some 8 A through a fuse of 15 A",
      drawing: fusedLamp({ fuse: BLADE, wire: { length: "40 m", size: "1 mm2" }, load: { power: "5 W" } }),
      at: "F1",
      message: "weak",
      severity: "WARNING",
      remedies: ["smaller-device"],
    },
    {
      name: "a main fuse alone for a lamp at the back: 1.2 times its rating",
      drawing: fusedLamp({ fuse: { curve: "bolted-strip", rating: "100 A" }, wire: { length: "2 m" } }),
      at: "F1",
      message: "weak",
      severity: "WARNING",
    },
    {
      name: "a small weak battery before a large fuse",
      drawing: fusedLamp({
        fuse: { curve: "bolted-strip", rating: "150 A" },
        battery: { resistance: "60 mohm" },
        wire: { size: "16 mm2" },
      }),
      at: "F1",
      message: "weak",
      severity: "WARNING",
    },
    {
      name: "by its curve it takes a minute",
      drawing: fusedLamp({
        fuse: { rating: "20 A", curvePoints: "1.35:1000 s; 2:200 s; 5:60 s; 10:30 s" },
        wire: { length: "3 m" },
      }),
      at: "F1",
      message: "weak",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "a blade before a short branch", drawing: fusedLamp({ fuse: BLADE }), at: "F1" },
    {
      name: "thicker wire for the long way",
      drawing: fusedLamp({ fuse: BLADE, wire: { length: "20 m", size: "6 mm2" } }),
      at: "F1",
    },
    { name: "the cart's main fuse and its 12 V branch", drawing: cart().build(), at: ["F1", "F5"] },
    {
      name: "by its curve within a second",
      drawing: fusedLamp({ fuse: { rating: "20 A", curvePoints: "1.35:60 s; 2:1 s; 5:0.1 s; 20:0.01 s" } }),
      at: "F1",
    },
  ],
  notChecked: [
    {
      name: "neither class nor curve",
      drawing: fusedLamp({ fuse: { rating: "15 A" } }),
      at: "F1",
      reason: "curve",
      missing: ["F1.curvePoints"],
    },
    {
      name: "between the limits of its class",
      drawing: fusedLamp({ fuse: BLADE, wire: { length: "15 m" } }),
      at: "F1",
      reason: "curve",
      missing: ["F1.curvePoints"],
    },
    {
      name: "a length that nobody stated",
      drawing: fusedLamp({ fuse: BLADE, wire: { length: null } }),
      at: "F1",
      reason: "approximate",
      missing: ["W2.length", "W3.length"],
    },
    {
      name: "clears with a strong battery, not with a weak one",
      drawing: fusedLamp({
        fuse: { curve: "blade", rating: "200 A" },
        battery: { resistance: null, capacity: "12 Ah" },
        wire: { size: "16 mm2", length: "1 m" },
      }),
      at: "F1",
      reason: "curve",
      missing: ["F1.curvePoints", "G20.resistance"],
    },
  ],
  doesNotApply: [
    {
      name: "no fuse anywhere",
      drawing: drawing()
        .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", resistance: "5 mohm" })
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(PVC, "G20:+ - P1:+", "P1:- - G20:-")
        .build(),
    },
    {
      name: "a supply that limits its current",
      drawing: drawing()
        .part("G1", "dc-source", { voltage: "12 V", currentMax: "5 A" })
        .part("F1", "fuse", BLADE)
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(PVC, "G1:+ - F1:1", "F1:2 - P1:+", "P1:- - G1:-")
        .build(),
    },
  ],
});

test("a pack in two halves that a contactor joins only while driving: apart they have no loop to clear", () => {
  expect(runCheck(faultCurrentLow, analyse(splitPack().build())).failures).toEqual([]);
});
