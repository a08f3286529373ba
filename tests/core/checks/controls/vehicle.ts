/** Vehicles for the checks on controls, beside the cart and the step car of the switching tests. */
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { BLOCK, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

/** A boat of 24 V: F1 - Q9 - Q1 - M1, no controller. Q1:coil+ hangs on `coil`; with null the test leads it itself. */
export function boat(coil: string | null = "S1:ignition"): Drawing {
  const sketch = supplies(2)
    .part("F1", "fuse", { rating: "100 A" })
    .part("Q9", "manual-disconnect", { voltageDc: "60 V" })
    .part("Q1", "contactor", COIL)
    .part("M1", "motor-permanent-magnet", { currentContinuous: "40 A", resistance: "0.5 ohm" })
    .wires(POWER, "G2:+ - F1:1", "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - M1:+", "M1:- - G1:-")
    .wire("Q1:coil-", "X9:stud", SMALL);
  return coil === null ? sketch : sketch.wire(coil, "Q1:coil+", SMALL);
}

/**
 * A kart of 48 V whose controller is fed from the pack and closes its own contactor; `feed` is where both
 * hang; with null the test leads them itself.
 */
export function kart(feed: string | null, parameters: Readonly<Record<string, string>> = {}): Drawing {
  const sketch = drawing();
  for (let index = 1; index <= 4; index += 1) {
    sketch.part(`G${index}`, "battery-block", BLOCK);
    if (index > 1) sketch.wire(`G${index - 1}:+`, `G${index}:-`, POWER);
  }
  sketch
    .part("F1", "fuse", { rating: "250 A" })
    .part("F2", "fuse", { rating: "10 A" })
    .part("S1", "key-switch")
    .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "12 W" })
    .part("R1", "resistor", { resistance: "470 ohm" })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "100 A" })
    .part("T1", "dc-controller", {
      logicFeed: "pack-fed",
      contactorDriver: "low-side",
      nominalMin: "48 V",
      inputCapacitance: "2 mF",
      currentContinuous: "150 A",
      ...parameters,
    })
    .wires(POWER, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(POWER, "T1:M+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "F1:2 - F2:1", "F2:2 - S1:battery", "Q1:line - R1:1", "R1:2 - Q1:load")
    .wire("Q1:coil-", "T1:contactor-out", SMALL);
  return feed === null ? sketch : sketch.wires(SMALL, `${feed} - Q1:coil+`, `${feed} - T1:logic+`);
}
