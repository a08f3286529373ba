import { overvoltage } from "../../../../core/checks/voltages/overvoltage.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

const CONTROLLER = { logicFeed: "pack-fed", currentContinuous: "100 A", logicMax: "130 V" };

/** Eight blocks, a contactor on the key, a controller. Flooded lead on charge: 2.47 V x 6 x 8 = 118.56 V. */
function cart(controller: Parameters, block: Parameters = {}) {
  return pack(8, block)
    .part("S1", "key-switch")
    .part("Q1", "contactor", { coilVoltage: "96 V", coilPower: "12 W" })
    .part("T1", "dc-controller", { ...CONTROLLER, ...controller })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "100 A", voltageMax: "130 V" })
    .wires(HEAVY, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "T1:B+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "G8:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - G1:-", "S1:ignition - T1:logic+");
}

/** A divider whose output and input are changed round: the pack on what is made for 5 V. */
const dividerReversed = pack(12)
  .part("R4", "voltage-divider", { ratio: "1 %", outputMax: "5 V", inputMax: "200 V" })
  .part("P1", "gauge", { isolated: "yes", senseMax: "2 V", supplyMax: "16 V" })
  .wires(SMALL, "G12:+ - R4:out", "R4:in - P1:sense+", "R4:common - G1:-", "P1:sense- - G1:-")
  .build();

const lampOn24 = (lamp: Parameters) =>
  drawing()
    .part("G1", "battery-block", { chemistry: "agm-lead", capacity: "50 Ah", resistance: "5 mohm" })
    .part("G2", "battery-block", { chemistry: "agm-lead", capacity: "50 Ah", resistance: "5 mohm" })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W", ...lamp })
    .wires(SMALL, "G1:+ - G2:-", "G2:+ - P1:+", "P1:- - G1:-")
    .build();

/** Braking pushes 200 A back: the bus rises by 200 A times the resistance of the pack. */
const braking = (controller: Parameters, block: Parameters) =>
  pack(8, block)
    .part("T1", "dc-controller", {
      ...CONTROLLER,
      currentContinuous: "200 A",
      regeneration: "yes",
      regenerationCutVoltage: "150 V",
      logicMax: "160 V",
      ...controller,
    })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "200 A", voltageMax: "160 V" })
    .wires(HEAVY, "G8:+ - T1:B+", "T1:B- - G1:-", "T1:B+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "G8:+ - T1:logic+")
    .build();

checkTable(overvoltage, {
  fails: [
    {
      name: "a controller for 110 V on eight lead blocks, which reach 118.6 V on charge though no charger is drawn",
      drawing: cart({ voltageMax: "110 V" }).build(),
      at: "T1:B+",
      message: "traction",
      severity: "DANGER",
      value: 118.56,
      limit: 110,
    },
    {
      name: "a motor for 72 V behind a controller on eight blocks: at full throttle it gets the whole bus",
      drawing: cart({ voltageMax: "130 V" })
        .part("M2", "motor-permanent-magnet", { currentContinuous: "100 A", voltageMax: "72 V" })
        .wires(HEAVY, "T1:B+ - M2:+", "M2:- - T1:M-")
        .build(),
      at: "M2:+",
      message: "traction",
      severity: "DANGER",
      value: 118.56,
      limit: 72,
    },
    {
      name: "a divider with input and output changed round",
      drawing: dividerReversed,
      at: ["R4:out", "P1:sense+"],
      message: "traction",
      severity: "DANGER",
    },
    {
      name: "a 12 V lamp on two blocks in series",
      drawing: lampOn24({ voltageMax: "16 V" }),
      at: "P1:+",
      message: "auxiliary",
      severity: "WARNING",
      // AGM: 2.45 V x 12.
      value: 29.4,
    },
    {
      name: "a controller that stands the charging voltage, but not that of equalising (2.67 V x 48 = 128.2 V)",
      drawing: cart({ voltageMax: "125 V" }).build(),
      at: "T1:B+",
      message: "equalising",
      severity: "NOTICE",
      value: 128.16,
    },
    {
      name: "braking lifts the bus above the rating at any resistance of the batteries",
      drawing: braking({ voltageMax: "122 V" }, { chemistry: "gel-lead", resistance: "15 mohm" }),
      at: "T1:B+",
      message: "traction",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "a controller for 130 V", drawing: cart({ voltageMax: "130 V" }).build(), at: ["T1:B+", "T1:logic+"] },
    { name: "a 24 V lamp on two blocks", drawing: lampOn24({ voltageMax: "32 V" }), at: "P1:+" },
    {
      name: "braking within the rating",
      drawing: braking({ voltageMax: "160 V" }, { chemistry: "gel-lead", resistance: "15 mohm" }),
      at: "T1:B+",
    },
    {
      name: "a gauge whose sense leads go to a shunt in the minus",
      drawing: withTwelveVolts(pack(8))
        .part("B1", "shunt", { ratedCurrent: "500 A" })
        .part("P1", "gauge", { isolated: "yes", senseMax: "75 mV", supplyMax: "16 V" })
        .part("E1", "heater", { voltage: "96 V", power: "2 kW", voltageMax: "130 V" })
        .wires(HEAVY, "G1:- - B1:line", "B1:load - E1:-", "E1:+ - G8:+")
        .wires(
          SMALL,
          "B1:sense-load - P1:sense+",
          "B1:sense-line - P1:sense-",
          "F20:2 - P1:supply+",
          "P1:supply- - X1:stud",
        )
        .build(),
      at: ["P1:sense+", "P1:supply+", "E1:+"],
    },
  ],
  notChecked: [
    {
      name: "a controller of unstated rating",
      drawing: cart({}).build(),
      at: "T1:B+",
      reason: "rating",
      missing: ["T1.voltageMax"],
    },
    {
      name: "a lamp on blocks of unstated chemistry in the traction string",
      drawing: pack(1, { chemistry: null })
        .part("E1", "load", { voltage: "12 V", power: "50 W", voltageMax: "16 V" })
        .wires(SMALL, "G1:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: "E1:+",
      reason: "chemistry",
      missing: ["G1.chemistry"],
    },
    {
      name: "braking: too high only if the batteries' resistance is at the upper end of its range",
      drawing: braking({ voltageMax: "116 V" }, { chemistry: "gel-lead", resistance: null }),
      at: "T1:B+",
      reason: "range",
      missing: [
        "G1.resistance",
        "G2.resistance",
        "G3.resistance",
        "G4.resistance",
        "G5.resistance",
        "G6.resistance",
        "G7.resistance",
        "G8.resistance",
      ],
    },
  ],
  doesNotApply: [
    { name: "a lamp that is not wired", drawing: drawing().part("P1", "lamp", { voltageMax: "16 V" }).build() },
  ],
});
