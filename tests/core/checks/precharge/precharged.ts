/** The workshop's cart with a pre-charge relay K1 and its resistor R1 across the main contactor Q1, for the tests on them. */
import type { Drawing } from "../../../harness/drawing.ts";
import { COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

/** `null`: somebody looked and does not know. */
type Given = Readonly<Record<string, string | null>>;

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: "200 V" } as const;

/** String, fuse, Q1 and controller T1; Q1's coil, K1 and R1 are for what follows. */
function bare(controller: Given, resistor: Given): Drawing {
  return supplies(8)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", { ...COIL, contactVoltage: "200 V", aux: "make" })
    .part("K1", "relay", RELAY)
    .part("R1", "resistor", resistor)
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      inputCapacitance: "2 mF",
      nominalMin: "96 V",
      currentContinuous: "100 A",
      ...controller,
    })
    .wires(POWER, "G8:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "K1:no - R1:1", "R1:2 - Q1:load", "S1:ignition - T1:logic+", "T1:logic- - X9:stud");
}

/** A timer closes the main contactor three seconds after the key; K1's coil and its feed are left to the test. */
export function timed(resistor: Given, controller: Given = {}): Drawing {
  return bare({ contactorDriver: "none", ...controller }, resistor)
    .part("K2", "timer-relay", { supplyVoltage: "12 V", delay: "3 s", mode: "on-delay" })
    .wires(SMALL, "S1:ignition - K2:supply+", "K2:supply- - X9:stud", "S1:ignition - K2:common")
    .wires(SMALL, "K2:no - Q1:coil+", "Q1:coil- - X9:stud");
}

/** As `timed`, with K1 on the key for as long as it is on; a fuse ahead of it by choice. */
export function onKey(resistor: Given, fuse?: string, controller: Given = {}): Drawing {
  const sketch = timed(resistor, controller).wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud");
  if (fuse === undefined) return sketch.wire("Q1:line", "K1:common", SMALL);
  return sketch.part("F5", "fuse", { rating: fuse }).wires(SMALL, "Q1:line - F5:1", "F5:2 - K1:common");
}

/** The controller pulls in K1 first, and Q1 once its bus is up. */
export function byController(resistor: Given, controller: Given = {}): Drawing {
  return bare({ contactorDriver: "low-side", prechargeThreshold: "90 %", ...controller }, resistor)
    .wires(SMALL, "Q1:line - K1:common", "S1:ignition - K1:coil+", "K1:coil- - T1:precharge-out")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out");
}

/** K1 stays in with the key; the controller closes Q1 once its bus is up. A fuse ahead of K1 by choice. */
export function relayOnKey(resistor: Given, fuse?: string, controller: Given = {}): Drawing {
  const sketch = bare({ contactorDriver: "low-side", prechargeThreshold: "90 %", ...controller }, resistor)
    .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out");
  if (fuse === undefined) return sketch.wire("Q1:line", "K1:common", SMALL);
  return sketch.part("F5", "fuse", { rating: fuse }).wires(SMALL, "Q1:line - F5:1", "F5:2 - K1:common");
}

/** A resistor across the main contactor for good, which the key closes. */
export function always(resistor: Given, controller: Given = {}): Drawing {
  return supplies(8)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", { ...COIL, contactVoltage: "200 V" })
    .part("R1", "resistor", resistor)
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      inputCapacitance: "2 mF",
      contactorDriver: "none",
      currentContinuous: "100 A",
      ...controller,
    })
    .wires(POWER, "G8:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");
}
