import { breaksUnderLoad } from "../../../../core/checks/switching/breaks-under-load.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { COIL, POWER, SMALL, supplies } from "./vehicle.ts";

type Parameters = Readonly<Record<string, string>>;
const WELL = {
  ...COIL,
  coilResistance: "90 ohm",
  suppression: "zener",
  currentBreak: "500 A",
  coilInductance: "0.9 H",
};

/** A heater of 5 kW at 48 V (106 A at 50.8 V) behind a disconnect and a contactor on the key. */
const heating = (contactor: Parameters, disconnect: Parameters = { breakLoad: "yes" }) =>
  supplies(4)
    .part("Q9", "manual-disconnect", disconnect)
    .part("Q1", "contactor", contactor)
    .part("E1", "heater", { voltage: "48 V", power: "5 kW" })
    .wires(POWER, "G4:+ - Q9:line", "Q9:load - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

const { coilInductance: _, ...UNKNOWN_COIL } = WELL;

checkTable(breaksUnderLoad, {
  fails: [
    {
      name: "contactor that may break 50 A",
      drawing: heating({ ...WELL, currentBreak: "50 A", contactVoltage: "72 V" }).build(),
      at: "Q1",
      message: "over",
      severity: "WARNING",
      limit: 50,
      remedies: ["contact-that-breaks"],
    },
    {
      name: "the key itself switches the heater",
      drawing: supplies(4)
        .part("E1", "heater", { voltage: "12 V", power: "200 W" })
        .part("S5", "switch", { contactCurrent: "10 A" })
        .wires(SMALL, "F9:2 - S5:common", "S5:out - E1:+", "E1:- - X9:stud")
        .build(),
      at: "S5",
      message: "over",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "a contact of a relay made for 20 A at 14 V, 1 A at this voltage",
      drawing: supplies(4)
        .part("K1", "relay", { ...COIL, coilResistance: "90 ohm", contactBreakDc: "1 A", suppression: "diode" })
        .part("E1", "heater", { voltage: "48 V", power: "200 W" })
        .wires(SMALL, "G4:+ - K1:common", "K1:no - E1:+", "E1:- - G1:-", "S1:ignition - K1:coil+", "K1:coil- - X9:stud")
        .build(),
      at: "K1",
      message: "over",
      severity: "WARNING",
      limit: 1,
      remedies: [],
    },
    {
      name: "a disconnect that must not break load, ahead of a heater without a switch",
      drawing: supplies(4)
        .part("Q9", "manual-disconnect", { breakLoad: "no" })
        .part("E1", "heater", { voltage: "48 V", power: "5 kW" })
        .wires(POWER, "G4:+ - Q9:line", "Q9:load - E1:+", "E1:- - G1:-")
        .build(),
      at: "Q9",
      message: "idle",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "contactor and disconnect made for it", drawing: heating(WELL).build(), at: ["Q1", "Q9"] },
    {
      name: "a disconnect that must not break load and is pulled with everything off",
      drawing: heating(WELL, { breakLoad: "no" }).build(),
      at: ["Q1", "Q9"],
    },
    {
      name: "coil of unstated inductance: whenever it lets go, the current is the same",
      drawing: heating(UNKNOWN_COIL).build(),
      at: "Q1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the contactor may break",
      drawing: heating({ ...COIL, coilResistance: "90 ohm", suppression: "zener" }).build(),
      at: "Q1",
      reason: "rating",
      missing: ["Q1.currentBreak"],
    },
    {
      name: "nobody says whether the disconnect may break load",
      drawing: heating(WELL, {}).build(),
      at: "Q9",
      reason: "rating",
      missing: ["Q9.breakLoad"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: heating(WELL)
        .part("K9", "relay", { ...COIL, contactBreakDc: "5 A" })
        .wires(SMALL, "S1:ignition - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
    {
      name: "controller that stops while a coil of unstated inductance lets go",
      drawing: supplies(4)
        .part("Q1", "contactor", { ...UNKNOWN_COIL, currentBreak: "50 A", openTime: "0 s" })
        .part("T1", "dc-controller", {
          logicFeed: "isolated-12v",
          contactorDriver: "none",
          inputCapacitance: "1 mF",
          currentContinuous: "150 A",
          highPedalLockout: "no",
        })
        .part("M1", "motor-series", { currentContinuous: "150 A" })
        .part("B2", "throttle-two-wire", { resistanceIdle: "0 ohm", resistanceFull: "5 kohm" })
        .part("R1", "resistor", { resistance: "50 ohm", power: "100 W" })
        .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(POWER, "T1:B+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-")
        .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud")
        .wires(SMALL, "B2:1 - T1:throttle-1", "B2:2 - T1:throttle-2")
        .build(),
      at: "Q1",
      reason: "inductance",
      missing: ["Q1.coilInductance"],
    },
  ],
  doesNotApply: [{ name: "nothing that opens", drawing: supplies(0).build() }],
});
