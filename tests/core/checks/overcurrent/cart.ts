/**
 * A sound utility cart, 48 V, with a 12 V side: eight 6 V blocks, main fuse and disconnect, contactor with pre-charge
 * resistor, controller and series motor, charger fused at the pack, converter onto a small battery that feeds a lamp.
 * Tests change one thing in it.
 */
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing, WireOptions } from "../../../harness/drawing.ts";
import type { Parameters } from "../../../../core/project/document.ts";

export const THICK: WireOptions = {
  size: "2/0 AWG",
  length: "0.4 m",
  sheath: false,
  insulation: { material: "XLPE", volts: "600 V", temperature: "105 C" },
};
export const THIN: WireOptions = {
  size: "16 AWG",
  length: "1 m",
  sheath: false,
  insulation: { material: "PVC", volts: "300 V", temperature: "105 C" },
};
export const SHORT: WireOptions = { length: "0.15 m" };

export interface CartChanges {
  /** Parameters of single parts, by designation. */
  readonly parts?: Readonly<Record<string, Parameters>>;
  /** Fields of single wires, by "G8:+ - F1:1". */
  readonly wires?: Readonly<Record<string, WireOptions>>;
  /** Wires left out. */
  readonly without?: readonly string[];
  /** More parts and wires. */
  readonly more?: (cart: Drawing) => void;
}

export function cart(changes: CartChanges = {}): Drawing {
  const made = drawing();
  const part = (designation: string, kind: string, parameters: Parameters = {}): void => {
    made.part(designation, kind, { ...parameters, ...changes.parts?.[designation] });
  };
  const wire = (pair: string, options: WireOptions): void => {
    if (changes.without?.includes(pair) === true) return;
    const [from = "", to = ""] = pair.split(" - ");
    made.wire(from, to, { ...options, ...changes.wires?.[pair] });
  };
  for (let block = 1; block <= 8; block += 1) {
    part(`G${String(block)}`, "battery-block", {
      chemistry: "flooded-lead",
      cells: "3",
      capacity: "220 Ah",
      resistance: "3 mohm",
    });
  }
  part("F1", "fuse", { rating: "250 A", voltageDc: "80 V", interrupting: "10 kA", curve: "bolted-strip" });
  part("F2", "fuse", { rating: "5 A", voltageDc: "80 V", interrupting: "10 kA", curve: "glass" });
  part("F3", "fuse", { rating: "20 A", voltageDc: "80 V", interrupting: "10 kA", curve: "glass" });
  part("F4", "fuse", { rating: "15 A", voltageDc: "80 V", interrupting: "10 kA", curve: "glass" });
  part("F5", "fuse", { rating: "15 A", voltageDc: "32 V", interrupting: "2 kA", curve: "blade" });
  part("F6", "fuse", { rating: "15 A", voltageDc: "32 V", interrupting: "2 kA", curve: "blade" });
  part("Q9", "manual-disconnect", { breakLoad: "no" });
  part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "15 W", suppression: "diode" });
  part("R1", "resistor", { resistance: "470 ohm", power: "10 W", pulseEnergy: "50 J" });
  part("S1", "key-switch", {});
  part("T1", "dc-controller", {
    nominalMin: "48 V",
    nominalMax: "48 V",
    voltageMin: "30 V",
    voltageMax: "63 V",
    currentContinuous: "150 A",
    inputCapacitance: "5 mF",
    logicFeed: "pack-fed",
    throttleInput: "resistance-rising",
    contactorDriver: "none",
  });
  part("M1", "motor-series", { currentContinuous: "150 A", armatureResistance: "10 mohm", fieldResistance: "5 mohm" });
  part("B2", "throttle-two-wire", {});
  part("T3", "charger", {
    mainsPlug: "yes",
    chemistry: "flooded-lead",
    outputVoltageMax: "58 V",
    outputCurrentMax: "15 A",
    isolated: "yes",
  });
  part("T2", "dc-dc-converter", { outputCurrentMax: "10 A", isolated: "yes", enableInput: "none", inputMin: "36 V" });
  part("G20", "battery-block", {
    duty: "auxiliary",
    chemistry: "agm-lead",
    cells: "6",
    capacity: "20 Ah",
    resistance: "12 mohm",
  });
  part("P1", "lamp", { voltage: "12 V", power: "60 W" });
  part("S2", "switch", {});
  part("X1", "chassis-point", { structure: "body" });
  part("X2", "chassis-point", { structure: "body" });

  for (let block = 1; block < 8; block += 1) wire(`G${String(block)}:+ - G${String(block + 1)}:-`, THICK);
  wire("G8:+ - F1:1", { ...THICK, ...SHORT });
  wire("F1:2 - Q9:line", THICK);
  wire("Q9:load - Q1:line", THICK);
  wire("Q1:load - T1:B+", THICK);
  wire("G1:- - T1:B-", THICK);
  wire("T1:M+ - M1:A1", THICK);
  wire("M1:A2 - M1:S1", THICK);
  wire("M1:S2 - T1:M-", THICK);
  // Control fuse on the load side of the main fuse, on a tap.
  wire("Q9:load - F2:1", { ...THIN, ...SHORT });
  wire("F2:2 - S1:battery", THIN);
  wire("S1:ignition - T1:logic+", THIN);
  wire("S1:ignition - Q1:coil+", THIN);
  wire("Q1:coil- - G1:-", THIN);
  wire("Q1:line - R1:1", { ...THIN, ...SHORT });
  wire("R1:2 - Q1:load", { ...THIN, ...SHORT });
  wire("B2:1 - T1:throttle-1", THIN);
  wire("B2:2 - T1:throttle-2", THIN);
  // Charger, fused at the pack.
  wire("F3:1 - G8:+", { ...THIN, size: "12 AWG", ...SHORT });
  wire("F3:2 - T3:out+", { ...THIN, size: "12 AWG" });
  wire("T3:out- - G1:-", { ...THIN, size: "12 AWG" });
  // Converter and 12 V side, return through the body.
  wire("Q9:load - F4:1", { ...THIN, ...SHORT });
  wire("F4:2 - T2:in+", THIN);
  wire("T2:in- - G1:-", THIN);
  wire("G20:+ - F6:1", { ...THIN, ...SHORT });
  wire("F6:2 - T2:out+", THIN);
  wire("T2:out- - X1:stud", THIN);
  wire("G20:- - X1:stud", { ...THIN, size: "8 AWG" });
  wire("G20:+ - F5:1", { ...THIN, ...SHORT });
  wire("F5:2 - S2:common", THIN);
  wire("S2:out - P1:+", THIN);
  wire("P1:- - X2:stud", THIN);
  changes.more?.(made);
  return made;
}
