/** 33 CFR 183.425 table 5: 6 AWG of 105 C carries 120 A, 2/0 AWG 330 A, 16 AWG 25 A; 0.85 of it in an engine space. */
import { conductorOverloaded } from "../../../../core/checks/conductors/conductor-overloaded.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { cart, THICK, THIN } from "../overcurrent/cart.ts";
import { SMALL, supplies } from "../switching/vehicle.ts";

/** 2/0 AWG of 105 C. */
const PHASE: WireOptions = { ...THICK, size: "2/0 AWG", length: "0.5 m" };

/** A 12 V lamp of so many watts on one wire there and one back. */
const lamp = (power: Parameters, wire: WireOptions) =>
  drawing()
    .zone("engine")
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "1 mohm" })
    .part("P1", "lamp", { voltage: "12 V", ...power })
    .wire("G20:+", "P1:+", { ...THIN, ...wire })
    .wire("P1:-", "G20:-", { ...THICK, length: "1 m" })
    .build();

const main = (wire: WireOptions) => cart({ wires: { "G8:+ - F1:1": wire } }).build();

/** Charger and coil share a thin return. */
const sharedReturn = (charger: Parameters) =>
  cart({
    parts: { T3: { outputVoltageMax: "58 V", ...charger } },
    without: ["T3:out- - G1:-"],
    more: (made) => {
      made.wire("T3:out-", "Q1:coil-", { ...THIN, size: "8 AWG", number: "R1" });
    },
    wires: { "F3:1 - G8:+": { size: "8 AWG" }, "F3:2 - T3:out+": { size: "8 AWG" } },
  }).build();

/** A three-phase drive of 150 A with its middle phase on a wire of so many square millimetres. */
const threePhases = (middle: string) =>
  supplies(8)
    .part("T1", "ac-controller", { logicFeed: "isolated-12v", currentContinuous: "180 A", inputCapacitance: "2 mF" })
    .part("M1", "motor-ac", { currentContinuous: "150 A" })
    .wires(PHASE, "G8:+ - T1:B+", "T1:B- - G1:-", "T1:U - M1:U", "T1:W - M1:W")
    .wire("T1:V", "M1:V", { ...PHASE, size: middle, number: "V1" })
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
    .build();

checkTable(conductorOverloaded, {
  fails: [
    {
      name: "one phase of a three-phase motor on a wire at hand",
      drawing: threePhases("6 AWG"),
      at: "V1",
      message: "overloaded",
      severity: "WARNING",
      value: 150,
      limit: 120,
    },
    {
      name: "one 6 AWG wire in a main circuit of 150 A",
      drawing: main({ size: "6 AWG" }),
      at: "W8",
      message: "overloaded",
      severity: "WARNING",
      value: 155,
      limit: 120,
    },
    {
      name: "a charger's return through the coil's thin ground wire",
      drawing: sharedReturn({ outputCurrentMax: "30 A" }),
      at: "W20",
      message: "overloaded",
      severity: "WARNING",
      value: 30,
      limit: 25,
    },
    {
      name: "22 A on 16 AWG through the engine space",
      drawing: lamp({ power: "256 W" }, { size: "16 AWG", length: "0.2 m", zones: ["engine"] }),
      at: "W1",
      message: "overloaded",
      severity: "WARNING",
      limit: 21.25,
    },
    {
      name: "one thin wire in the motor loop",
      drawing: cart({ wires: { "M1:A2 - M1:S1": { size: "8 AWG" } } }).build(),
      at: "W14",
      message: "overloaded",
      severity: "WARNING",
      value: 150,
      limit: 80,
    },
  ],
  passes: [
    { name: "three phases on 2/0 AWG", drawing: threePhases("2/0 AWG"), at: "V1" },
    { name: "a sound cart", drawing: cart().build(), at: ["W8", "W12", "W19", "W24"] },
    {
      name: "22 A on 16 AWG outside the engine space",
      drawing: lamp({ power: "256 W" }, { size: "16 AWG", length: "0.2 m" }),
      at: "W1",
    },
    {
      name: "a charger's return within what the wire carries",
      drawing: sharedReturn({ outputCurrentMax: "20 A" }),
      at: "R1",
    },
    {
      name: "thicker than the table's last row, within it",
      drawing: lamp({ power: "60 W" }, { size: "240 mm2" }),
      at: "W1",
    },
  ],
  notChecked: [
    {
      name: "no size",
      drawing: lamp({ power: "60 W" }, { size: null }),
      at: "W1",
      reason: "size",
      missing: ["W1.size"],
    },
    {
      name: "below the table",
      drawing: lamp({ power: "6 W" }, { size: "0.5 mm2" }),
      at: "W1",
      reason: "small",
      missing: [],
    },
    {
      name: "a class below the table",
      drawing: lamp({ power: "6 W" }, { insulation: { temperature: "50 C" } }),
      at: "W1",
      reason: "insulation",
      missing: [],
    },
    {
      name: "insulation of unstated class, and a current between its worst and its best",
      drawing: lamp({ power: "210 W" }, { size: "16 AWG", length: "0.2 m", insulation: {} }),
      at: "W1",
      reason: "range",
      missing: ["W1.insulation.temperature"],
    },
    {
      name: "neither controller nor motor states its current",
      drawing: cart({ parts: { T1: { currentContinuous: null }, M1: { currentContinuous: null } } }).build(),
      at: ["W10", "W11", "W12", "W13", "W14", "W15", "W8", "W9"],
      reason: "drive",
      missing: ["M1.currentContinuous", "T1.currentContinuous"],
    },
    {
      name: "a charger of unstated current",
      drawing: sharedReturn({ outputCurrentMax: null }),
      at: ["R1", "W20", "W25", "W26"],
      reason: "limit",
      missing: ["T3.outputCurrentMax"],
    },
  ],
  doesNotApply: [
    {
      name: "nothing flows",
      drawing: drawing()
        .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
        .part("S1", "switch")
        .wires(THIN, "P1:+ - S1:common", "P1:- - S1:out")
        .build(),
    },
  ],
});
