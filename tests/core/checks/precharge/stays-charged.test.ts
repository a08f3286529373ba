import { staysCharged } from "../../../../core/checks/precharge/stays-charged.ts";
import { dischargeTime } from "../../../../core/standards/contact-protection.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: "500 V" };

/** The cart of so many blocks, with a bleeder inside the controller of so many ohms; "" leaves it unstated. */
const bled = (blocks: number, bleed: string, capacitance = "2 mF") =>
  cart({
    blocks,
    controller: { inputCapacitance: capacitance, ...(bleed === "" ? {} : { bleedResistance: bleed }) },
  });

/** 12 blocks at rest, 12.7 V each, down to 60 V. */
const secondsFrom152 = (ohms: number, farads: number): number => dischargeTime(ohms, farads, 152.4, 60);

checkTable(staysCharged, {
  fails: [
    {
      name: "144 V and 5 mF without a drain to speak of",
      drawing: bled(12, "10 Mohm", "5 mF").build(),
      at: "T1",
      message: "long",
      severity: "WARNING",
      limit: 60,
    },
    {
      name: "a bleeder that takes a minute and a half",
      drawing: bled(12, "50 kohm").build(),
      at: "T1",
      message: "long",
      severity: "WARNING",
      // R C ln(V/60 V).
      value: secondsFrom152(50e3, 2e-3),
      limit: 60,
    },
    {
      name: "a bleeder that takes a quarter of a minute",
      drawing: bled(12, "8 kohm").build(),
      at: "T1",
      message: "long",
      severity: "NOTICE",
      value: secondsFrom152(8e3, 2e-3),
      limit: 5,
    },
    {
      name: "capacitors beside the controller, one bus",
      drawing: bled(12, "40 kohm")
        .part("C1", "capacitor", { capacitance: "1 mF", voltage: "250 V" })
        .wires(SMALL, "T1:B+ - C1:+", "C1:- - T1:B-")
        .build(),
      at: "T1",
      message: "long",
      severity: "WARNING",
    },
    {
      name: "a heater on the bus that would empty it in no time, were it on",
      drawing: bled(12, "50 kohm")
        .part("E1", "heater", { voltage: "144 V", power: "1500 W" })
        .part("K1", "relay", RELAY)
        .wires(SMALL, "T1:B+ - K1:common", "K1:no - E1:+", "E1:- - T1:B-")
        .wires(SMALL, "S2:12 - K1:coil+", "K1:coil- - X9:stud")
        .build(),
      at: "T1",
      message: "long",
      severity: "WARNING",
      value: secondsFrom152(50e3, 2e-3),
      limit: 60,
    },
    {
      name: "no contactor: the disconnect alone cuts it off, pulled with the pedal down or up",
      drawing: supplies(12)
        .part("Q9", "manual-disconnect", { breakLoad: "yes" })
        .part("T1", "dc-controller", {
          logicFeed: "isolated-12v",
          currentContinuous: "150 A",
          inputCapacitance: "2 mF",
          contactorDriver: "none",
          bleedResistance: "50 kohm",
        })
        .part("M1", "motor-series", { currentContinuous: "150 A" })
        .wires(POWER, "G12:+ - Q9:line", "Q9:load - T1:B+", "T1:B- - G1:-")
        .wires(POWER, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "T1",
      message: "long",
      severity: "WARNING",
      limit: 60,
    },
    {
      name: "insulation from the battery that lets through as much as drains it",
      drawing: bled(12, "10 Mohm")
        .part("R3", "resistor", { resistance: "4 Mohm", power: "1 W" })
        .wires(SMALL, "Q1:line - R3:1", "R3:2 - Q1:load")
        .build(),
      at: "T1",
      message: "ever",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "a bleeder that takes 3 s", drawing: bled(12, "1.5 kohm").build(), at: "T1" },
    {
      name: "a bleeder of its own across the bus, inside the controller none stated",
      drawing: bled(12, "")
        .part("R3", "resistor", { resistance: "1.5 kohm", power: "50 W" })
        .wires(SMALL, "T1:B+ - R3:1", "R3:2 - T1:B-")
        .build(),
      at: "T1",
    },
    {
      name: "so small that no more than 0.2 J stand above 60 V",
      drawing: bled(12, "10 Mohm", "20 uF").build(),
      at: "T1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what drains the controller",
      drawing: bled(12, "").build(),
      at: "T1",
      reason: "bleed",
      missing: ["T1.bleedResistance"],
    },
    {
      name: "nobody says how large the capacitors are",
      drawing: supplies(12)
        .part("Q1", "contactor", COIL)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", bleedResistance: "2 kohm" })
        .wires(SMALL, "G12:+ - Q1:line", "Q1:load - T1:B+", "G1:- - T1:B-", "S1:ignition - Q1:coil+")
        .wires(SMALL, "Q1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "T1",
      reason: "capacitance",
      missing: ["T1.inputCapacitance"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: bled(12, "1.5 kohm")
        .part("K9", "relay", RELAY)
        .wires(SMALL, "F9:2 - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
  ],
  doesNotApply: [
    { name: "48 V", drawing: bled(4, "10 Mohm").build() },
    { name: "no capacitors", drawing: supplies(12).build() },
  ],
});
