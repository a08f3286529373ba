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
