import { sourceShorted } from "../../../../core/checks/shorts/source-shorted.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import {
  AUXILIARY,
  BLOCK,
  earthedWhileCharging,
  HEAVY,
  resistorAcrossSolenoid,
  SMALL,
  stepCar,
  string,
} from "../known-good.ts";
import { swapped } from "../mistakes.ts";

const ring = () => string(drawing(), 4).wire("G4:+", "G1:-", HEAVY).build();

/** Two boat batteries on a selector; one jumper makes them a row although both sit on the hull. */
const selector = (jumper: boolean) => {
  const sketch = drawing()
    .parts("battery-block", { ...BLOCK, duty: "auxiliary" }, "G1", "G2")
    .part("S1", "selector-switch", { both: "yes", contactCurrent: "200 A" })
    .part("X1", "chassis-point", { structure: "hull" })
    .part("E1", "load", { voltage: "12 V", power: "200 W" })
    .wires(HEAVY, "S1:a - G1:+", "S1:b - G2:+", "S1:common - E1:+")
    .wires(HEAVY, "G1:- - X1:stud", "G2:- - X1:stud", "E1:- - X1:stud");
  return (jumper ? sketch.wire("G1:+", "G2:-", HEAVY) : sketch).build();
};

/** Pack of 220 V with a tap at 155 V, a lead from the tap to the converter's feed. */
const wrongTap = (lead: boolean) => {
  const sketch = string(drawing(), 18)
    .part("G20", "battery-block", AUXILIARY)
    .part("Q4", "contactor", { coilVoltage: "12 V", coilPower: "12 W", currentContinuous: "100 A" })
    .part("F2", "fuse", { rating: "40 A" })
    .part("S1", "key-switch")
    .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "100 V", outputCurrentMax: "40 A" })
    .wires(HEAVY, "G18:+ - Q4:line", "Q4:load - T2:in+", "T2:in- - G1:-", "T2:out+ - G20:+", "T2:out- - G20:-")
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - Q4:coil+", "Q4:coil- - G20:-");
  return (lead ? sketch.wires(SMALL, "G13:+ - F2:1", "F2:2 - Q4:load") : sketch).build();
};

/** Three gauges of which supply and input share a minus inside, on one 12 V supply that floats. */
const gauges = (isolated: "yes" | "no") =>
  string(drawing(), 6)
    .part("G20", "battery-block", AUXILIARY)
    .part("X1", "chassis-point", { structure: "body" })
    .part("B1", "shunt", { ratedCurrent: "500 A" })
    .part("T4", "dc-dc-converter", { isolated: "yes", inputMin: "9 V", outputVoltage: "12 V", outputCurrentMax: "1 A" })
    .parts("gauge", { isolated }, "P1", "P2", "P3")
    .part("E1", "load", { voltage: "72 V", power: "2 kW" })
    .wires(HEAVY, "G6:+ - B1:line", "B1:load - E1:+", "E1:- - G1:-")
    .wires(SMALL, "G20:+ - T4:in+", "G20:- - T4:in-", "G20:- - X1:stud")
    .wires(SMALL, "T4:out+ - P1:supply+", "T4:out+ - P2:supply+", "T4:out+ - P3:supply+")
    .wires(SMALL, "T4:out- - P1:supply-", "T4:out- - P2:supply-", "T4:out- - P3:supply-")
    .wires(SMALL, "P1:sense+ - G6:+", "P1:sense- - G1:-", "P2:sense+ - B1:sense-load", "P2:sense- - B1:sense-line")
    .wires(SMALL, "P3:sense+ - G20:+", "P3:sense- - X1:stud")
    .build();

/** A short behind a contactor that its controller never closes on it. */
const behindContactor = () =>
  string(drawing(), 4)
    .part("G20", "battery-block", AUXILIARY)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W", currentContinuous: "200 A" })
    .part("S1", "key-switch")
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", nominalMin: "48 V", contactorDriver: "low-side" })
    .wires(HEAVY, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "T1:B- - T1:B+")
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - G20:-")
    .build();

const unsized = (resistance: string | undefined) =>
  drawing()
    .part("G1", "battery-block", {
      chemistry: "agm-lead",
      ...(resistance === undefined ? {} : { resistance }),
    })
    .wire("G1:+", "G1:-", { length: "1 m" })
    .build();

checkTable(sourceShorted, {
  fails: [
    { name: "four blocks wired as a closed ring", drawing: ring(), at: "G1", message: "shorted", severity: "DANGER" },
    {
      name: "a jumper puts one of two boat batteries across the hull",
      drawing: selector(true),
      at: "G1",
      message: "shorted",
      severity: "DANGER",
    },
    {
      name: "lead from the wrong tap of a pack",
      drawing: wrongTap(true),
      at: "G14",
      message: "shorted",
      severity: "DANGER",
      limit: 25,
    },
    {
      name: "reversed diode across a coil",
      drawing: swapped(resistorAcrossSolenoid().build(), "R2:anode", "R2:cathode"),
      at: "G1",
      message: "shorted",
      severity: "DANGER",
      limit: 10,
    },
    {
      name: "wire across a bus that the controller does not close on",
      drawing: behindContactor(),
      at: "G1",
      message: "shorted",
      severity: "DANGER",
    },
    {
      name: "gauges without isolation on one supply, their inputs at both ends of the pack",
      drawing: gauges("no"),
      at: "G1",
      message: "shorted",
      severity: "DANGER",
    },
    {
      name: "wire of unstated size across a battery",
      drawing: unsized("8 mohm"),
      at: "G1",
      message: "shorted",
      severity: "DANGER",
      value: 1430,
      limit: 510,
      except: { contact: "the contact's own 10 mohm brings the current below what a wire of any size carries" },
    },
  ],
  passes: [
    { name: "string of four, open at its ends", drawing: string(drawing(), 4).build(), at: ["G1", "G4"] },
    { name: "two boat batteries on a selector", drawing: selector(false), at: ["G1", "G2"] },
    { name: "pack without the lead from its tap", drawing: wrongTap(false), at: "G14" },
    { name: "gauges with isolation on one supply", drawing: gauges("yes"), at: ["G1", "T4"] },
    { name: "interlocked halves in series and parallel", drawing: stepCar().build(), at: ["G1", "G3"] },
    {
      name: "charger and converter charge batteries",
      drawing: earthedWhileCharging().build(),
      at: ["G1", "G20", "T2", "T3"],
    },
  ],
  notChecked: [
    {
      name: "wire of unstated size across a battery of high resistance",
      drawing: unsized("50 mohm"),
      at: "G1",
      reason: "unrated",
      missing: ["W1.size", "G1.dischargeMax"],
    },
    {
      name: "battery of unstated resistance",
      drawing: unsized(undefined),
      at: "G1",
      reason: "unknownResistance",
      missing: ["G1.resistance"],
    },
  ],
  doesNotApply: [{ name: "no source at all", drawing: drawing().part("P1", "lamp").build() }],
});
