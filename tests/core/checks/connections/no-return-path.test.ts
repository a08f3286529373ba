import { noReturnPath } from "../../../../core/checks/connections/no-return-path.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

const WIRE = { size: "2.5 mm2", length: "1 m" };

/** 12 V battery, fuse and two lamps with their minus on the body; the battery's own minus as given. */
const lamps = () =>
  drawing()
    .part("G20", "battery-block", { chemistry: "flooded-lead", capacity: "40 Ah" })
    .part("F2", "fuse", { rating: "10 A" })
    .parts("lamp", { voltage: "12 V", power: "20 W" }, "P1", "P2")
    .part("X2", "chassis-point", { structure: "body" })
    .wires(WIRE, "G20:+ - F2:1", "F2:2 - P1:+", "F2:2 - P2:+", "P1:- - X2:stud", "P2:- - X2:stud");

/** A 48 V cart without 12 V: key, contactor, motor. */
const cart = (...wires: readonly string[]) =>
  drawing()
    .parts("battery-block", { chemistry: "agm-lead", capacity: "100 Ah", cells: "12" }, "G1", "G2")
    .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "20 W" })
    .part("S1", "key-switch")
    .part("M1", "motor-series", { currentContinuous: "80 A" })
    .wires(WIRE, "G1:+ - G2:-", "G2:+ - Q1:line", "G2:+ - S1:battery", "S1:ignition - Q1:coil+")
    .wires(WIRE, ...wires)
    .build();

const MOTOR = ["Q1:load - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-"];

checkTable(noReturnPath, {
  fails: [
    {
      name: "battery on the motor's metal, lamps on the body, nothing between",
      drawing: lamps().part("X1", "chassis-point", { structure: "motor" }).wire("G20:-", "X1:stud", WIRE).build(),
      at: "P1:-",
      message: "lost",
      severity: "WARNING",
    },
    {
      name: "the battery's minus is not wired: one finding for both lamps",
      drawing: lamps().build(),
      at: "P1:-",
      message: "lost",
      severity: "WARNING",
    },
    {
      name: "a contactor coil without its return",
      drawing: cart(...MOTOR),
      at: "Q1:coil-",
      message: "lost",
      severity: "WARNING",
    },
    {
      name: "the motor's last lead is missing",
      drawing: cart(...MOTOR.slice(0, 2), "Q1:coil- - G1:-"),
      at: "M1:A2",
      message: "lost",
      severity: "WARNING",
    },
    {
      name: "plus and minus of a coil exchanged, and no return",
      drawing: drawing()
        .part("G20", "battery-block", { chemistry: "agm-lead" })
        .part("K1", "relay")
        .part("P1", "lamp")
        .wires(WIRE, "G20:+ - K1:coil-", "G20:+ - K1:common", "K1:no - P1:+", "P1:- - G20:-")
        .build(),
      at: "K1:coil+",
      message: "lost",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "a whole tug", drawing: tug(), at: ["T1:B-", "T1:logic-", "M1:S2", "Q1:coil-", "T2:in-"] },
    {
      name: "body and motor joined by a strap",
      drawing: lamps()
        .part("X1", "chassis-point", { structure: "motor" })
        .wires(WIRE, "G20:- - X1:stud", "X1:stud - X2:stud")
        .build(),
      at: ["P1:-", "P2:-"],
    },
    { name: "a contactor cart", drawing: cart(...MOTOR, "Q1:coil- - G1:-"), at: ["Q1:coil-", "M1:A2"] },
    {
      name: "a coil whose return is an output that is off in every state",
      drawing: drawing()
        .part("G20", "battery-block", { chemistry: "agm-lead" })
        .part("K5", "control-unit", { inputs: "1", outputs: "1", outputType: "low-side" })
        .part("K1", "relay")
        .wires(WIRE, "G20:+ - K5:supply+", "K5:supply- - G20:-", "G20:+ - K1:coil+", "K1:coil- - K5:out-1")
        .build(),
      at: ["K1:coil-"],
    },
    {
      name: "a charger without isolation on its own cord, earthed to the body",
      drawing: lamps()
        .part("T3", "charger", { mainsPlug: "yes", isolated: "no", outputVoltageMax: "14.4 V" })
        .wires(WIRE, "G20:- - X2:stud", "T3:out+ - F2:2", "T3:out- - X2:stud", "T3:PE - X2:stud")
        .build(),
      at: ["P1:-", "P2:-"],
    },
    {
      name: "a motor on two halves that contacts put in series or side by side",
      drawing: drawing()
        .parts("battery-block", { chemistry: "agm-lead", cells: "12" }, "G1", "G2")
        .parts("contactor", { coilVoltage: "24 V" }, "Q2", "Q3", "Q4")
        .part("M1", "motor-series")
        .wires(WIRE, "G1:+ - Q4:line", "Q4:load - G2:-", "G1:+ - Q2:line", "Q2:load - G2:+")
        .wires(WIRE, "G2:- - Q3:line", "Q3:load - G1:-", "G2:+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-")
        .build(),
      at: ["M1:A2", "M1:S2"],
    },
    {
      name: "two lamps in series",
      drawing: drawing()
        .part("G20", "battery-block", { chemistry: "agm-lead" })
        .parts("lamp", {}, "P1", "P2")
        .wires(WIRE, "G20:+ - P1:+", "P1:- - P2:+", "P2:- - G20:-")
        .build(),
      at: ["P1:-", "P2:-"],
    },
  ],
  doesNotApply: [
    {
      name: "a lamp that nothing feeds",
      drawing: drawing()
        .part("P1", "lamp")
        .part("X1", "chassis-point")
        .part("G20", "battery-block", { chemistry: "agm-lead" })
        .wires(WIRE, "P1:- - X1:stud", "G20:- - X1:stud")
        .build(),
    },
    { name: "an empty sheet", drawing: drawing().build() },
  ],
});
