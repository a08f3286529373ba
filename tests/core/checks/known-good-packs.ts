/** Arrangements that are reported to work: packs in two halves, timed pre-charge, a monitor in charge of charging. */
import { drawing } from "../../harness/drawing.ts";
import type { Drawing } from "../../harness/drawing.ts";
import { AUXILIARY, BLOCK, CONTACTOR_12, CONTROLLER, HEAVY, SMALL, string } from "./known-good.ts";

/** Split pack with a contactor and a fuse in each half, charger ahead of the front contactor. */
export function splitPack(): Drawing {
  return string(drawing(), 5)
    .parts("battery-block", BLOCK, "G6", "G7", "G8", "G9", "G10")
    .part("G20", "battery-block", AUXILIARY)
    .part("Q9", "manual-disconnect", { currentContinuous: "300 A" })
    .parts("fuse", { rating: "250 A" }, "F1", "F2")
    .parts("fuse", { rating: "30 A" }, "F3", "F4")
    .part("F5", "fuse", { rating: "10 A" })
    .parts("contactor", CONTACTOR_12, "Q1", "Q2")
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("K2", "timer-relay", { supplyVoltage: "12 V", delay: "5 s", mode: "on-delay" })
    .part("R1", "resistor", { resistance: "750 ohm" })
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .part("S4", "micro-switch", { actuator: "charge-flap", finish: "booted" })
    .part("B1", "throttle-two-wire")
    .part("T1", "dc-controller", { ...CONTROLLER, logicFeed: "isolated-12v", logicMin: "9 V", nominalMin: "120 V" })
    .part("M1", "motor-series", { currentContinuous: "120 A" })
    .part("T3", "charger", {
      chemistry: "flooded-lead",
      mainsPlug: "yes",
      isolated: "yes",
      inhibitFollows: "plugged",
      outputVoltageMax: "145 V",
      outputCurrentMax: "15 A",
      batteryDetect: "yes",
    })
    .wires(HEAVY, "G6:+ - G7:-", "G7:+ - G8:-", "G8:+ - G9:-", "G9:+ - G10:-", "G5:+ - Q2:line", "Q2:load - F2:1")
    .wires(HEAVY, "F2:2 - G6:-", "G10:+ - F1:1", "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+")
    .wires(HEAVY, "T1:B- - G1:-", "T1:M+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load", "G20:+ - F5:1", "F5:2 - S1:battery")
    .wires(SMALL, "S1:ignition - S9:11", "S9:12 - T3:inhibit-1", "T3:inhibit-2 - T1:logic+", "T1:logic- - G20:-")
    .wires(SMALL, "T3:inhibit-2 - S4:nc", "Q2:coil- - G20:-", "T3:inhibit-2 - K1:coil+", "K1:coil- - G20:-")
    .wires(SMALL, "T3:inhibit-2 - K2:supply+", "K2:supply- - G20:-", "T3:inhibit-2 - K2:common", "K2:no - Q1:coil+")
    .wires(
      SMALL,
      "Q1:coil- - G20:-",
      "B1:1 - T1:throttle-1",
      "B1:2 - T1:throttle-2",
      "F5:2 - S4:no",
      "S4:common - Q2:coil+",
    )
    .wires({ ...SMALL, size: "8 AWG" }, "F1:2 - F3:1", "F3:2 - T3:out+", "G1:- - F4:1", "F4:2 - T3:out-");
}

/** Timed pre-charge: negative contactor on the key, delay relay for the positive one, lamp on its break contact. */
export function timedPrecharge(): Drawing {
  return string(drawing(), 12)
    .part("G20", "battery-block", AUXILIARY)
    .part("F1", "fuse", { rating: "250 A" })
    .part("F5", "fuse", { rating: "10 A" })
    .part("Q9", "manual-disconnect", { currentContinuous: "300 A" })
    .parts("contactor", { ...CONTACTOR_12, suppression: "bidirectional" }, "Q1", "Q2")
    .part("K2", "timer-relay", { supplyVoltage: "12 V", delay: "5 s", mode: "on-delay" })
    .part("R1", "resistor", { resistance: "750 ohm", power: "50 W" })
    .part("P1", "lamp", { voltage: "12 V", power: "2 W", needsPolarity: "yes" })
    .part("S1", "key-switch")
    .part("S9", "emergency-stop")
    .part("T1", "dc-controller", {
      ...CONTROLLER,
      logicFeed: "isolated-12v",
      logicMin: "9 V",
      nominalMin: "144 V",
      inputCapacitance: "1 mF",
    })
    .part("M1", "motor-series", { currentContinuous: "120 A" })
    .wires(HEAVY, "G12:+ - F1:1", "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - Q2:load")
    .wires(HEAVY, "Q2:line - G1:-", "T1:M+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
    .wires(SMALL, "Q9:load - R1:1", "R1:2 - T1:B+", "G20:+ - F5:1", "F5:2 - S1:battery", "S1:ignition - S9:11")
    .wires(SMALL, "S9:12 - Q2:coil+", "Q2:coil- - G20:-", "S9:12 - K2:supply+", "K2:supply- - G20:-")
    .wires(SMALL, "S9:12 - K2:common", "K2:no - Q1:coil+", "Q1:coil- - G20:-", "K2:nc - P1:+", "P1:- - G20:-")
    .wires(SMALL, "S9:12 - T1:logic+", "T1:logic- - G20:-");
}

/** Pack of two boxes, contactors in all four poles, an interlock loop through the disconnects feeds their coils. */
export function twoBoxes(): Drawing {
  const box = { chemistry: "nmc", cells: "44", blocks: "1", capacity: "100 Ah", resistance: "40 mohm" };
  return (
    drawing()
      .parts("battery-pack", box, "G1", "G2")
      .part("G20", "battery-block", AUXILIARY)
      .part("F1", "fuse", { rating: "200 A" })
      .part("F5", "fuse", { rating: "10 A" })
      .parts("contactor", CONTACTOR_12, "Q1", "Q2", "Q3", "Q4")
      .parts("manual-disconnect", { poles: "2", currentContinuous: "300 A" }, "Q8", "Q9")
      .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
      .part("R1", "resistor", { resistance: "300 ohm" })
      .part("S1", "key-switch")
      .part("S2", "micro-switch", { actuator: "cover" })
      .part("S5", "inertia-switch")
      .part("S9", "emergency-stop")
      .part("T1", "ac-controller", {
        logicFeed: "isolated-12v",
        nominalMin: "300 V",
        inputCapacitance: "500 uF",
        currentContinuous: "100 A",
        contactorDriver: "low-side",
      })
      .part("M1", "motor-ac", { currentContinuous: "100 A" })
      .wires(HEAVY, "G1:- - Q1:line", "G1:+ - Q8:line", "Q8:load - Q2:line", "Q2:load - Q3:line", "Q3:load - G2:-")
      .wires(HEAVY, "G2:+ - Q9:line", "Q9:load - F1:1", "F1:2 - Q4:line", "Q4:load - T1:B+", "Q1:load - T1:B-")
      .wires(HEAVY, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
      .wires(SMALL, "Q4:line - K1:common", "K1:no - R1:1", "R1:2 - Q4:load", "G20:+ - F5:1", "F5:2 - S1:battery")
      .wires(SMALL, "S1:ignition - S9:11", "S9:12 - S5:common", "S5:nc - Q8:line-2", "Q8:load-2 - Q9:line-2")
      // A cover that is closed presses its switch.
      .wires(
        SMALL,
        "Q9:load-2 - S2:common",
        "S2:no - Q1:coil+",
        "S2:no - Q2:coil+",
        "S2:no - Q3:coil+",
        "S2:no - Q4:coil+",
      )
      .wires(SMALL, "Q1:coil- - G20:-", "Q2:coil- - G20:-", "Q3:coil- - G20:-", "Q4:coil- - T1:contactor-out")
      .wires(SMALL, "S2:no - K1:coil+", "K1:coil- - T1:precharge-out", "S2:no - T1:logic+", "T1:logic- - G20:-")
  );
}

/** Lithium monitor fed with the key or the charge flap; its alarm relay lies in the charger's mains; a second charger for 12 V. */
export function monitoredCharging(): Drawing {
  const sketch = drawing();
  for (let block = 1; block <= 4; block += 1) {
    sketch.part(`G${block}`, "battery-block", {
      chemistry: "lifepo4",
      cells: "4",
      capacity: "100 Ah",
      resistance: "3 mohm",
    });
    if (block > 1) sketch.wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  sketch
    .part("B1", "battery-monitor", { taps: "4", isolated: "yes", outputType: "low-side" })
    .wires(SMALL, "B1:tap-0 - G1:-", "B1:tap-1 - G1:+", "B1:tap-2 - G2:+", "B1:tap-3 - G3:+", "B1:tap-4 - G4:+");
  return sketch
    .part("G20", "battery-block", AUXILIARY)
    .part("X1", "inlet", { currentMax: "16 A" })
    .part("X2", "chassis-point", { structure: "body" })
    .part("F1", "fuse", { rating: "250 A" })
    .part("F5", "fuse", { rating: "10 A" })
    .part("Q1", "contactor", CONTACTOR_12)
    .part("K6", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("S1", "key-switch")
    .part("S4", "micro-switch", { actuator: "charge-flap" })
    .part("S9", "emergency-stop")
    .part("T1", "dc-controller", {
      ...CONTROLLER,
      logicFeed: "isolated-12v",
      logicMin: "9 V",
      prechargeInternal: "yes",
    })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "120 A" })
    .part("T3", "charger", {
      chemistry: "lifepo4",
      mainsPlug: "no",
      isolated: "yes",
      inhibitFollows: "plugged",
      outputVoltageMax: "58.4 V",
      outputCurrentMax: "15 A",
    })
    .part("T4", "charger", {
      chemistry: "agm-lead",
      mainsPlug: "no",
      isolated: "yes",
      outputVoltageMax: "13.8 V",
      outputCurrentMax: "5 A",
    })
    .part("Q9", "manual-disconnect", { currentContinuous: "300 A" })
    .wires(HEAVY, "G4:+ - F1:1", "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:M+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "G20:+ - F5:1", "F5:2 - S1:battery", "F5:2 - S4:common", "S4:no - B1:supply+", "G20:- - X2:stud")
    .wires(
      SMALL,
      "S1:ignition - S9:11",
      "S9:12 - T3:inhibit-1",
      "T3:inhibit-2 - Q1:coil+",
      "Q1:coil- - G20:-",
      "T3:inhibit-2 - T1:logic+",
      "T1:logic- - G20:-",
    )
    .wires(SMALL, "B1:supply- - G20:-", "K6:coil+ - F5:2", "K6:coil- - B1:alarm", "X1:L - K6:common", "K6:nc - T3:L")
    .wires(SMALL, "X1:N - T3:N", "X1:PE - T3:PE", "X1:L - T4:L", "X1:N - T4:N", "X1:PE - T4:PE", "T3:PE - X2:stud")
    .wires({ ...SMALL, size: "4 mm2" }, "T3:out+ - F1:2", "T3:out- - G1:-", "T4:out+ - F5:2", "T4:out- - G20:-");
}
