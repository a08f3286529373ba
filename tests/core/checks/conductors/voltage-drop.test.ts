/**
 * Boat council recommendation E-11: 3 % for critical circuits, 10 % for others, out and back. The worked figure:
 * 1.5 mm2 of IEC 60228 class 5 has 13.3 ohm/km at 20 C, 15.91 ohm/km at 70 C (x 304.5/254.5); 10 A through 2 x 5 m loses
 * 1.59 V, 13 % of 12 V.
 */
import { expect, test } from "vitest";
import { voltageDrop } from "../../../../core/checks/conductors/voltage-drop.ts";
import { runCheck } from "../../../../core/checks/run.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { cart, THICK } from "../overcurrent/cart.ts";
import { SMALL, supplies } from "../switching/vehicle.ts";

const WIRE: WireOptions = {
  size: "1.5 mm2",
  length: "5 m",
  insulation: { material: "PVC", volts: "60 V", temperature: "70 C" },
};

/** A consumer on a 12 V battery through two wires alike. */
const fed = (kind: string, parameters: Parameters, wire: WireOptions = {}, minus: WireOptions = {}) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "10 mohm" })
    .part("E1", kind, parameters)
    .wire("G20:+", "E1:+", { ...WIRE, ...wire })
    .wire("E1:-", "G20:-", { ...WIRE, ...wire, ...minus })
    .build();

const coil = (wire: WireOptions) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "10 mohm" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "24 W", suppression: "diode" })
    .wire("G20:+", "Q1:coil+", { ...WIRE, ...wire })
    .wire("Q1:coil-", "G20:-", { ...WIRE, ...wire })
    .build();

/** A three-phase drive of 150 A on 96 V, its motor so far away. */
const threePhases = (length: string) =>
  supplies(8)
    .part("T1", "ac-controller", { logicFeed: "isolated-12v", currentContinuous: "180 A", inputCapacitance: "2 mF" })
    .part("M1", "motor-ac", { currentContinuous: "150 A" })
    .wires(THICK, "G8:+ - T1:B+", "T1:B- - G1:-")
    .wires({ ...THICK, length }, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
    .build();

checkTable(voltageDrop, {
  fails: [
    {
      name: "a heater on long thin wires: 13 %",
      drawing: fed("heater", { voltage: "12 V", power: "120 W" }),
      at: "E1:+",
      message: "lost",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
    {
      name: "brake assist may lose 3 % only",
      drawing: fed("pump", { voltage: "12 V", power: "48 W", purpose: "brake-assist" }),
      at: "E1:+",
      message: "lost",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
    {
      name: "a coil at the far end of the vehicle",
      drawing: coil({ length: "9 m" }),
      at: "Q1:coil+",
      message: "lost",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
    {
      name: "motor leads of a trailer's length",
      drawing: cart({ wires: { "T1:M+ - M1:A1": { length: "11 m" }, "M1:S2 - T1:M-": { length: "11 m" } } }).build(),
      at: "T1:B+",
      message: "lost",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
    {
      name: "one jumper of a string of the length of the vehicle and back",
      drawing: cart({ wires: { "G4:+ - G5:-": { length: "27 m" } } }).build(),
      at: ["T1:B+", "T2:in+"],
      message: "lost",
      severity: "NOTICE",
      // No cable that is sold is thick enough for this way.
    },
    {
      name: "phases of a three-phase motor of a trailer's length",
      drawing: threePhases("19 m"),
      at: "T1:B+",
      message: "lost",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
  ],
  passes: [
    { name: "three phases on short leads", drawing: threePhases("0.5 m"), at: "T1:B+" },
    { name: "a sound cart", drawing: cart().build(), at: ["T1:B+", "T1:logic+", "Q1:coil+", "T2:in+", "P1:+"] },
    { name: "a lamp may lose more than a coil", drawing: fed("lamp", { voltage: "12 V", power: "48 W" }), at: "E1:+" },
    {
      name: "a pump of no consequence may lose as much as a lamp",
      drawing: fed("pump", { voltage: "12 V", power: "48 W", purpose: "other" }),
      at: "E1:+",
    },
    { name: "the coil, closer", drawing: coil({ length: "4 m" }), at: "Q1:coil+" },
  ],
  notChecked: [
    {
      name: "a wire of unstated length",
      drawing: fed("lamp", { voltage: "12 V", power: "21 W" }, {}, { length: null }),
      at: "E1:+",
      reason: "approximate",
      missing: ["W2.length"],
    },
    {
      name: "a lamp of unstated power",
      drawing: fed("lamp", { voltage: "12 V" }),
      at: "E1:+",
      reason: "current",
      missing: ["E1.power"],
    },
    {
      name: "a pump that may serve the brakes",
      drawing: fed("pump", { voltage: "12 V", power: "48 W" }),
      at: "E1:+",
      reason: "purpose",
      missing: ["E1.purpose"],
    },
    {
      name: "a drive of unstated current",
      drawing: cart({ parts: { T1: { currentContinuous: null }, M1: { currentContinuous: null } } }).build(),
      at: ["Q1:coil+", "T1:B+", "T1:logic+", "T2:in+"],
      reason: "current",
      missing: ["M1.currentContinuous", "T1.currentContinuous"],
    },
  ],
  doesNotApply: [
    {
      name: "a lamp that nothing feeds",
      drawing: drawing()
        .parts("lamp", { voltage: "12 V", power: "5 W" }, "P1", "P2")
        .wire("P1:+", "P2:+", WIRE)
        .wire("P1:-", "P2:-", WIRE)
        .build(),
    },
  ],
});

test("the worked figure: 1.5 mm2 at 70 C, 2 x 5 m with four joints of 50 uohm", () => {
  const [failure] = runCheck(voltageDrop, analyse(fed("heater", { voltage: "12 V", power: "120 W" }))).failures;
  const wires = 2 * 5 * 13.3e-3 * (304.5 / 254.5) + 4 * 50e-6;
  const load = 12 ** 2 / 120;
  // A rested sealed battery of six cells gives about 12.8 V; the check's own share of it is what the wires' share is.
  expect((failure?.value ?? 0) / (wires / (wires + load + 0.01))).toBeGreaterThan(12.6);
  expect((failure?.value ?? 0) / (wires / (wires + load + 0.01))).toBeLessThan(13);
  expect(failure?.limit).toBeCloseTo(1.2, 2);
});
