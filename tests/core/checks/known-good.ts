/**
 * Arrangements that are reported to work: no check may find anything above NOTICE in them. Terse, but with every part
 * and wire that the checks on polarity, shorts and switching look at.
 */
import { drawing } from "../../harness/drawing.ts";
import type { Drawing } from "../../harness/drawing.ts";

export const HEAVY = { size: "50 mm2", length: "0.4 m", insulation: { temperature: "105 C" } } as const;
export const SMALL = { size: "1.5 mm2", length: "2 m", insulation: { temperature: "105 C" } } as const;
export const BLOCK = { chemistry: "flooded-lead", capacity: "180 Ah", resistance: "4 mohm" } as const;
export const AUXILIARY = { chemistry: "agm-lead", capacity: "60 Ah", resistance: "8 mohm", duty: "auxiliary" } as const;

/** Blocks G1.. in a string, G1 at the minus end. */
export function string(sketch: Drawing, blocks: number, parameters: Readonly<Record<string, string>> = BLOCK): Drawing {
  for (let block = 1; block <= blocks; block += 1) {
    sketch.part(`G${block}`, "battery-block", parameters);
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  return sketch;
}

export const CONTROLLER = {
  logicFeed: "pack-fed",
  logicMin: "20 V",
  nominalMin: "48 V",
  voltageMin: "30 V",
  inputCapacitance: "10 mF",
  currentContinuous: "150 A",
  contactorDriver: "none",
};

export const CONTACTOR_48 = { coilVoltage: "48 V", coilPower: "12 W", currentContinuous: "200 A" };
export const CONTACTOR_12 = { coilVoltage: "12 V", coilPower: "12 W", currentContinuous: "200 A" };

/** Cart of 48 V, resistor across the solenoid, diode across its coil. `change` may draw more or instead. */
export function resistorAcrossSolenoid(): Drawing {
  return string(drawing(), 4)
    .part("Q9", "manual-disconnect", { currentContinuous: "300 A" })
    .part("F1", "fuse", { rating: "250 A" })
    .part("F2", "fuse", { rating: "10 A" })
    .part("Q1", "contactor", CONTACTOR_48)
    .part("R1", "resistor", { resistance: "470 ohm" })
    .part("R2", "diode")
    .part("S1", "key-switch", { contactCurrent: "10 A" })
    .part("S9", "emergency-stop", { contactCurrent: "10 A" })
    .part("B1", "throttle-two-wire")
    .part("T1", "dc-controller", CONTROLLER)
    .part("M1", "motor-series", { currentContinuous: "120 A" })
    .wires(HEAVY, "G4:+ - Q9:line", "Q9:load - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "F1:2 - F2:1", "F2:2 - S1:battery", "S1:ignition - S9:11")
    .wires(SMALL, "S9:12 - Q1:coil+", "Q1:coil- - G1:-", "S9:12 - T1:logic+")
    .wires(SMALL, "R2:anode - Q1:coil-", "R2:cathode - Q1:coil+", "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2");
}

/** Inverter of 320 V that pre-charges and closes its contactor itself. */
export function inverter320(): Drawing {
  return drawing()
    .part("G1", "battery-pack", {
      chemistry: "nmc",
      cells: "88",
      blocks: "1",
      capacity: "100 Ah",
      resistance: "80 mohm",
    })
    .part("G20", "battery-block", AUXILIARY)
    .part("X1", "chassis-point", { structure: "body" })
    .part("Q9", "manual-disconnect", { currentContinuous: "300 A" })
    .part("F1", "fuse", { rating: "200 A" })
    .part("F2", "fuse", { rating: "5 A", voltageDc: "500 V" })
    .part("F3", "fuse", { rating: "15 A" })
    .part("Q1", "contactor", { ...CONTACTOR_12, suppression: "diode" })
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("R1", "resistor", { resistance: "600 ohm", power: "50 W", pulseEnergy: "60 J" })
    .part("S1", "key-switch")
    .part("S2", "selector-switch")
    .part("S9", "emergency-stop")
    .part("B1", "throttle-three-wire")
    .part("T1", "ac-controller", {
      logicFeed: "isolated-12v",
      nominalMin: "320 V",
      voltageMin: "200 V",
      inputCapacitance: "500 uF",
      currentContinuous: "100 A",
      contactorDriver: "low-side",
      prechargeThreshold: "90 %",
      prechargeTimeout: "3 s",
      throttleInput: "divider",
      regeneration: "yes",
      regenerationCutVoltage: "370 V",
    })
    .part("M1", "motor-ac", { currentContinuous: "100 A" })
    .wires(HEAVY, "G1:+ - Q9:line", "Q9:load - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .wires(SMALL, "F1:2 - F2:1", "F2:2 - K1:common", "K1:no - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "G20:+ - F3:1", "F3:2 - S1:battery", "S1:ignition - S9:11", "G20:- - X1:stud")
    .wires(SMALL, "S9:12 - T1:logic+", "T1:logic- - X1:stud", "S9:12 - Q1:coil+", "Q1:coil- - T1:contactor-out")
    .wires(SMALL, "S9:12 - K1:coil+", "K1:coil- - T1:precharge-out", "S1:ignition - S2:common")
    .wires(SMALL, "S2:a - T1:forward", "S2:b - T1:reverse", "B1:high - T1:throttle-1", "B1:wiper - T1:throttle-2")
    .wire("B1:low", "T1:throttle-3", SMALL);
}

/** Series/parallel step car of 24/48 V, no controller: interlocked by auxiliary break contacts. */
export function stepCar(): Drawing {
  const contactor = { ...CONTACTOR_12, currentContinuous: "400 A", aux: "break", suppression: "bidirectional" };
  return (
    drawing()
      .parts("battery-block", BLOCK, "G1", "G2", "G3", "G4")
      .part("G20", "battery-block", AUXILIARY)
      .parts("fuse", { rating: "250 A" }, "F1", "F2")
      .part("F3", "fuse", { rating: "300 A" })
      .part("F4", "fuse", { rating: "10 A" })
      .parts("contactor", contactor, "Q1", "Q2", "Q3", "Q4")
      .part("Q9", "manual-disconnect", { currentContinuous: "400 A" })
      .part("S1", "key-switch")
      .part("S9", "emergency-stop")
      .part("S3", "micro-switch", { actuator: "throttle-pedal" })
      .part("S4", "micro-switch", { actuator: "throttle-pedal" })
      .part("M1", "motor-series", {
        currentContinuous: "100 A",
        armatureResistance: "0.2 ohm",
        fieldResistance: "0.1 ohm",
      })
      .wires(HEAVY, "G1:+ - G2:-", "G3:+ - G4:-", "G2:+ - F1:1", "G4:+ - F2:1")
      // Half A: G1, G2 with F1 at its plus; half B: G3, G4 with F2. Plus of half B feeds the motor.
      .wires(
        HEAVY,
        "F2:2 - Q9:line",
        "Q9:load - Q1:line",
        "Q1:load - F3:1",
        "F3:2 - M1:A1",
        "M1:A2 - M1:S1",
        "M1:S2 - G1:-",
      )
      .wires(
        HEAVY,
        "F1:2 - Q2:line",
        "Q2:load - F2:2",
        "G3:- - Q3:line",
        "Q3:load - G1:-",
        "F1:2 - Q4:line",
        "Q4:load - G3:-",
      )
      .wires(SMALL, "G20:+ - F4:1", "F4:2 - S1:battery", "S1:ignition - S9:11", "S9:12 - S4:common", "S4:no - Q1:coil+")
      .wires(SMALL, "S4:no - S3:common", "S3:no - Q2:aux-1", "Q2:aux-2 - Q3:aux-1", "Q3:aux-2 - Q4:coil+")
      .wires(SMALL, "S3:nc - Q4:aux-1", "Q4:aux-2 - Q2:coil+", "Q4:aux-2 - Q3:coil+")
      .wires(SMALL, "Q1:coil- - G20:-", "Q2:coil- - G20:-", "Q3:coil- - G20:-", "Q4:coil- - G20:-")
      .state("light-pedal", "driving", { S4: "actuated", S3: "free" })
  );
}

/** Floating pack, 12 V minus and protective earth on the chassis. */
export function earthedWhileCharging(charger: Readonly<Record<string, string>> = { isolated: "yes" }): Drawing {
  return string(drawing(), 4)
    .part("G20", "battery-block", AUXILIARY)
    .part("X1", "chassis-point", { structure: "body" })
    .part("X2", "inlet", { currentMax: "16 A" })
    .part("F1", "fuse", { rating: "250 A" })
    .part("F2", "fuse", { rating: "10 A" })
    .part("F3", "fuse", { rating: "20 A" })
    .part("F5", "fuse", { rating: "30 A" })
    .part("Q1", "contactor", CONTACTOR_12)
    .part("R1", "resistor", { resistance: "470 ohm" })
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .part("T1", "dc-controller", { ...CONTROLLER, logicFeed: "isolated-12v", logicMin: "9 V" })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "120 A" })
    .part("T2", "dc-dc-converter", { isolated: "yes", inputMin: "30 V", outputCurrentMax: "20 A" })
    .part("T3", "charger", {
      chemistry: "flooded-lead",
      mainsPlug: "no",
      outputVoltageMax: "58 V",
      outputCurrentMax: "15 A",
      inhibitFollows: "plugged",
      ...charger,
    })
    .part("Q9", "manual-disconnect", { currentContinuous: "300 A" })
    .wires(HEAVY, "G4:+ - F1:1", "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:B+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "Q1:load - F3:1", "F3:2 - T2:in+", "T2:in- - G1:-")
    .wires({ ...SMALL, size: "6 mm2" }, "T2:out+ - F2:1", "T2:out- - X1:stud", "G20:- - X1:stud", "G20:+ - F2:1")
    .wires(SMALL, "F2:2 - S1:battery", "S1:ignition - S9:11", "S9:12 - T3:inhibit-1", "T3:inhibit-2 - Q1:coil+")
    .wires(SMALL, "Q1:coil- - X1:stud", "T3:inhibit-2 - T1:logic+", "T1:logic- - X1:stud")
    .wires({ ...SMALL, size: "4 mm2" }, "T3:out+ - F5:1", "F5:2 - F1:2", "T3:out- - G1:-")
    .wires({ ...SMALL, size: "2.5 mm2" }, "X2:L - T3:L", "X2:N - T3:N", "X2:PE - T3:PE", "T3:PE - X1:stud");
}

/** Two cuts of the controller's supply, both behind the pedal: main contactor and a relay in its logic feed. */
export function twoCuts(): Drawing {
  return string(drawing(), 8)
    .part("G20", "battery-block", AUXILIARY)
    .part("F1", "fuse", { rating: "250 A" })
    .part("F2", "fuse", { rating: "10 A" })
    .part("F4", "fuse", { rating: "5 A" })
    .part("Q1", "contactor", { ...CONTACTOR_12, currentBreak: "2000 A", suppression: "zener" })
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", suppression: "diode" })
    .part("K2", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", suppression: "diode" })
    .part("R1", "resistor", { resistance: "750 ohm" })
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .part("S3", "micro-switch", { actuator: "throttle-pedal" })
    .part("B1", "throttle-two-wire")
    .part("T1", "dc-controller", { ...CONTROLLER, nominalMin: "96 V", voltageMin: "60 V", externalCut: "allowed" })
    .part("M1", "motor-series", { currentContinuous: "120 A" })
    .wires(HEAVY, "G8:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:M+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "F1:2 - F2:1", "F2:2 - K1:common", "K1:no - R1:1", "R1:2 - Q1:load", "F2:2 - K2:common")
    .wires(SMALL, "K2:no - T1:logic+", "G20:+ - F4:1", "F4:2 - S1:battery", "S1:ignition - S9:11", "S9:12 - S3:common")
    .wires(SMALL, "S3:no - Q1:coil+", "S3:no - K2:coil+", "S9:12 - K1:coil+")
    .wires(SMALL, "Q1:coil- - G20:-", "K2:coil- - G20:-", "K1:coil- - G20:-", "B1:1 - T1:throttle-1")
    .wire("B1:2", "T1:throttle-2", SMALL);
}

/** Two isolated converters side by side on a lead battery, through a relay of 100 A. */
export function twoConverters(): Drawing {
  const thick = { ...HEAVY, size: "35 mm2" };
  return drawing()
    .part("G1", "battery-pack", {
      chemistry: "nmc",
      cells: "88",
      blocks: "1",
      capacity: "100 Ah",
      resistance: "80 mohm",
    })
    .part("G20", "battery-block", { ...AUXILIARY, capacity: "22 Ah" })
    .part("F1", "fuse", { rating: "200 A" })
    .parts("fuse", { rating: "5 A" }, "F2", "F3")
    .parts("fuse", { rating: "100 A" }, "F4", "F5")
    .part("F6", "fuse", { rating: "10 A" })
    .part("Q1", "contactor", { ...CONTACTOR_12, aux: "make" })
    .part("Q4", "contactor", { ...CONTACTOR_12, currentContinuous: "100 A" })
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .part("P1", "lamp", { voltage: "12 V", power: "55 W" })
    .part("T1", "ac-controller", {
      logicFeed: "isolated-12v",
      nominalMin: "320 V",
      inputCapacitance: "500 uF",
      currentContinuous: "100 A",
      prechargeInternal: "yes",
      contactorDriver: "low-side",
    })
    .part("M1", "motor-ac", { currentContinuous: "100 A" })
    .parts(
      "dc-dc-converter",
      {
        isolated: "yes",
        inputMin: "120 V",
        inputMax: "370 V",
        outputVoltage: "14.7 V",
        outputCurrentMax: "43 A",
        enableInput: "active-high",
        backfeed: "no",
      },
      "T2",
      "T4",
    )
    .wires(HEAVY, "G1:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .wires(
      SMALL,
      "Q1:load - F2:1",
      "F2:2 - T2:in+",
      "Q1:load - F3:1",
      "F3:2 - T4:in+",
      "T2:in- - G1:-",
      "T4:in- - G1:-",
    )
    .wires(thick, "T2:out+ - F4:1", "T4:out+ - F4:1", "F4:2 - Q4:line", "Q4:load - F5:1", "F5:2 - G20:+")
    .wires(thick, "T2:out- - G20:-", "T4:out- - G20:-")
    .wires(SMALL, "G20:+ - F6:1", "F6:2 - S1:battery", "S1:ignition - S9:11", "S9:12 - Q1:coil+")
    .wires(SMALL, "Q1:coil- - T1:contactor-out", "S9:12 - T1:logic+", "T1:logic- - G20:-", "S1:ignition - Q4:coil+")
    .wires(SMALL, "Q4:coil- - G20:-", "S9:12 - Q1:aux-1", "Q1:aux-2 - T2:enable", "Q1:aux-2 - T4:enable")
    .wires(SMALL, "S1:ignition - P1:+", "P1:- - G20:-");
}
