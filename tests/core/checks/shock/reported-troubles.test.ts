/**
 * Troubles that people reported of their vehicles, drawn as they were, against the checks of voltages and of shock; and
 * arrangements reported to work, of which none of them may say anything above NOTICE.
 */
import { describe, expect, test } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { CHECKS } from "../../../../core/checks/catalogue.ts";
import { runChecks } from "../../../../core/checks/run.ts";
import { Names } from "../../../../core/checks/text.ts";
import type { Project } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";
import { drive320 } from "./known-good-drive.ts";

const MINE = CHECKS.filter(({ id }) =>
  [
    ...["overvoltage", "logic-overvoltage", "undervoltage", "charger-mismatch", "insulation-low"],
    ...["traction-on-chassis", "traction-on-auxiliary", "isolation-low", "serial-port-live"],
    ...["exposed-beside-low-voltage", "exposed-opposite-poles"],
  ].includes(id),
);

/** "severity check at place" of every finding, folded ones in brackets behind their root. */
function findings(project: Project): readonly string[] {
  const names = new Names(project);
  return runChecks(analyse(project), MINE).findings.map((finding) => {
    const place = finding.failure.where[0];
    const folded = finding.folded.map(({ check }) => check.id).sort();
    const text = `${finding.severity} ${finding.check.id} at ${place === undefined ? "" : names.place(place)}`;
    return folded.length === 0 ? text : `${text} (${folded.join(", ")})`;
  });
}

const frame = { structure: "frame" };
const packFed = { logicFeed: "pack-fed", currentContinuous: "100 A" };

describe("reported troubles", () => {
  test("a spanner from the bare plus to the frame, to which the minus is bolted", () => {
    const sketch = pack(6, {}, { G6: { finish: "bare" } })
      .part("F1", "fuse", { rating: "200 A" })
      .part("X1", "chassis-point", frame)
      .wire("G1:-", "X1:stud", HEAVY)
      .wire("G6:+", "F1:1", { size: "35 mm2", length: "0.5 m" });
    expect(findings(sketch.build())).toEqual(["DANGER traction-on-chassis at wire W6"]);
  });

  test("an electric bicycle of 48 V with its minus on the frame", () => {
    const sketch = drawing()
      .part("G1", "battery-pack", { duty: "traction", chemistry: "lifepo4", cells: "4", blocks: "4" })
      .part("F1", "fuse", { rating: "40 A", finish: "bare" })
      .part("X1", "chassis-point", frame)
      .wires(HEAVY, "G1:- - X1:stud")
      .wire("G1:+", "F1:1", { size: "6 mm2", length: "0.3 m" });
    expect(findings(sketch.build())).toEqual(["DANGER traction-on-chassis at wire W1"]);
  });

  test("an outlet that trips only while charging: acid film on one block", () => {
    const sketch = pack(12, {}, { G6: { isolation: "30 kohm" } })
      .part("X1", "chassis-point", frame)
      .part("X3", "inlet", { inputVoltage: "230 V", residualCurrentDevice: "yes" })
      .part("T3", "charger", {
        isolated: "no",
        residualCurrentDevice: "yes",
        chemistry: "flooded-lead",
        outputVoltageMax: "174 V",
        outputCurrentMax: "10 A",
      })
      .wires(
        SMALL,
        "X3:L - T3:L",
        "X3:N - T3:N",
        "X3:PE - T3:PE",
        "T3:PE - X1:stud",
        "T3:out+ - G12:+",
        "T3:out- - G1:-",
      );
    expect(findings(sketch.build())).toEqual(["NOTICE isolation-low at G6"]);
  });

  test("a 12 V plug falls on the pack's plus while a converter joins both minuses", () => {
    const sketch = withTwelveVolts(drawing())
      .parts(
        "battery-block",
        { duty: "traction", chemistry: "flooded-lead" },
        ...Array.from({ length: 9 }, (_, i) => `G${i + 1}`),
      )
      .part(
        "G10",
        "battery-block",
        { duty: "traction", chemistry: "flooded-lead", "finish-+": "bare" },
        { panel: [0, 0] },
      )
      .part("X2", "connector", { positions: "1", leadLength: "150 mm", touchSafe: "no" }, { panel: [140, 25] })
      .part("T2", "dc-dc-converter", { isolated: "no", outputCurrentMax: "30 A", inputMin: "60 V", inputMax: "160 V" })
      .part("P1", "lamp", { voltage: "12 V", power: "5 W", voltageMax: "16 V" })
      .wires(HEAVY, ...Array.from({ length: 9 }, (_, i) => `G${i + 1}:+ - G${i + 2}:-`))
      .wires(SMALL, "G10:+ - T2:in+", "T2:in- - G1:-", "T2:out+ - F20:1", "T2:out- - X1:stud")
      .wires(SMALL, "F20:2 - X2:1a", "X2:1b - P1:+", "P1:- - X1:stud");
    expect(findings(sketch.build())).toEqual([
      "DANGER traction-on-auxiliary at T2 (traction-on-chassis)",
      "DANGER exposed-beside-low-voltage at G10:+",
    ]);
  });

  test("a boat's lamp base joins the pack's minus to the hull", () => {
    const sketch = pack(4)
      .part("X1", "chassis-point", { structure: "hull" })
      .part("P1", "lamp", { voltage: "48 V", power: "20 W", voltageMax: "65 V" })
      .wires(SMALL, "G4:+ - P1:+", "P1:- - G1:-", "P1:- - X1:stud");
    expect(findings(sketch.build())).toEqual(["DANGER traction-on-chassis at wire W6"]);
  });

  test("a computer behind a booster, and the serial cable carries the ground", () => {
    const sketch = withTwelveVolts(pack(12))
      .part("T1", "dc-controller", { ...packFed, serialIsolated: "no", voltageMax: "200 V", logicMax: "200 V" })
      .part("P1", "display", { isolated: "no" })
      .part("T4", "dc-dc-converter", {
        isolated: "no",
        outputVoltage: "20 V",
        outputCurrentMax: "5 A",
        inputMax: "30 V",
      })
      .wires(HEAVY, "G12:+ - T1:B+", "T1:B- - G1:-")
      .wires(SMALL, "G12:+ - T1:logic+", "T1:serial-ground - P1:serial-ground")
      .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud", "T4:out+ - P1:supply+", "T4:out- - P1:supply-");
    expect(findings(sketch.build())).toEqual([
      "DANGER serial-port-live at T1:serial-ground (traction-on-auxiliary, traction-on-chassis)",
    ]);
  });

  test("a loose green and yellow lead of the fused control line, bolted to the frame", () => {
    const sketch = pack(6)
      .part("F2", "fuse", { rating: "5 A" })
      .part("T1", "dc-controller", packFed)
      .part("X1", "chassis-point", frame)
      .wires(HEAVY, "G6:+ - T1:B+", "T1:B- - G1:-")
      .wires(SMALL, "G6:+ - F2:1", "F2:2 - T1:logic+")
      .wire("F2:2", "X1:stud", { ...SMALL, colour: "GNYE" });
    expect(findings(sketch.build())).toEqual(["DANGER traction-on-chassis at wire W10"]);
  });

  test("four gauges on one isolated supply, which joins what they measure", () => {
    const sketch = withTwelveVolts(pack(6))
      .part("T4", "dc-dc-converter", {
        isolated: "yes",
        outputVoltage: "12 V",
        outputCurrentMax: "2 A",
        inputMax: "16 V",
      })
      .part("B1", "shunt", { ratedCurrent: "500 A" })
      .part("E1", "heater", { voltage: "72 V", power: "1 kW", voltageMax: "100 V" })
      .parts("gauge", { isolated: "no", senseMax: "100 V", supplyMax: "16 V" }, "P1", "P2", "P3")
      .wires(HEAVY, "G6:+ - B1:line", "B1:load - E1:+", "E1:- - G1:-")
      .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud")
      .wires(SMALL, "T4:out+ - P1:supply+", "T4:out+ - P2:supply+", "T4:out+ - P3:supply+")
      .wires(SMALL, "T4:out- - P1:supply-", "T4:out- - P2:supply-", "T4:out- - P3:supply-")
      .wires(SMALL, "G6:+ - P1:sense+", "G1:- - P1:sense-", "B1:sense-load - P2:sense+", "B1:sense-line - P2:sense-")
      .wires(SMALL, "P3:sense- - X1:stud", "F20:2 - P3:sense+");
    expect(findings(sketch.build())).toEqual([
      "DANGER traction-on-chassis at wire W23",
      "DANGER overvoltage at P1:supply+",
    ]);
  });

  test("a pre-scaler for the pack meter with in and out changed round", () => {
    const sketch = pack(12)
      .part("R4", "voltage-divider", { ratio: "1 %", outputMax: "5 V" })
      .part("P1", "gauge", { isolated: "yes", senseMax: "2 V" })
      .wires(SMALL, "R4:out - G12:+", "R4:in - P1:sense+", "R4:common - G1:-", "P1:sense- - G1:-");
    expect(findings(sketch.build())).toEqual(["DANGER overvoltage at P1:sense+", "DANGER overvoltage at R4:out"]);
  });
});

function aboveNotice(project: Project): readonly string[] {
  return findings(project).filter((text) => !text.startsWith("NOTICE"));
}

describe("arrangements reported to work", () => {
  test("a 320 V class inverter that closes its contactor itself", () => {
    expect(aboveNotice(drive320().build())).toEqual([]);
  });

  test("two isolated converters in parallel on one 12 V battery", () => {
    const sketch = drive320()
      .parts(
        "dc-dc-converter",
        {
          isolated: "yes",
          outputVoltage: "14.7 V",
          outputCurrentMax: "50 A",
          inputMin: "120 V",
          inputMax: "400 V",
          enableInput: "active-high",
        },
        "T2",
        "T4",
      )
      .part("F5", "fuse", { rating: "100 A" })
      .part("Q4", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .wires(SMALL, "Q1:load - T2:in+", "Q1:load - T4:in+", "T2:in- - G1:-", "T4:in- - G1:-")
      .wires(SMALL, "S1:ignition - Q1:aux-1", "Q1:aux-2 - T2:enable", "Q1:aux-2 - T4:enable")
      .wires(
        HEAVY,
        "T2:out+ - F5:1",
        "T4:out+ - F5:1",
        "F5:2 - Q4:common",
        "Q4:no - G200:+",
        "T2:out- - X1:stud",
        "T4:out- - X1:stud",
      )
      .wires(SMALL, "S1:ignition - Q4:coil+", "Q4:coil- - X1:stud");
    expect(aboveNotice(sketch.build())).toEqual([]);
  });

  test("a battery monitor fed from the ignition, a second charger on the 12 V battery", () => {
    const sketch = drive320()
      .part("B1", "battery-monitor", { isolated: "yes", outputType: "low-side" })
      .part("S4", "micro-switch", { actuator: "charge-flap" })
      .part("K6", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .part("X3", "inlet", { inputVoltage: "230 V" })
      .part("T3", "charger", {
        isolated: "yes",
        chemistry: "nmc",
        outputVoltageMax: "369.6 V",
        outputCurrentMax: "8 A",
      })
      .part("T5", "charger", {
        isolated: "yes",
        mainsPlug: "yes",
        chemistry: "agm-lead",
        outputVoltageMax: "13.8 V",
        outputCurrentMax: "5 A",
      })
      .part("R9", "diode")
      .wires(SMALL, "B1:pack+ - G8:+", "B1:B- - G1:-", "S1:ignition - R9:anode", "R9:cathode - B1:supply+")
      .wires(SMALL, "F20:2 - S4:common", "S4:no - B1:supply+", "B1:supply- - X1:stud")
      .wires(
        SMALL,
        "F20:2 - K6:coil+",
        "K6:coil- - B1:alarm",
        "X3:L - K6:common",
        "K6:nc - T3:L",
        "X3:N - T3:N",
        "X3:PE - T3:PE",
      )
      .wires(SMALL, "T3:PE - X1:stud", "T3:out+ - F1:1", "T3:out- - G1:-", "T5:out+ - F20:1", "T5:out- - X1:stud");
    expect(aboveNotice(sketch.build())).toEqual([]);
  });

  test("a floating pack, 12 V minus on the chassis, frame earthed by an isolated charger", () => {
    const charger = { chemistry: "nmc", outputVoltageMax: "369.6 V", outputCurrentMax: "8 A", mainsPlug: "no" };
    const with3 = (own: Readonly<Record<string, string>>): Project =>
      drive320()
        .part("X3", "inlet", { inputVoltage: "230 V", residualCurrentDevice: "yes" })
        .part("T3", "charger", { ...charger, ...own })
        .wires(
          SMALL,
          "X3:L - T3:L",
          "X3:N - T3:N",
          "X3:PE - T3:PE",
          "T3:PE - X1:stud",
          "T3:out+ - F1:1",
          "T3:out- - G1:-",
        )
        .wires(SMALL, "S1:ignition - T3:inhibit-1", "T3:inhibit-2 - T1:interlock")
        .build();
    expect(aboveNotice(with3({ isolated: "yes" }))).toEqual([]);
    expect(aboveNotice(with3({ isolated: "no", residualCurrentDevice: "yes" }))).toEqual([]);
  });

  test("a pack-fed cart of 48 V with its resistor across the contactor", () => {
    const sketch = pack(4)
      .part("Q9", "manual-disconnect")
      .part("F1", "fuse", { rating: "250 A" })
      .part("F2", "fuse", { rating: "5 A" })
      .part("S9", "emergency-stop")
      .part("S1", "key-switch")
      .part("Q1", "contactor", { coilVoltage: "48 V", coilPower: "12 W" })
      .part("R1", "resistor", { resistance: "470 ohm", power: "10 W" })
      .part("T1", "dc-controller", {
        ...packFed,
        voltageMin: "30 V",
        voltageMax: "65 V",
        logicMax: "65 V",
        logicMin: "10 V",
        inputCapacitance: "5 mF",
      })
      .part("M1", "motor-series", { currentContinuous: "100 A" })
      .part("B5", "throttle-two-wire")
      .wires(HEAVY, "G4:+ - Q9:line", "Q9:load - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
      .wires(HEAVY, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
      .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "F1:2 - F2:1", "F2:2 - S1:battery", "S1:ignition - S9:11")
      .wires(
        SMALL,
        "S9:12 - Q1:coil+",
        "Q1:coil- - G1:-",
        "S1:ignition - T1:logic+",
        "B5:1 - T1:throttle-1",
        "B5:2 - T1:throttle-2",
      );
    expect(aboveNotice(sketch.build())).toEqual([]);
  });
});

describe("unfinished drawings", () => {
  test("never stop a check", () => {
    const sketches: readonly Drawing[] = [
      drawing(),
      pack(1),
      drawing().part("T1", "dc-controller", { serialIsolated: "no" }).part("T3", "charger").part("X2", "connector"),
      pack(2).wire("G2:+", "G1:-", HEAVY),
      pack(2).wire("G1:+", null, HEAVY).wire("G2:+", "G2:+", HEAVY),
      drawing()
        .part("B3", "isolation-monitor", { internalResistance: "1 kohm" })
        .part("X1", "chassis-point")
        .wire("B3:chassis", "X1:stud"),
    ];
    for (const sketch of sketches) {
      const { notChecked } = runChecks(analyse(sketch.build()), MINE);
      expect(notChecked.filter(({ why }) => why.includes("stopped on this drawing"))).toEqual([]);
    }
  });
});
