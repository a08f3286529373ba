/**
 * A vehicle of 300 parts and 600 wires for benches: the traction circuit of a 96 V pickup and as many fused relay
 * branches of the 12 V side, each through a terminal strip, as it takes.
 */
import type { Project } from "../../core/project/document.ts";
import { drawing } from "./drawing.ts";
import type { Drawing } from "./drawing.ts";

const POSITIONS = 30;

/** Whole vehicle; `branches` 12 V branches of five parts' worth each. */
export function largeVehicle(branches = 68, seed = 0): Project {
  const d = drawing();
  tractionCircuit(d, seed);
  const bus = Math.ceil(branches / POSITIONS);
  for (let b = 0; b < bus; b++) {
    d.part(`X${10 + b}`, "busbar", { positions: String(POSITIONS + 2), finish: "booted" });
    d.part(`X${40 + b}`, "terminal-strip", { positions: String(POSITIONS) });
    d.part(`X${70 + b}`, "terminal-strip", { positions: String(POSITIONS) });
    d.part(`X${100 + b}`, "busbar", { positions: String(2 * POSITIONS + 2), finish: "booted" });
    d.wire(b === 0 ? "F20:2" : `X${9 + b}:${POSITIONS + 1}`, `X${10 + b}:${POSITIONS + 2}`, HEAVY);
    d.wire(b === 0 ? "X1:stud" : `X${99 + b}:${2 * POSITIONS + 1}`, `X${100 + b}:${2 * POSITIONS + 2}`, HEAVY);
  }
  for (let i = 0; i < branches; i++) branch(d, i);
  return d.build();
}

const HEAVY = {
  size: "35 mm2",
  length: "0.8 m",
  colour: "RD",
  insulation: { material: "PVC", volts: "60 V", temperature: "70 C" },
} as const;
const THIN = {
  size: "1.5 mm2",
  length: "1.5 m",
  colour: "RD",
  insulation: { material: "PVC", volts: "60 V", temperature: "70 C" },
} as const;
const POWER = {
  size: "70 mm2",
  length: "0.5 m",
  colour: "OG",
  insulation: { material: "XLPE", volts: "600 V", temperature: "90 C" },
} as const;
const TAP = { ...POWER, size: "2.5 mm2", length: "0.15 m" } as const;

function tractionCircuit(d: Drawing, seed: number): void {
  const block = {
    chemistry: "agm-lead",
    capacity: `${100 + seed} Ah`,
    cells: "6",
    resistance: "4 mohm",
    duty: "traction",
    finish: "booted",
  };
  d.parts("battery-block", block, "G1", "G2", "G3", "G4", "G5", "G6", "G7", "G8");
  d.part("F1", "fuse", { rating: "250 A", voltageDc: "150 V", interrupting: "30 kA", finish: "booted" });
  d.part("Q9", "manual-disconnect", {
    voltageDc: "150 V",
    currentContinuous: "300 A",
    breakLoad: "yes",
    finish: "booted",
  });
  d.part("Q1", "contactor", {
    coilVoltage: "12 V",
    coilPower: "12 W",
    contactVoltage: "150 V",
    currentContinuous: "300 A",
    suppression: "zener",
    economiser: "no",
    finish: "booted",
  });
  d.part("K1", "relay", {
    coilVoltage: "12 V",
    coilResistance: "90 ohm",
    contactVoltage: "150 V",
    contactCurrent: "5 A",
    finish: "booted",
  });
  d.part("R1", "resistor", {
    resistance: "220 ohm",
    power: "50 W",
    pulseEnergy: "200 J",
    voltage: "300 V",
    finish: "booted",
  });
  d.part("F2", "fuse", { rating: "5 A", voltageDc: "500 V", interrupting: "30 kA", finish: "booted" });
  d.part("T1", "dc-controller", {
    nominalMin: "72 V",
    nominalMax: "96 V",
    voltageMin: "60 V",
    voltageMax: "130 V",
    currentContinuous: "150 A",
    inputCapacitance: "5 mF",
    bleedResistance: "10 kohm",
    logicFeed: "isolated-12v",
    logicMin: "9 V",
    logicMax: "18 V",
    logicCurrent: "200 mA",
    throttleInput: "resistance-rising",
    throttleFull: "5 kohm",
    throttleFaultBand: "yes",
    contactorDriver: "low-side",
    driverCurrent: "2 A",
    regeneration: "no",
    finish: "booted",
  });
  d.part("M1", "motor-series", {
    armatureResistance: "15 mohm",
    fieldResistance: "10 mohm",
    currentContinuous: "150 A",
    voltageMax: "130 V",
    finish: "booted",
  });
  d.part("G20", "battery-block", {
    chemistry: "flooded-lead",
    capacity: "60 Ah",
    resistance: "8 mohm",
    duty: "auxiliary",
    finish: "booted",
  });
  d.part("F20", "fuse", { rating: "100 A", voltageDc: "58 V", interrupting: "2 kA", finish: "booted" });
  d.part("S1", "key-switch", { contactVoltage: "24 V", contactCurrent: "20 A" });
  d.part("S9", "emergency-stop", { contactVoltage: "24 V", contactCurrent: "10 A" });
  d.part("F21", "fuse", { rating: "10 A", voltageDc: "32 V", interrupting: "1 kA" });
  d.part("B1", "throttle-two-wire", { sprung: "yes" });
  d.part("X1", "chassis-point", { structure: "body" });
  for (let i = 1; i < 8; i++) d.wire(`G${i}:+`, `G${i + 1}:-`, POWER);
  d.wires({ ...POWER, length: "0.15 m" }, "G8:+ - F1:1");
  d.wires(
    POWER,
    "F1:2 - Q9:line",
    "Q9:load - Q1:line",
    "Q1:load - T1:B+",
    "G1:- - T1:B-",
    "T1:M+ - M1:A1",
    "M1:A2 - M1:S1",
    "M1:S2 - T1:M-",
  );
  d.wires(TAP, "Q1:line - F2:1", "F2:2 - K1:common", "K1:no - R1:1", "R1:2 - Q1:load");
  d.wires({ ...HEAVY, length: "0.15 m" }, "G20:+ - F20:1", "G20:- - X1:stud");
  d.wire("F20:2", "F21:1", { ...THIN, length: "0.15 m" });
  d.wires(
    THIN,

    "F21:2 - S1:battery",
    "S1:ignition - S9:11",
    "S9:12 - Q1:coil+",
    "Q1:coil- - T1:contactor-out",
  );
  d.wires(
    THIN,
    "S9:12 - K1:coil+",
    "K1:coil- - T1:precharge-out",
    "S1:ignition - T1:logic+",
    "T1:logic- - X1:stud",
    "B1:1 - T1:throttle-1",
    "B1:2 - T1:throttle-2",
  );
}

/** Fuse, switch, relay, lamp: feed and switched line through one strip, the returns through the other. */
function branch(d: Drawing, i: number): void {
  const [fuse, key, relay, lamp] = [`F${100 + i}`, `S${100 + i}`, `K${100 + i}`, `P${100 + i}`];
  const [row, place] = [Math.floor(i / POSITIONS), (i % POSITIONS) + 1];
  d.part(fuse, "fuse", { rating: "10 A", voltageDc: "32 V", interrupting: "1 kA" });
  d.part(key, "switch", { contactVoltage: "24 V", contactCurrent: "5 A" });
  d.part(relay, "relay", {
    coilVoltage: "12 V",
    coilResistance: "90 ohm",
    contactVoltage: "24 V",
    contactCurrent: "20 A",
  });
  d.part(lamp, "lamp", { voltage: "12 V", power: "21 W", needsPolarity: "no" });
  const plus = `X${10 + row}:${place}`;
  const minus = (n: number): string => `X${100 + row}:${2 * place - n}`;
  d.wire(plus, `${fuse}:1`, { ...THIN, length: "0.15 m" });
  d.wires(
    THIN,
    `${fuse}:2 - ${relay}:common`,
    `${fuse}:2 - ${key}:common`,
    `${key}:out - X${40 + row}:${place}a`,
    `X${40 + row}:${place}b - ${relay}:coil+`,
    `${relay}:coil- - ${minus(1)}`,
    `${relay}:no - X${70 + row}:${place}a`,
    `X${70 + row}:${place}b - ${lamp}:+`,
    `${lamp}:- - ${minus(0)}`,
  );
}
