/** Whole vehicles as wire lists, unplaced, for layout and drawing: a village workshop's conversions. */
import { drawing, type Drawing } from "../../harness/drawing.ts";
import type { Project } from "../../../core/project/document.ts";

const HEAVY = { size: "50 mm2", colour: "OG" };
const MINUS = { size: "50 mm2", colour: "BK" };
const SMALL = { size: "0.75 mm2", colour: "RD" };
const EARTH = { size: "1 mm2", colour: "BN" };

const unplaced = (drawn: Drawing): Project => {
  const project = drawn.build();
  return {
    ...project,
    sheets: [],
    parts: project.parts.map((part) => ({ ...part, views: [] })),
    lastIds: { ...project.lastIds, s: 0 },
  };
};

function blocks(drawn: Drawing, count: number): Drawing {
  for (let index = 1; index <= count; index += 1)
    drawn.part(`G${index}`, "battery-block", { chemistry: "flooded-lead", capacity: "100 Ah" });
  for (let index = 1; index < count; index += 1) drawn.wire(`G${index}:-`, `G${index + 1}:+`, HEAVY);
  return drawn;
}

/** 21 parts: 48 V, pack-fed logic, series motor. */
export function yardTug(): Project {
  const drawn = blocks(drawing(), 4)
    .part("F1", "fuse", { rating: "250 A", voltageDc: "125 V" })
    .part("Q0", "manual-disconnect", { voltageDc: "96 V", currentContinuous: "250 A" })
    .part("Q1", "contactor", { contactVoltage: "96 V", currentContinuous: "200 A", coilVoltage: "48 V" })
    .part("R1", "resistor", { resistance: "100 ohm", power: "25 W" })
    .part("T1", "dc-controller", { nominalMax: "48 V", currentMax: "300 A", logicFeed: "pack-fed" })
    .part("M1", "motor-series", { currentContinuous: "120 A" })
    .part("B2", "shunt", { ratedCurrent: "300 A", ratedDrop: "50 mV" })
    .part("F2", "fuse", { rating: "5 A", voltageDc: "80 V" })
    .part("S1", "key-switch", { contactVoltage: "80 V" })
    .part("S2", "emergency-stop", { contactVoltage: "110 V" })
    .part("B1", "throttle-two-wire", { resistanceFull: "5 kohm" })
    .part("S3", "micro-switch", { actuator: "throttle-pedal" })
    .part("P1", "voltmeter", { rangeMax: "100 V" })
    .part("X1", "chassis-point", {})
    .part("F3", "fuse", { rating: "20 A", voltageDc: "80 V" })
    .part("T2", "charger", { outputVoltageMax: "58 V", outputCurrentMax: "15 A" })
    .part("P2", "lamp", { voltage: "48 V", power: "5 W" });
  drawn
    .wires(HEAVY, "G1:+ - F1:1", "F1:2 - Q0:line", "Q0:load - Q1:line", "Q1:load - T1:B+")
    .wires(MINUS, "G4:- - B2:line", "B2:load - T1:B-")
    .wires(HEAVY, "T1:M- - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:B+")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "Q0:load - F2:1", "F2:2 - S2:11", "S2:12 - S1:battery")
    .wires(
      SMALL,
      "S1:ignition - T1:logic+",
      "S1:ignition - S3:common",
      "S3:no - Q1:coil+",
      "Q1:coil- - T1:contactor-out",
    )
    .wires(SMALL, "T1:throttle-1 - B1:1", "T1:throttle-2 - B1:2", "S1:ignition - P2:+", "P2:- - T1:B-")
    .wires(SMALL, "Q1:line - P1:+", "P1:- - T1:B-", "Q1:line - F3:1", "F3:2 - T2:out+", "T2:out- - B2:load")
    .wires(EARTH, "T1:case - X1:stud", "M1:case - X1:stud", "T2:case - X1:stud");
  return unplaced(drawn);
}

/** Around 60 parts: 96 V, 12 V-fed logic, DC-DC converter, charger, 12 V side with lamps, pump, heater, relays. */
export function farmPickup(): Project {
  const drawn = blocks(drawing(), 8)
    .part("F1", "fuse", { rating: "300 A", voltageDc: "150 V" })
    .part("Q0", "manual-disconnect", { voltageDc: "150 V", currentContinuous: "300 A" })
    .part("Q1", "contactor", { contactVoltage: "150 V", currentContinuous: "250 A", coilVoltage: "12 V" })
    .part("Q2", "relay", { coilVoltage: "12 V" })
    .part("R1", "resistor", { resistance: "150 ohm", power: "50 W" })
    .part("T1", "ac-controller", { nominalMax: "96 V", currentMax: "450 A", logicFeed: "isolated-12v" })
    .part("M1", "motor-ac", { currentContinuous: "150 A" })
    .part("B2", "shunt", { ratedCurrent: "500 A", ratedDrop: "50 mV" })
    .part("F2", "fuse", { rating: "10 A", voltageDc: "150 V" })
    .part("F3", "fuse", { rating: "30 A", voltageDc: "150 V" })
    .part("F4", "fuse", { rating: "15 A", voltageDc: "150 V" })
    .part("T2", "charger", { outputVoltageMax: "117 V", outputCurrentMax: "20 A" })
    .part("X9", "inlet", { inputVoltage: "230 V" })
    .part("T3", "dc-dc-converter", { outputVoltage: "13.8 V", outputCurrentMax: "30 A" })
    .part("E1", "heater", { voltage: "96 V", power: "1 kW" })
    .part("Q3", "contactor", { contactVoltage: "150 V", currentContinuous: "20 A", coilVoltage: "12 V" })
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", capacity: "40 Ah" })
    .part("F10", "fuse", { rating: "40 A", voltageDc: "32 V" })
    .part("X2", "busbar", { positions: "8" })
    .part("S1", "key-switch", { contactVoltage: "12 V" })
    .part("S2", "emergency-stop", { contactVoltage: "24 V" })
    .part("S9", "inertia-switch", {})
    .part("B1", "throttle-three-wire", { resistance: "5 kohm" })
    .part("S3", "micro-switch", { actuator: "brake-pedal" })
    .part("S4", "selector-switch", {})
    .part("P1", "gauge", {})
    .part("X1", "chassis-point", {})
    .part("K1", "relay", { coilVoltage: "12 V" })
    .part("K2", "relay", { coilVoltage: "12 V" })
    .part("K3", "timer-relay", { supplyVoltage: "12 V", delay: "2 s" })
    .part("M2", "pump", { voltage: "12 V", power: "120 W" })
    .part("M3", "pump", { voltage: "12 V", power: "60 W" });
  for (let index = 11; index <= 18; index += 1)
    drawn.part(`F${index}`, "fuse", { rating: index % 2 === 0 ? "10 A" : "15 A", voltageDc: "32 V" });
  for (let index = 10; index <= 15; index += 1) drawn.part(`P${index}`, "lamp", { voltage: "12 V", power: "21 W" });
  for (let index = 10; index <= 14; index += 1) drawn.part(`S${index}`, "switch", {});
  drawn
    .wires(HEAVY, "G1:+ - F1:1", "F1:2 - Q0:line", "Q0:load - Q1:line", "Q1:load - T1:B+")
    .wires(MINUS, "G8:- - B2:line", "B2:load - T1:B-")
    .wires(HEAVY, "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q2:common", "Q2:no - Q1:load")
    .wires(
      { size: "6 mm2", colour: "OG" },
      "Q0:load - F3:1",
      "F3:2 - T2:out+",
      "T2:out- - T1:B-",
      "Q1:load - F4:1",
      "F4:2 - Q3:line",
    )
    .wires(
      { size: "6 mm2", colour: "OG" },
      "Q3:load - E1:+",
      "E1:- - T1:B-",
      "Q1:load - F2:1",
      "F2:2 - T3:in+",
      "T3:in- - T1:B-",
    )
    .wires({ size: "2.5 mm2" }, "X9:L - T2:L", "X9:N - T2:N", "X9:PE - T2:PE")
    .wires({ size: "10 mm2", colour: "RD" }, "T3:out+ - F10:2", "G20:+ - F10:1", "F10:2 - X2:1")
    .wires({ size: "10 mm2", colour: "BK" }, "T3:out- - X1:stud", "G20:- - X1:stud")
    .wires(SMALL, "X2:2 - F11:1", "X2:3 - F12:1", "X2:4 - F13:1", "X2:5 - F14:1", "X2:6 - F15:1", "X2:7 - F16:1")
    .wires(
      SMALL,
      "F11:2 - S1:battery",
      "S1:ignition - S9:common",
      "S9:nc - S2:11",
      "S2:12 - T1:logic+",
      "S2:12 - Q2:coil+",
    )
    .wires(
      SMALL,
      "S2:12 - K3:supply+",
      "K3:common - S2:12",
      "K3:no - Q1:coil+",
      "Q1:coil- - T1:contactor-out",
      "Q2:coil- - X1:stud",
    )
    .wires(
      EARTH,
      "K3:supply- - X1:stud",
      "T1:logic- - X1:stud",
      "T1:case - X1:stud",
      "M1:case - X1:stud",
      "E1:case - X1:stud",
    )
    .wires(
      SMALL,
      "T1:throttle-1 - B1:high",
      "T1:throttle-2 - B1:wiper",
      "T1:throttle-3 - B1:low",
      "S1:ignition - S3:common",
    )
    .wires(SMALL, "S3:no - T1:brake", "S1:ignition - S4:common", "S4:a - T1:forward", "S4:b - T1:reverse")
    .wires(SMALL, "M1:encoder-a - T1:encoder-a", "M1:encoder-b - T1:encoder-b", "M1:encoder-supply - T1:encoder-supply")
    .wires(
      SMALL,
      "M1:encoder-ground - T1:encoder-ground",
      "S1:accessory - P1:supply+",
      "P1:supply- - X1:stud",
      "P1:sense+ - B2:sense-line",
      "P1:sense- - B2:sense-load",
    )
    .wires(SMALL, "F12:2 - K1:common", "K1:no - M2:+", "S1:ignition - K1:coil+", "F13:2 - K2:common", "K2:no - M3:+")
    .wires(
      SMALL,
      "F13:2 - S10:common",
      "S10:out - K2:coil+",
      "F14:2 - S11:common",
      "S11:out - P10:+",
      "S11:out - P11:+",
    )
    .wires(
      SMALL,
      "F15:2 - S12:common",
      "S12:out - P12:+",
      "S12:out - P13:+",
      "F16:2 - S13:common",
      "S13:out - P14:+",
      "F16:2 - F17:1",
    )
    .wires(SMALL, "F17:2 - S14:common", "S14:out - P15:+", "S1:ignition - F18:1", "F18:2 - Q3:coil+")
    .wires(EARTH, "Q3:coil- - X1:stud", "K1:coil- - X1:stud", "K2:coil- - X1:stud", "M2:- - X1:stud", "M3:- - X1:stud")
    .wires(
      EARTH,
      "P10:- - X1:stud",
      "P11:- - X1:stud",
      "P12:- - X1:stud",
      "P13:- - X1:stud",
      "P14:- - X1:stud",
      "P15:- - X1:stud",
    );
  return unplaced(drawn);
}
