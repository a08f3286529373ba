/** Arrangements reported from the field to work, and troubles of which one cause makes several checks speak. */
import { describe, expect, test } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { connectorMismatch } from "../../../../core/checks/connections/connector-mismatch.ts";
import { designationDuplicate } from "../../../../core/checks/connections/designation-duplicate.ts";
import { lugMisfit } from "../../../../core/checks/connections/lug-misfit.ts";
import { noReturnPath } from "../../../../core/checks/connections/no-return-path.ts";
import { stateUnreachable } from "../../../../core/checks/connections/state-unreachable.ts";
import { studCrowded } from "../../../../core/checks/connections/stud-crowded.ts";
import { terminalUnconnected } from "../../../../core/checks/connections/terminal-unconnected.ts";
import { wireLooseEnd } from "../../../../core/checks/connections/wire-loose-end.ts";
import { throttleMismatch } from "../../../../core/checks/controls/throttle-mismatch.ts";
import { dataMissing } from "../../../../core/checks/drawing/data-missing.ts";
import { limitsUnstated } from "../../../../core/checks/drawing/limits-unstated.ts";
import { runChecks } from "../../../../core/checks/run.ts";
import type { Project } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

const CHECKS = [
  terminalUnconnected,
  wireLooseEnd,
  noReturnPath,
  stateUnreachable,
  designationDuplicate,
  studCrowded,
  lugMisfit,
  connectorMismatch,
  throttleMismatch,
  dataMissing,
  limitsUnstated,
];

const told = (project: Project): string[] =>
  runChecks(analyse(project), CHECKS)
    .findings.filter(({ severity }) => severity !== "NOTICE")
    .map(({ check, title, folded }) => `${check.id}: ${title} [${folded.map((under) => under.check.id).join(" ")}]`);

const HEAVY = { size: "70 mm2", length: "0.5 m" };
const SMALL = { size: "1.5 mm2", length: "2 m" };

/** `count` 12 V blocks in series, a 12 V battery on the body, a motor on its controller. */
const vehicle = (count: number, controller: Readonly<Record<string, string>> = {}) => {
  const sketch = drawing();
  for (let block = 1; block <= count; block += 1) {
    sketch.part(`G${block}`, "battery-block", { chemistry: "agm-lead", capacity: "100 Ah" });
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  return sketch
    .part("F1", "fuse", { rating: "300 A", curve: "traction-gR" })
    .part("Q9", "manual-disconnect")
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .part("M1", "motor-series", { currentContinuous: "150 A" })
    .part("B2", "throttle-two-wire")
    .part("G40", "battery-block", { chemistry: "agm-lead", capacity: "22 Ah", duty: "auxiliary" })
    .parts("chassis-point", { structure: "body" }, "X1", "X2", "X3")
    .part("F9", "fuse", { rating: "15 A", curve: "blade" })
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      nominalMin: `${count * 12} V`,
      currentContinuous: "180 A",
      throttleInput: "resistance-rising",
      throttleIdle: "0 ohm",
      throttleFull: "5 kohm",
      contactorDriver: "high-side",
      inputCapacitance: "2 mF",
      ...controller,
    })
    .wires(HEAVY, `G${count}:+ - F1:1`, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "G40:- - X1:stud", "G40:+ - F9:1", "F9:2 - S1:battery", "B2:1 - T1:throttle-1")
    .wires(SMALL, "B2:2 - T1:throttle-2", "S1:ignition - S9:11", "T1:logic- - X1:stud", "Q1:coil- - X2:stud");
};

describe("known to work", () => {
  test("a resistor across the solenoid for good, key and stop in the coil's feed", () => {
    const cart = vehicle(4)
      .part("R1", "resistor", { resistance: "470 ohm", power: "10 W" })
      .wires(HEAVY, "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
      .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "S9:12 - Q1:coil+", "S1:ignition - T1:logic+")
      .build();
    expect(told(cart)).toEqual([]);
  });

  test("the controller closes its own contactor after its own pre-charge relay", () => {
    const car = vehicle(27, { prechargeThreshold: "90 %" })
      .part("F2", "fuse", { rating: "5 A" })
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .part("R1", "resistor", { resistance: "600 ohm", power: "50 W" })
      .wires(HEAVY, "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
      .wires(SMALL, "Q1:line - F2:1", "F2:2 - K1:common", "K1:no - R1:1", "R1:2 - Q1:load", "K1:coil- - X2:stud")
      .wires(SMALL, "T1:precharge-out - K1:coil+", "T1:contactor-out - Q1:coil+", "S9:12 - T1:logic+")
      .build();
    expect(told(car)).toEqual([]);
  });

  test("timed pre-charge with a lamp on the timer's resting contact", () => {
    const car = vehicle(12)
      .part("Q2", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
      .part("K2", "timer-relay", { supplyVoltage: "12 V", delay: "5 s" })
      .part("R1", "resistor", { resistance: "750 ohm", power: "50 W" })
      .part("P1", "lamp", { voltage: "12 V", power: "2 W" })
      .wires(HEAVY, "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - Q2:load", "Q2:line - G1:-")
      .wires(SMALL, "Q9:load - R1:1", "R1:2 - T1:B+", "S9:12 - K2:supply+", "K2:supply- - X2:stud", "S9:12 - K2:common")
      .wires(SMALL, "K2:no - Q1:coil+", "K2:nc - P1:+", "P1:- - X3:stud", "S9:12 - Q2:coil+", "Q2:coil- - X3:stud")
      .wires(SMALL, "S1:ignition - T1:logic+")
      .build();
    expect(told(car)).toEqual([]);
  });

  test("main contactor and logic feed both opened by the pedal", () => {
    const car = vehicle(12, { logicFeed: "pack-fed", externalCut: "allowed" })
      .part("S3", "micro-switch", { actuator: "throttle-pedal" })
      .parts("relay", { coilVoltage: "12 V", coilResistance: "90 ohm" }, "K1", "K2")
      .part("R1", "resistor", { resistance: "750 ohm" })
      .part("F3", "fuse", { rating: "1 A" })
      .wires(HEAVY, "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
      .wires(SMALL, "S9:12 - S3:common", "S3:no - Q1:coil+", "S3:no - K2:coil+", "K2:coil- - X2:stud")
      .wires(SMALL, "Q9:load - F3:1", "F3:2 - K2:common", "K2:no - T1:logic+")
      .wires(
        SMALL,
        "S1:ignition - K1:coil+",
        "K1:coil- - X3:stud",
        "Q1:line - K1:common",
        "K1:no - R1:1",
        "R1:2 - Q1:load",
      )
      .build();
    expect(told(car)).toEqual([]);
  });

  test("charger on an inlet, its inhibit contact in the enable chain", () => {
    const car = vehicle(12)
      .part("X9", "inlet")
      .part("T3", "charger", {
        isolated: "yes",
        mainsPlug: "no",
        outputVoltageMax: "176 V",
        outputCurrentMax: "10 A",
        chemistry: "agm-lead",
        inhibitFollows: "plugged",
      })
      .part("F4", "fuse", { rating: "30 A" })
      .wires(HEAVY, "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
      .wires(SMALL, "X9:L - T3:L", "X9:N - T3:N", "X9:PE - T3:PE", "X9:PE - X3:stud", "F1:2 - F4:1", "F4:2 - T3:out+")
      .wires(SMALL, "T3:out- - G1:-", "S9:12 - T3:inhibit-1", "T3:inhibit-2 - T1:interlock", "S9:12 - Q1:coil+")
      .wires(SMALL, "S1:ignition - T1:logic+")
      .build();
    expect(told(car)).toEqual([]);
  });

  test("halves in parallel on a light pedal, in series on a deep one, no electronics", () => {
    const car = drawing()
      .parts(
        "battery-pack",
        { chemistry: "flooded-lead", cells: "6", blocks: "2", capacity: "200 Ah", duty: "traction" },
        "G1",
        "G2",
      )
      .parts("fuse", { rating: "200 A", curve: "bolted-strip" }, "F1", "F2", "F3")
      .parts("contactor", { coilVoltage: "24 V", coilPower: "20 W", aux: "break" }, "Q2", "Q3", "Q4")
      .part("Q1", "contactor", { coilVoltage: "24 V", coilPower: "20 W" })
      .part("Q9", "manual-disconnect")
      .part("S1", "key-switch")
      .part("S9", "emergency-stop")
      .parts("micro-switch", { actuator: "throttle-pedal" }, "S3", "S4")
      .part("M1", "motor-series", { currentContinuous: "80 A" })
      .wires(HEAVY, "G1:- - M1:S2", "G1:+ - F1:1", "G2:+ - F2:1", "F1:2 - Q2:line", "Q2:load - F2:2")
      .wires(HEAVY, "G2:- - Q3:line", "Q3:load - G1:-", "F1:2 - Q4:line", "Q4:load - G2:-")
      .wires(HEAVY, "F2:2 - F3:1", "F3:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - M1:A1", "M1:A2 - M1:S1")
      .wires(
        SMALL,
        "F1:2 - S1:battery",
        "S1:ignition - S9:11",
        "S9:12 - S4:common",
        "S4:no - Q1:coil+",
        "Q1:coil- - M1:S2",
      )
      .wires(SMALL, "S9:12 - S3:common", "S3:no - Q2:aux-1", "Q2:aux-2 - Q3:aux-1", "Q3:aux-2 - Q4:coil+")
      .wires(SMALL, "S3:nc - Q4:aux-1", "Q4:aux-2 - Q2:coil+", "Q4:aux-2 - Q3:coil+")
      .wires(SMALL, "Q4:coil- - M1:S2", "Q2:coil- - Q1:coil-", "Q3:coil- - Q1:coil-")
      .build();
    expect(told(car)).toEqual([]);
  });

  test("a pack in two halves with a contactor and a fuse each, the charger ahead of the front one", () => {
    const rear = Array.from({ length: 5 }, (_, block) => `G${block + 1}`);
    const front = Array.from({ length: 5 }, (_, block) => `G${block + 6}`);
    const sketch = drawing()
      .parts("battery-block", { chemistry: "agm-lead", capacity: "100 Ah" }, ...rear, ...front)
      .parts("fuse", { rating: "300 A", curve: "traction-gR" }, "F1", "F2")
      .parts("fuse", { rating: "30 A" }, "F3", "F4")
      .parts("contactor", { coilVoltage: "12 V", coilPower: "12 W" }, "Q1", "Q2")
      .part("Q9", "manual-disconnect")
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .part("R1", "resistor", { resistance: "750 ohm" })
      .part("S1", "key-switch")
      .part("S4", "micro-switch", { actuator: "charge-flap" })
      .part("S9", "emergency-stop")
      .parts("chassis-point", { structure: "body" }, "X1", "X2")
      .part("G40", "battery-block", { chemistry: "agm-lead", capacity: "22 Ah" })
      .part("F9", "fuse", { rating: "15 A", curve: "blade" })
      .part("M1", "motor-series", { currentContinuous: "150 A" })
      .part("T1", "dc-controller", { logicFeed: "isolated-12v", nominalMin: "120 V", contactorDriver: "high-side" })
      .part("T3", "charger", {
        mainsPlug: "yes",
        isolated: "yes",
        batteryDetect: "yes",
        outputVoltageMax: "147 V",
        outputCurrentMax: "15 A",
        inhibitFollows: "plugged",
      });
    for (const half of [rear, front]) {
      for (let block = 1; block < half.length; block += 1)
        sketch.wire(`${half[block - 1]}:+`, `${half[block]}:-`, HEAVY);
    }
    const car = sketch
      .wires(HEAVY, "G5:+ - Q2:line", "Q2:load - F2:1", "F2:2 - G6:-", "G10:+ - F1:1", "F1:2 - Q9:line")
      .wires(HEAVY, "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
      .wires(HEAVY, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
      .wires(SMALL, "G40:- - X1:stud", "G40:+ - F9:1", "F9:2 - S1:battery", "F9:2 - S4:common", "S4:no - Q2:coil+")
      .wires(SMALL, "S1:ignition - Q2:coil+", "Q2:coil- - X1:stud", "S1:ignition - S9:11", "S9:12 - T1:logic+")
      .wires(SMALL, "T1:logic- - X1:stud", "T1:contactor-out - Q1:coil+", "Q1:coil- - X1:stud")
      .wires(SMALL, "T1:precharge-out - K1:coil+", "K1:coil- - X2:stud", "Q1:line - K1:common", "K1:no - R1:1")
      .wires(SMALL, "R1:2 - Q1:load", "F1:2 - F3:1", "F3:2 - T3:out+", "G1:- - F4:1", "F4:2 - T3:out-")
      .wires(SMALL, "S9:12 - T3:inhibit-1", "T3:inhibit-2 - T1:interlock")
      .build();
    expect(told(car)).toEqual([]);
  });

  test("two battery boxes whose coils hang on one interlock loop, the last contactor on the controller", () => {
    const car = drawing()
      .parts("battery-pack", { chemistry: "nmc", cells: "12", blocks: "4", capacity: "60 Ah" }, "G1", "G2")
      .parts("contactor", { coilVoltage: "12 V", coilPower: "12 W" }, "Q1", "Q2", "Q3", "Q4")
      .parts("manual-disconnect", { poles: "2" }, "Q8", "Q9")
      .parts("micro-switch", { actuator: "cover" }, "S6", "S7")
      .part("S1", "key-switch")
      .part("S5", "inertia-switch")
      .part("S9", "emergency-stop")
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .part("R1", "resistor", { resistance: "600 ohm" })
      .part("M1", "motor-ac", { currentContinuous: "200 A" })
      .part("T1", "ac-controller", {
        logicFeed: "isolated-12v",
        nominalMin: "350 V",
        contactorDriver: "low-side",
        inputCapacitance: "500 uF",
      })
      .part("G40", "battery-block", { chemistry: "agm-lead", capacity: "22 Ah", duty: "auxiliary" })
      .part("F9", "fuse", { rating: "15 A", curve: "blade" })
      .parts("chassis-point", { structure: "body" }, "X1", "X2")
      .wires(HEAVY, "G1:- - Q1:line", "Q1:load - T1:B-", "G1:+ - Q8:line", "Q8:load - Q2:line", "Q2:load - Q3:line")
      .wires(HEAVY, "Q3:load - G2:-", "G2:+ - Q9:line", "Q9:load - Q4:line", "Q4:load - T1:B+")
      .wires(HEAVY, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
      .wires(SMALL, "G40:- - X1:stud", "G40:+ - F9:1", "F9:2 - S1:battery", "S1:ignition - S9:11", "S9:12 - S5:common")
      .wires(SMALL, "S5:nc - S6:common", "S6:no - S7:common", "S7:no - Q8:line-2", "Q8:load-2 - Q9:line-2")
      .wires(SMALL, "Q9:load-2 - Q1:coil+", "Q9:load-2 - Q2:coil+", "Q9:load-2 - Q3:coil+")
      .wires(
        SMALL,
        "Q3:coil+ - Q4:coil+",
        "Q3:coil+ - K1:coil+",
        "Q4:coil- - T1:contactor-out",
        "K1:coil- - T1:precharge-out",
      )
      .wires(SMALL, "Q1:coil- - X2:stud", "Q2:coil- - X2:stud", "Q3:coil- - X2:stud", "S1:ignition - T1:logic+")
      .wires(SMALL, "T1:logic- - X1:stud", "Q4:line - K1:common", "K1:no - R1:1", "R1:2 - Q4:load")
      .build();
    expect(told(car)).toEqual([]);
  });

  test("a tug", () => {
    expect(told(tug())).toEqual([]);
  });
});

describe("one cause, one finding", () => {
  test("a converter's minus whose crimp fell off", () => {
    const project = tug();
    const converter = project.parts.find(({ designation }) => designation === "T2");
    const fallen: Project = {
      ...project,
      wires: project.wires.map((wire) =>
        wire.ends.some((end) => end?.[0] === converter?.id && end?.[1] === "out-")
          ? { ...wire, ends: [[converter?.id ?? "", "out-"], null] as const }
          : wire,
      ),
    };
    const findings = told(fallen);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatch(/^wire-loose-end: .*T2:out-.*\[terminal-unconnected\]$/);
  });

  test("a controller without its minus: what follows from it is folded", () => {
    const car = vehicle(4)
      .wires(HEAVY, "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+")
      .wires(SMALL, "S9:12 - Q1:coil+", "S1:ignition - T1:logic+")
      .build();
    const findings = told(car);
    expect(findings.map((text) => text.split(":")[0])).toEqual(["terminal-unconnected"]);
    expect(findings.join(" ")).toMatch(/no-return-path/);
  });

  test("a contactor coil without its return: why the vehicle does not drive is folded", () => {
    const car = vehicle(4)
      .part("Q3", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
      .wires(HEAVY, "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - Q3:line", "Q3:load - T1:B+", "T1:B- - G1:-")
      .wires(SMALL, "S9:12 - Q1:coil+", "S9:12 - Q3:coil+", "S1:ignition - T1:logic+");
    const findings = told(car.build());
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatch(/^terminal-unconnected: .*Q3:coil-.*\[no-return-path state-unreachable\]$/);
  });
});
