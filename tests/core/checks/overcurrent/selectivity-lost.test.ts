/**
 * ISO 8820-3 (memory): a blade at 350 % opens within 0.5 s, at 600 % within 0.1 s; ISO 8820-5: a strip not before 0.3 s at 350 %,
 * 1 s at 200 %, 120 s at 135 %.
 */
import { selectivityLost } from "../../../../core/checks/overcurrent/selectivity-lost.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";

const WIRE: WireOptions = {
  size: "2.5 mm2",
  length: "1 m",
  insulation: { material: "PVC", volts: "60 V", temperature: "105 C" },
};

/** A main fuse, behind it a lamp of its own and a branch with a fuse and a second lamp. */
const branch = (main: Parameters, fuse: Parameters, far: WireOptions = {}, more: "alone" | "both" = "both") => {
  const made = drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "5 mohm" })
    .part("F1", "fuse", { voltageDc: "32 V", ...main })
    .part("F2", "fuse", { voltageDc: "32 V", ...fuse })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .part("P2", "lamp", { voltage: "12 V", power: "21 W" })
    .wire("G20:+", "F1:1", { ...WIRE, size: "16 mm2", length: "0.1 m" })
    .wire("F1:2", "F2:1", WIRE)
    .wire("F2:2", "P2:+", { ...WIRE, ...far })
    .wire("P2:-", "G20:-", { ...WIRE, ...far });
  if (more === "both") made.wire("F1:2", "P1:+", WIRE).wire("P1:-", "G20:-", WIRE);
  return made.build();
};

const SLOW = "2:100 s; 3.5:20 s; 6:5 s; 10:2 s; 40:0.5 s";
const FAST = "2:1 s; 3.5:0.1 s; 6:0.03 s; 10:0.012 s; 40:0.004 s";

checkTable(selectivityLost, {
  fails: [
    {
      name: "a fast main fuse before a slow one of nearly its size",
      drawing: branch({ rating: "60 A", curvePoints: FAST }, { rating: "50 A", curvePoints: SLOW }),
      at: "F2",
      message: "lost",
      severity: "NOTICE",
    },
    {
      name: "a blade as main fuse before a strip",
      drawing: branch({ rating: "30 A", curve: "blade" }, { rating: "120 A", curve: "bolted-strip" }),
      at: "F2",
      message: "lost",
      severity: "NOTICE",
    },
    {
      name: "the branch fuse carries the short circuit for ever",
      drawing: branch({ rating: "40 A", curvePoints: FAST }, { rating: "400 A", curve: "bolted-strip" }),
      at: "F2",
      message: "lost",
      severity: "NOTICE",
    },
  ],
  passes: [
    {
      name: "a slow main fuse before a fast branch fuse",
      drawing: branch({ rating: "60 A", curvePoints: SLOW }, { rating: "10 A", curvePoints: FAST }),
      at: "F2",
    },
    {
      name: "by their classes alone: a strip of 250 A, a blade of 5 A",
      drawing: branch({ rating: "250 A", curve: "bolted-strip" }, { rating: "5 A", curve: "blade" }),
      at: "F2",
    },
    {
      name: "the same at the end of a long way",
      drawing: branch({ rating: "60 A", curvePoints: SLOW }, { rating: "10 A", curvePoints: FAST }, { length: "8 m" }),
      at: "F2",
    },
  ],
  notChecked: [
    {
      name: "nothing known of the main fuse",
      drawing: branch({ rating: "60 A" }, { rating: "10 A", curve: "blade" }),
      at: "F2",
      reason: "curve",
      missing: ["F1.curvePoints", "F2.curvePoints"],
    },
    {
      name: "two blades whose limits overlap",
      drawing: branch({ rating: "30 A", curve: "blade" }, { rating: "20 A", curve: "blade" }),
      at: "F2",
      reason: "curve",
      missing: ["F1.curvePoints", "F2.curvePoints"],
    },
    {
      name: "a length that nobody stated",
      drawing: branch({ rating: "60 A", curvePoints: SLOW }, { rating: "10 A", curvePoints: FAST }, { length: null }),
      at: "F2",
      reason: "approximate",
      missing: ["W3.length", "W4.length"],
    },
  ],
  doesNotApply: [
    {
      name: "two in a row that feed nothing else",
      drawing: branch({ rating: "60 A", curvePoints: FAST }, { rating: "50 A", curvePoints: SLOW }, {}, "alone"),
    },
  ],
});
