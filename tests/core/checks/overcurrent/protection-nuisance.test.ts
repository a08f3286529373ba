/**
 * NEC 210.20: a continuous load takes at most 80 % of a device. ISO 8820-3 (memory): a blade at 600 % has opened within
 * 0.1 s; its curve decides between.
 */
import { protectionNuisance } from "../../../../core/checks/overcurrent/protection-nuisance.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart } from "./cart.ts";
import { fusedLamp } from "./fused-lamp.ts";

const WIDE = { size: "6 mm2" };

/** A bank of capacitors that the key joins to the battery behind a small fuse. */
const bank = (fuse: Parameters, capacitance: string | null) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "5 mohm" })
    .part("F1", "fuse", { voltageDc: "32 V", interrupting: "5 kA", ...fuse })
    .part("S1", "key-switch", {})
    .part("C1", "capacitor", { capacitance, voltage: "25 V" })
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
    .wires(
      { size: "6 mm2", length: "1 m", insulation: { material: "PVC", volts: "60 V", temperature: "105 C" } },
      "G20:+ - F1:1",
      "F1:2 - S1:battery",
      "S1:ignition - C1:+",
      "C1:- - G20:-",
      "S1:ignition - P1:+",
      "P1:- - G20:-",
    )
    .build();

const BLADE = { curve: "blade", rating: "5 A", curvePoints: "2:0.2 s; 6:0.004 s; 20:0.001 s; 400:0.000001 s" };

checkTable(protectionNuisance, {
  fails: [
    {
      name: "9 A through a fuse of 10 A",
      drawing: fusedLamp({ fuse: { curve: "blade", rating: "10 A" }, wire: WIDE, load: { power: "105 W" } }),
      at: "F1",
      message: "load",
      severity: "NOTICE",
      limit: 8,
      remedies: ["larger-device"],
    },
    {
      name: "the same, but the wire allows no larger one",
      drawing: fusedLamp({
        fuse: { curve: "blade", rating: "10 A", holderRating: "10 A" },
        wire: WIDE,
        load: { power: "105 W" },
      }),
      at: "F1",
      message: "load",
      severity: "NOTICE",
      remedies: [],
    },
    {
      name: "12 A through a fuse of 10 A",
      drawing: fusedLamp({ fuse: { curve: "blade", rating: "10 A" }, wire: WIDE, load: { power: "150 W" } }),
      at: "F1",
      message: "over",
      severity: "NOTICE",
      remedies: ["larger-device"],
    },
    {
      name: "the cart's main fuse at 91 %",
      drawing: cart({ parts: { F1: { rating: "175 A" } } }).build(),
      at: "F1",
      message: "load",
      severity: "NOTICE",
    },
    {
      name: "a bank of capacitors behind a small fast fuse",
      drawing: bank(BLADE, "100 mF"),
      at: "F1",
      message: "inrush",
      severity: "NOTICE",
      except: { contact: "The contacts put into every wire charge the bank more gently." },
    },
  ],
  passes: [
    {
      name: "half its rating",
      drawing: fusedLamp({ fuse: { curve: "blade", rating: "15 A" }, wire: WIDE, load: { power: "84 W" } }),
      at: "F1",
    },
    {
      name: "a sound cart",
      drawing: cart({ parts: { T2: { inputCapacitance: "100 uF" } } }).build(),
      at: ["F1", "F2", "F5"],
    },
    {
      name: "a small capacitor behind a strip",
      drawing: bank({ curve: "bolted-strip", rating: "60 A" }, "10 uF"),
      at: "F1",
    },
  ],
  notChecked: [
    {
      name: "a fuse of unknown rating",
      drawing: fusedLamp({ fuse: { curve: "blade" } }),
      at: "F1",
      reason: "rating",
      missing: ["F1.rating"],
    },
    {
      name: "a lamp of unknown power: too much at one end of what it may draw",
      drawing: fusedLamp({ fuse: { curve: "blade", rating: "1 A" }, load: { power: null } }),
      at: "F1",
      reason: "range",
      missing: ["P1.power"],
    },
    {
      name: "a drive of unknown current",
      drawing: cart({ parts: { T1: { currentContinuous: null }, M1: { currentContinuous: null } } }).build(),
      at: "F1",
      reason: "current",
      missing: ["M1.currentContinuous", "T1.currentContinuous"],
    },
    {
      name: "a pulse, and nobody knows the fuse's curve",
      drawing: bank({ rating: "5 A" }, "100 mF"),
      at: "F1",
      reason: "inrush",
      missing: ["F1.curvePoints"],
    },
  ],
  doesNotApply: [{ name: "no fuse", drawing: drawing().part("P1", "lamp").build() }],
});
