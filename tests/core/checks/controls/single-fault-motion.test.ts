import { singleFaultMotion } from "../../../../core/checks/controls/single-fault-motion.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { inverter320 } from "../known-good.ts";
import { cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

const BOOTED = { finish: "booted" } as const;
const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm", ...BOOTED } as const;

/** A boat whose contactor hangs on key and stop in a row. */
const boat = () =>
  supplies(2)
    .part("F1", "fuse", { rating: "100 A", ...BOOTED })
    .part("Q1", "contactor", { ...COIL, ...BOOTED })
    .part("S2", "emergency-stop", BOOTED)
    .part("M1", "motor-permanent-magnet", { currentContinuous: "40 A", resistance: "0.5 ohm", ...BOOTED })
    .wires(POWER, "G2:+ - F1:1", "F1:2 - Q1:line", "Q1:load - M1:+", "M1:- - G1:-")
    .wires(SMALL, "S1:ignition - S2:11", "S2:12 - Q1:coil+", "Q1:coil- - X9:stud");

/** A cart on contactors: Q2 behind key and stop, Q1 on the pedal. */
const pedalled = (extra: boolean) => {
  const sketch = supplies(2)
    .part("F1", "fuse", { rating: "100 A", ...BOOTED })
    .parts("contactor", { ...COIL, ...BOOTED }, "Q1", "Q2", "Q3")
    .part("S2", "emergency-stop", BOOTED)
    .part("S3", "micro-switch", { actuator: "throttle-pedal", ...BOOTED })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "40 A", resistance: "0.5 ohm", ...BOOTED })
    .wires(POWER, "G2:+ - F1:1", "F1:2 - Q2:line", "Q2:load - Q1:line", "M1:- - G1:-")
    .wires(SMALL, "S1:ignition - S2:11", "S2:12 - Q2:coil+", "Q2:coil- - X9:stud", "S2:12 - S3:common")
    .wires(SMALL, "S3:no - Q1:coil+", "Q1:coil- - X9:stud");
  return extra
    ? sketch.wires(POWER, "Q1:load - Q3:line", "Q3:load - M1:+").wires(SMALL, "S3:no - Q3:coil+", "Q3:coil- - X9:stud")
    : sketch.wire("Q1:load", "M1:+", POWER);
};

/** A cart whose logic and coil both hang on the contact of one relay behind key and stop. */
const oneRelay = (apart: boolean) => {
  const sketch = supplies(4)
    .part("F1", "fuse", { rating: "250 A", ...BOOTED })
    .part("Q1", "contactor", { ...COIL, ...BOOTED })
    .part("K5", "relay", RELAY)
    .part("S2", "emergency-stop", BOOTED)
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      currentContinuous: "100 A",
      contactorDriver: "none",
      throttleFaultBand: "yes",
      ...BOOTED,
    })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "100 A", ...BOOTED })
    .wires(POWER, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(POWER, "T1:M+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "S1:ignition - S2:11", "S2:12 - K5:coil+", "K5:coil- - X9:stud", "F9:2 - K5:common")
    .wires(SMALL, "T1:logic- - X9:stud", "Q1:coil- - X9:stud", "K5:no - Q1:coil+");
  return sketch.wire(apart ? "S1:ignition" : "K5:no", "T1:logic+", SMALL);
};

/** The cart with key and stop in a row ahead of logic and coil, led through a plug that also carries the constant feed. */
const plugged = () =>
  supplies(4)
    .part("Q1", "contactor", { ...COIL, ...BOOTED })
    .part("S2", "emergency-stop", BOOTED)
    .part("X1", "connector", { positions: "2" })
    .part("P1", "lamp", { voltage: "12 V", power: "5 W", ...BOOTED })
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      currentContinuous: "100 A",
      contactorDriver: "none",
      throttleFaultBand: "yes",
      ...BOOTED,
    })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "100 A", ...BOOTED })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "T1:M+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "F9:2 - X1:1a", "X1:1b - P1:+", "P1:- - X9:stud", "S1:ignition - S2:11", "S2:12 - X1:2a")
    .wires(SMALL, "X1:2b - Q1:coil+", "X1:2b - T1:logic+", "Q1:coil- - X9:stud", "T1:logic- - X9:stud");

checkTable(singleFaultMotion, {
  fails: [
    {
      name: "one contactor alone, and it welds",
      drawing: boat().build(),
      at: "Q1",
      message: "unstoppable",
      severity: "DANGER",
    },
    {
      name: "the pedal's contactor welds",
      drawing: pedalled(false).build(),
      at: "Q1",
      message: "idle",
      severity: "DANGER",
    },
    {
      name: "one relay for key and stop, and it welds",
      drawing: oneRelay(false).build(),
      at: "K5",
      message: "unstoppable",
      severity: "DANGER",
    },
    {
      name: "a plug with the constant feed beside the switched one",
      drawing: plugged().build(),
      at: "X1:1a",
      message: "unstoppable",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "two contactors on the pedal, one behind key and stop", drawing: pedalled(true).build(), at: "M1:+" },
    { name: "key on the logic, stop on the coil's relay", drawing: oneRelay(true).build(), at: "T1:B+" },
    { name: "the cart with key on the logic and stop in the coil's feed", drawing: cart().build(), at: "T1:B+" },
    { name: "inverter that closes its own contactor", drawing: inverter320().build(), at: "T1:B+" },
  ],
  notChecked: [
    {
      name: "nobody says what moves a contact in the interlock",
      drawing: cart()
        .part("S3", "micro-switch")
        .wires(SMALL, "S1:ignition - S3:common", "S3:no - T1:interlock")
        .build(),
      at: "T1:B+",
      reason: "never",
      missing: ["S3.actuator"],
    },
  ],
  doesNotApply: [{ name: "no drive", drawing: supplies(2).build() }],
});
