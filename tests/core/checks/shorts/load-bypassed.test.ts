import { loadBypassed } from "../../../../core/checks/shorts/load-bypassed.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { HEAVY, inverter320, resistorAcrossSolenoid, SMALL, stepCar, string } from "../known-good.ts";

checkTable(loadBypassed, {
  fails: [
    {
      name: "a wire across a lamp",
      drawing: string(drawing(), 1)
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(SMALL, "G1:+ - P1:+", "P1:- - G1:-", "P1:+ - P1:-")
        .build(),
      at: "P1:+",
      message: "bypassed",
      severity: "WARNING",
      remedies: ["take-off-wire"],
    },
    {
      name: "both ends of a motor's field on one stud",
      drawing: resistorAcrossSolenoid().wire("M1:S1", "M1:S2", HEAVY).build(),
      at: "M1:S1",
      message: "bypassed",
      severity: "WARNING",
      remedies: ["take-off-wire"],
    },
    {
      name: "both ends of a coil on the chassis",
      drawing: drawing()
        .part("X1", "chassis-point", { structure: "body" })
        .part("X2", "chassis-point", { structure: "body" })
        .part("K1", "relay", { coilVoltage: "12 V" })
        .wires(SMALL, "K1:coil+ - X1:stud", "K1:coil- - X2:stud")
        .build(),
      at: "K1:coil+",
      message: "bypassed",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "a cable beside the shunt",
      drawing: string(drawing(), 2)
        .part("B1", "shunt", { ratedCurrent: "500 A" })
        .part("E1", "load", { voltage: "24 V", power: "500 W" })
        .wires(HEAVY, "G2:+ - B1:line", "B1:load - E1:+", "E1:- - G1:-", "B1:line - B1:load")
        .build(),
      at: "B1:line",
      message: "bypassed",
      severity: "WARNING",
      remedies: ["take-off-wire"],
    },
    {
      name: "both ends of a gauge's input on one post",
      drawing: string(drawing(), 2)
        .part("P1", "gauge", { isolated: "yes" })
        .wires(SMALL, "P1:sense+ - G2:+", "P1:sense- - G2:+", "P1:supply+ - G2:+", "P1:supply- - G1:-")
        .build(),
      at: "P1:sense+",
      message: "bypassed",
      severity: "WARNING",
      remedies: [],
    },
  ],
  passes: [
    { name: "48 V cart", drawing: resistorAcrossSolenoid().build(), at: ["M1", "Q1", "T1", "B1"] },
    { name: "inverter of 320 V", drawing: inverter320().build(), at: ["M1", "Q1", "B1"] },
    { name: "series/parallel car", drawing: stepCar().build(), at: ["M1", "Q4"] },
    {
      name: "a current sensor is one piece of metal by its make",
      drawing: string(drawing(), 1)
        .part("B1", "current-sensor")
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(SMALL, "G1:+ - B1:line", "B1:load - P1:+", "P1:- - G1:-", "B1:line - B1:load")
        .wires(SMALL, "B1:supply - G1:+", "B1:ground - G1:-")
        .build(),
      at: ["B1", "P1"],
    },
    {
      name: "unused upper taps of a monitor tied together",
      drawing: string(drawing(), 2)
        .part("B1", "battery-monitor", { taps: "3" })
        .wires(SMALL, "B1:tap-0 - G1:-", "B1:tap-1 - G1:+", "B1:tap-2 - G2:+", "B1:tap-3 - G2:+")
        .part("P1", "lamp")
        .wires(SMALL, "P1:+ - G2:+", "P1:- - G1:-")
        .build(),
      at: "P1",
    },
  ],
  doesNotApply: [
    {
      name: "a lamp with one wire",
      drawing: string(drawing(), 1).part("P1", "lamp").wire("G1:+", "P1:+", SMALL).build(),
    },
    { name: "batteries alone", drawing: string(drawing(), 2).build() },
  ],
});
