/** A small vehicle of the workshop for the switching and pre-charge tests: string, 12 V side, key; the rest by choice. */
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing } from "../../../harness/drawing.ts";

export const POWER = { size: "35 mm2", length: "0.3 m" } as const;
export const SMALL = { size: "1.5 mm2", length: "1 m" } as const;
export const BLOCK = { chemistry: "flooded-lead", capacity: "100 Ah" } as const;
export const COIL = { coilVoltage: "12 V", coilPower: "12 W" } as const;
const CONTROLLER = {
  logicFeed: "isolated-12v",
  currentContinuous: "150 A",
  inputCapacitance: "2 mF",
  contactorDriver: "none",
} as const;

/** Blocks G1 ... Gn of 12 V in series, and 12 V side: G90 on the body X9, fuse F9, key S1. */
export function supplies(blocks: number, block: Readonly<Record<string, string>> = BLOCK): Drawing {
  const sketch = drawing();
  for (let index = 1; index <= blocks; index += 1) {
    sketch.part(`G${index}`, "battery-block", block);
    if (index > 1) sketch.wire(`G${index - 1}:+`, `G${index}:-`, POWER);
  }
  return sketch
    .part("G90", "battery-block", { chemistry: "flooded-lead", capacity: "60 Ah", duty: "auxiliary" })
    .part("X9", "chassis-point", { structure: "body" })
    .part("F9", "fuse", { rating: "10 A" })
    .part("S1", "key-switch")
    .wires(SMALL, "G90:- - X9:stud", "G90:+ - F9:1", "F9:2 - S1:battery");
}

export interface Choices {
  readonly blocks?: number;
  readonly block?: Readonly<Record<string, string>>;
  /** Ahead of the fuse; none by default is what a test says with `null`. */
  readonly disconnect?: Readonly<Record<string, string>> | null;
  /** In the coil's feed behind the key. */
  readonly stop?: boolean;
  /** Ohms across the main contactor. */
  readonly resistor?: string;
  readonly contactor?: Readonly<Record<string, string>>;
  readonly controller?: Readonly<Record<string, string>>;
  readonly zone?: string;
}

/**
 * A cart: string - Q9 - F1 - Q1 - T1 (dc-controller on its own 12 V supply) - M1, Q1:coil+ behind key and stop.
 * `S2:12` is behind the stop if there is one, else `S1:ignition` feeds.
 */
export function cart(choices: Choices = {}): Drawing {
  const { blocks = 8, block = BLOCK, disconnect = {}, stop = true, resistor } = choices;
  const sketch = supplies(blocks, block)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", { ...COIL, ...choices.contactor })
    .part("T1", "dc-controller", { ...CONTROLLER, ...choices.controller })
    .part("M1", "motor-series", { currentContinuous: "150 A" });
  const plus = `G${blocks}:+`;
  if (disconnect === null) sketch.wire(plus, "F1:1", POWER);
  else {
    if (choices.zone !== undefined) sketch.zone(choices.zone === "passenger" ? "passenger" : "engine");
    sketch
      .part("Q9", "manual-disconnect", disconnect, choices.zone === undefined ? {} : { zone: choices.zone })
      .wires(POWER, `${plus} - Q9:line`, "Q9:load - F1:1");
  }
  sketch
    .wires(POWER, "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(POWER, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "Q1:coil- - X9:stud");
  if (stop) {
    sketch.part("S2", "emergency-stop").wires(SMALL, "S1:ignition - S2:11", "S2:12 - Q1:coil+");
  } else sketch.wire("S1:ignition", "Q1:coil+", SMALL);
  if (resistor !== undefined) {
    sketch
      .part("R1", "resistor", { resistance: resistor, power: "50 W" })
      .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load");
  }
  return sketch;
}

/** Series and parallel stepping between 24 V and 48 V with contactors alone. */
export function stepCar(): Drawing {
  return drawing()
    .part("G1", "battery-block", { ...BLOCK, cells: "12" })
    .part("G2", "battery-block", { ...BLOCK, cells: "12" })
    .part("G90", "battery-block", { chemistry: "flooded-lead", capacity: "60 Ah", duty: "auxiliary" })
    .part("X9", "chassis-point", { structure: "body" })
    .parts("fuse", { rating: "200 A" }, "F1", "F2", "F3")
    .part("F9", "fuse", { rating: "10 A" })
    .part("Q9", "manual-disconnect", { voltageDc: "100 V" })
    .part("Q1", "contactor", { ...COIL, contactVoltage: "100 V" })
    .parts("contactor", { ...COIL, contactVoltage: "100 V", aux: "break" }, "Q2", "Q3", "Q4")
    .part("S1", "key-switch", { contactVoltage: "24 V" })
    .part("S9", "emergency-stop", { contactVoltage: "24 V" })
    .parts("micro-switch", { actuator: "throttle-pedal", contactVoltage: "24 V" }, "S3", "S4")
    .part("M1", "motor-series", { currentContinuous: "100 A" })
    .wires(POWER, "G1:+ - F1:1", "G2:+ - F2:1", "F2:2 - Q9:line", "Q9:load - F3:1", "F3:2 - Q1:line")
    .wires(POWER, "Q1:load - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-")
    .wires(POWER, "F1:2 - Q2:line", "Q2:load - F2:2", "G1:- - Q3:line", "Q3:load - G2:-")
    .wires(POWER, "F1:2 - Q4:line", "Q4:load - G2:-")
    .wires(SMALL, "G90:- - X9:stud", "G90:+ - F9:1", "F9:2 - S1:battery", "S1:ignition - S9:11")
    .wires(SMALL, "S9:12 - S4:common", "S4:no - Q1:coil+", "Q1:coil- - X9:stud", "S9:12 - S3:common")
    .wires(SMALL, "S3:nc - Q4:aux-1", "Q4:aux-2 - Q2:coil+", "Q4:aux-2 - Q3:coil+")
    .wires(SMALL, "S3:no - Q2:aux-1", "Q2:aux-2 - Q3:aux-1", "Q3:aux-2 - Q4:coil+")
    .wires(SMALL, "Q2:coil- - X9:stud", "Q3:coil- - X9:stud", "Q4:coil- - X9:stud")
    .state("light-pedal", "driving", { S3: "free", S4: "actuated" });
}

const LOOP = { coilVoltage: "12 V", coilResistance: "90 ohm" } as const;

/** Split 120 V pack: rear half, rear contactor and fuse, front half, fuse and front contactor; the charger ahead of it. */
export function splitPack(): Drawing {
  return supplies(0)
    .zone("passenger")
    .part("G1", "battery-pack", { chemistry: "flooded-lead", blocks: "5", cells: "6", capacity: "100 Ah" })
    .part("G6", "battery-pack", { chemistry: "flooded-lead", blocks: "5", cells: "6", capacity: "100 Ah" })
    .parts("fuse", { rating: "300 A" }, "F1", "F2")
    .parts("fuse", { rating: "30 A" }, "F3", "F4")
    .part("Q9", "manual-disconnect", { voltageDc: "200 V", breakLoad: "yes" }, { zone: "passenger" })
    .parts("contactor", { ...COIL, contactVoltage: "200 V" }, "Q1", "Q2")
    .part("K1", "relay", { ...LOOP, contactVoltage: "200 V" })
    .part("R1", "resistor", { resistance: "750 ohm", power: "50 W" })
    .part("S4", "micro-switch", { actuator: "charge-flap", contactVoltage: "24 V" })
    .part("T1", "dc-controller", { ...CONTROLLER, nominalMin: "120 V", contactorDriver: "low-side" })
    .part("T3", "charger", {
      mainsPlug: "yes",
      isolated: "yes",
      batteryDetect: "yes",
      chemistry: "flooded-lead",
      outputVoltageMax: "148 V",
      outputCurrentMax: "10 A",
      outputCapacitance: "10 uF",
    })
    .wires(POWER, "G1:+ - Q2:line", "Q2:load - F2:1", "F2:2 - G6:-", "G6:+ - F1:1", "F1:2 - Q9:line")
    .wires(POWER, "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "F1:2 - F3:1", "F3:2 - T3:out+", "T3:out- - F4:2", "F4:1 - G1:-")
    .wires(SMALL, "F9:2 - S4:common", "S4:no - Q2:coil+", "S1:ignition - Q2:coil+", "Q2:coil- - X9:stud")
    .wires(SMALL, "S1:ignition - T3:inhibit-1", "T3:inhibit-2 - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, "T3:inhibit-2 - Q1:coil+", "Q1:coil- - T1:contactor-out")
    .wires(SMALL, "T3:inhibit-2 - K1:coil+", "K1:coil- - T1:precharge-out");
}

/** Two boxes in series, a contactor in each pole of each, disconnects whose second poles carry the interlock loop. */
export function twoBoxes(): Drawing {
  return supplies(0)
    .part("G1", "battery-pack", { chemistry: "nmc", blocks: "24", cells: "2", capacity: "60 Ah" })
    .part("G2", "battery-pack", { chemistry: "nmc", blocks: "24", cells: "2", capacity: "60 Ah" })
    .parts("contactor", { ...COIL, contactVoltage: "450 V" }, "Q1", "Q2", "Q3", "Q4")
    .parts("manual-disconnect", { poles: "2", voltageDc: "450 V" }, "Q8", "Q9")
    .part("K1", "relay", { ...LOOP, contactVoltage: "450 V" })
    .part("R1", "resistor", { resistance: "600 ohm", power: "50 W" })
    .parts("micro-switch", { actuator: "cover", contactVoltage: "24 V" }, "S6", "S7")
    .part("S9", "emergency-stop", { contactVoltage: "24 V" })
    .part("S5", "inertia-switch", { contactVoltage: "24 V" })
    .part("T1", "ac-controller", { ...CONTROLLER, nominalMin: "400 V", contactorDriver: "low-side" })
    .wires(POWER, "G1:- - Q1:line", "Q1:load - T1:B-", "G1:+ - Q8:line", "Q8:load - Q2:line", "Q2:load - Q3:line")
    .wires(POWER, "Q3:load - G2:-", "G2:+ - Q9:line", "Q9:load - Q4:line", "Q4:load - T1:B+")
    .wires(SMALL, "Q4:line - K1:common", "K1:no - R1:1", "R1:2 - Q4:load")
    .wires(SMALL, "S1:ignition - Q8:line-2", "Q8:load-2 - Q9:line-2", "Q9:load-2 - S6:common", "S6:no - S7:common")
    .wires(SMALL, "S7:no - S9:11", "S9:12 - S5:common", "S5:nc - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, "S5:nc - Q1:coil+", "S5:nc - Q2:coil+", "S5:nc - Q3:coil+", "S5:nc - Q4:coil+", "S5:nc - K1:coil+")
    .wires(SMALL, "Q1:coil- - X9:stud", "Q2:coil- - X9:stud", "Q3:coil- - X9:stud", "Q4:coil- - T1:contactor-out")
    .wire("K1:coil-", "T1:precharge-out", SMALL);
}
