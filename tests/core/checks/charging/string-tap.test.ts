import { stringTap } from "../../../../core/checks/charging/string-tap.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, stepCar, supplies } from "../switching/vehicle.ts";

/** Eighteen blocks, a converter behind a contactor on all of them, and a lead from the tap at thirteen past that contactor. */
const jumped = (contact: Readonly<Record<string, string>> = {}) =>
  cart({ blocks: 18, disconnect: null })
    .part("F2", "fuse", { rating: "40 A" })
    .part("Q4", "contactor", { ...COIL, ...contact })
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "20 A" })
    .wires(SMALL, "G18:+ - Q4:line", "Q4:load - T2:in+", "T2:in- - G1:-", "G13:+ - F2:1", "F2:2 - Q4:load")
    .wires(SMALL, "T2:out+ - G90:+", "T2:out- - X9:stud");

/** A lamp of the 12 V kind on the lowest block, behind what the test says. */
const lamp = (behind: "nothing" | Readonly<Record<string, string>>) => {
  const sketch = cart({ blocks: 4 })
    .part("F5", "fuse", { rating: "5 A" })
    .part("P5", "lamp", { voltage: "12 V", power: "21 W" })
    .wires(SMALL, "G1:+ - F5:1", "P5:- - G1:-");
  return behind === "nothing"
    ? sketch.wire("F5:2", "P5:+", SMALL)
    : sketch.part("S5", "micro-switch", behind).wires(SMALL, "F5:2 - S5:common", "S5:no - P5:+");
};

checkTable(stringTap, {
  fails: [
    {
      name: "converter's contactor bridged with a lead from the wrong tap",
      drawing: jumped().wires(SMALL, "S1:ignition - Q4:coil+", "Q4:coil- - X9:stud").build(),
      at: "Q4",
      message: "joined",
      severity: "DANGER",
    },
    {
      name: "two switches from two taps to one rail, one of them flipped by hand",
      drawing: supplies(4)
        .part("F2", "fuse", { rating: "10 A" })
        .parts("switch", { contactVoltage: "80 V" }, "S5", "S6")
        .part("E1", "load", { voltage: "48 V", power: "50 W" })
        .wires(SMALL, "G4:+ - F2:1", "F2:2 - S5:common", "S5:out - E1:+", "G2:+ - S6:common", "S6:out - E1:+")
        .wires(SMALL, "E1:- - G1:-")
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none" })
        .wires(POWER, "G4:+ - T1:B+", "T1:B- - G1:-")
        .build(),
      at: "S5",
      message: "joined",
      severity: "DANGER",
    },
    {
      name: "12 V lamp on one block of four",
      drawing: lamp("nothing").build(),
      at: "P5:+",
      message: "load",
      severity: "WARNING",
      value: 12.6,
      limit: 50.5,
    },
    {
      name: "controller's logic on two blocks of six",
      drawing: supplies(6)
        .part("F5", "fuse", { rating: "5 A" })
        .part("S4", "key-switch")
        .part("Q1", "contactor", COIL)
        .part("T1", "dc-controller", { logicFeed: "pack-fed", contactorDriver: "none" })
        .wires(POWER, "G6:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "G2:+ - F5:1", "F5:2 - S4:battery", "S4:ignition - T1:logic+")
        .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud")
        .build(),
      at: "T1:logic+",
      message: "load",
      severity: "WARNING",
    },
    {
      name: "12 V side of a lorry: a relay on the lower battery of two",
      drawing: supplies(4)
        .part("G91", "battery-block", { chemistry: "flooded-lead", capacity: "60 Ah", duty: "auxiliary" })
        .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .part("P6", "lamp", { voltage: "24 V", power: "40 W" })
        .wires(POWER, "G90:+ - G91:-")
        .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud", "G91:+ - P6:+", "P6:- - X9:stud")
        .build(),
      at: "K1:coil+",
      message: "load",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "everything on the whole string", drawing: cart().build(), at: ["T1:B+", "T1:logic+", "Q1:coil+"] },
    { name: "halves in series and side by side behind an interlock", drawing: stepCar().build() },
    {
      name: "monitor and voltmeter on a tap",
      drawing: cart({ blocks: 4 })
        .part("P5", "voltmeter", { rangeMax: "30 V" })
        .part("B1", "battery-monitor", { isolated: "yes", taps: "4" })
        .wires(SMALL, "G2:+ - P5:+", "P5:- - G1:-", "G1:- - B1:tap-0", "G1:+ - B1:tap-1", "G2:+ - B1:tap-2")
        .wires(SMALL, "G3:+ - B1:tap-3", "G4:+ - B1:tap-4")
        .build(),
      at: "T1:B+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what moves the contact ahead of a lamp on one block",
      drawing: lamp({}).build(),
      at: "P5:+",
      reason: "undecided",
      missing: ["S5.actuator"],
    },
  ],
  doesNotApply: [{ name: "no load", drawing: supplies(4).build() }],
});
