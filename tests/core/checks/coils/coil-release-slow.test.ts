import { coilReleaseSlow } from "../../../../core/checks/coils/coil-release-slow.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { POWER, SMALL, supplies } from "../switching/vehicle.ts";

const COIL = { coilVoltage: "12 V", coilResistance: "24 ohm" };

/** A contactor on the key that switches a heater of 500 W. */
const heating = (contactor: Readonly<Record<string, string>>, kind = "contactor") =>
  supplies(4)
    .part("Q1", kind, { ...COIL, ...contactor })
    .part("E1", "heater", { voltage: "48 V", power: "500 W" })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

const beside = (contactor: Readonly<Record<string, string>>) =>
  heating(contactor).part("R3", "diode").wires(SMALL, "R3:cathode - Q1:coil+", "R3:anode - Q1:coil-");

checkTable(coilReleaseSlow, {
  fails: [
    {
      name: "diode built in",
      drawing: heating({ suppression: "diode" }).build(),
      at: "Q1",
      message: "slow",
      severity: "NOTICE",
      remedies: [],
    },
    {
      name: "diode beside the coil",
      drawing: beside({ suppression: "none" }).build(),
      at: "Q1",
      message: "slow",
      severity: "NOTICE",
      remedies: ["faster-release"],
    },
    {
      name: "diode beside a zener that it makes useless",
      drawing: beside({ suppression: "zener" }).build(),
      at: "Q1",
      message: "slow",
      severity: "NOTICE",
      remedies: ["take-off-diode"],
    },
  ],
  passes: [
    { name: "zener built in", drawing: heating({ suppression: "zener" }).build(), at: "Q1" },
    { name: "bidirectional suppressor built in", drawing: heating({ suppression: "bidirectional" }).build(), at: "Q1" },
    {
      name: "diode in series with a zener",
      drawing: heating({ suppression: "none" })
        .part("R3", "diode")
        .part("F7", "suppressor", { type: "zener", clampVoltage: "15 V" })
        .wires(SMALL, "R3:cathode - Q1:coil+", "R3:anode - F7:2", "F7:1 - Q1:coil-")
        .build(),
      at: "Q1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what is inside",
      drawing: heating({}).build(),
      at: "Q1",
      reason: "suppression",
      missing: ["Q1.suppression"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: heating({ suppression: "zener" })
        .part("K9", "relay", COIL)
        .wires(SMALL, "S1:ignition - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
  ],
  doesNotApply: [
    { name: "no contactor", drawing: supplies(2).build() },
    {
      name: "a contactor that opens nothing",
      drawing: supplies(4)
        .part("Q1", "contactor", { ...COIL, suppression: "diode" })
        .wires(POWER, "G4:+ - Q1:line")
        .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud")
        .build(),
    },
  ],
});
