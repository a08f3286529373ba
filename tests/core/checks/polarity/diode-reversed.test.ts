import { diodeReversed } from "../../../../core/checks/polarity/diode-reversed.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { AUXILIARY, CONTACTOR_48, HEAVY, resistorAcrossSolenoid, SMALL, string } from "../known-good.ts";
import { swapped, unstated } from "../mistakes.ts";

/** 48 V coil through the pedal, a diode across it. */
const pedalCoil = () =>
  string(drawing(), 4)
    .part("F2", "fuse", { rating: "10 A" })
    .part("S3", "micro-switch", { actuator: "throttle-pedal" })
    .part("Q1", "contactor", { ...CONTACTOR_48, suppression: "none" })
    .part("R2", "diode")
    .wires(SMALL, "G4:+ - F2:1", "F2:2 - S3:common", "S3:no - Q1:coil+", "Q1:coil- - G1:-")
    .wires(SMALL, "R2:anode - Q1:coil-", "R2:cathode - Q1:coil+")
    .build();

/** Two feeds for one pump, each through a diode. */
const twoFeeds = () =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .parts("switch", {}, "S1")
    .part("S2", "push-button", { contact: "make" })
    .parts("diode", {}, "R1", "R2")
    .part("M2", "pump", { voltage: "12 V", power: "60 W" })
    .wires(SMALL, "G20:+ - S1:common", "S1:out - R1:anode", "G20:+ - S2:1", "S2:2 - R2:anode")
    .wires(SMALL, "R1:cathode - M2:+", "R2:cathode - M2:+", "M2:- - G20:-")
    .build();

/** A diode in the only feed of a buzzer. */
const oneFeed = () =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "switch")
    .part("R1", "diode")
    .part("P1", "buzzer", { voltage: "12 V", power: "3 W" })
    .wires(SMALL, "G20:+ - S1:common", "S1:out - R1:anode", "R1:cathode - P1:+", "P1:- - G20:-")
    .build();

const suppressor = (type: string, first: string) =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "switch")
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("F9", "suppressor", { type, clampVoltage: "24 V" })
    .wires(SMALL, "G20:+ - S1:common", "S1:out - K1:coil+", "K1:coil- - G20:-")
    .wires(SMALL, `F9:${first} - K1:coil+`, `F9:${first === "1" ? "2" : "1"} - K1:coil-`)
    .build();

checkTable(diodeReversed, {
  fails: [
    {
      name: "coil diode turned round behind the pedal contact",
      drawing: swapped(pedalCoil(), "R2:anode", "R2:cathode"),
      at: "R2",
      message: "suppression",
      severity: "WARNING",
      remedies: ["swap-wires"],
    },
    {
      name: "coil diode turned round behind key and emergency stop",
      drawing: swapped(resistorAcrossSolenoid().build(), "R2:anode", "R2:cathode"),
      at: "R2",
      message: "suppression",
      severity: "WARNING",
      remedies: ["swap-wires"],
    },
    {
      name: "zener with its bar on the minus side of the coil",
      drawing: suppressor("zener", "2"),
      at: "F9",
      message: "suppression",
      severity: "WARNING",
      remedies: ["swap-wires"],
    },
    {
      name: "diode turned round in the only feed of a buzzer",
      drawing: swapped(oneFeed(), "R1:anode", "R1:cathode"),
      at: "R1",
      message: "series",
      severity: "WARNING",
      remedies: ["swap-wires"],
    },
  ],
  passes: [
    { name: "coil diode, cathode on the key side", drawing: pedalCoil(), at: "R2" },
    { name: "two feeds through diodes, one at a time", drawing: twoFeeds(), at: ["R1", "R2"] },
    { name: "diode in the feed of a buzzer", drawing: oneFeed(), at: "R1" },
    { name: "zener with its bar on the plus side of the coil", drawing: suppressor("zener", "1"), at: "F9" },
    { name: "varistor", drawing: suppressor("varistor", "1"), at: "F9" },
    { name: "bidirectional suppressor", drawing: suppressor("bidirectional", "2"), at: "F9" },
    {
      name: "diode and zener in a row across the coil",
      drawing: drawing()
        .part("G20", "battery-block", AUXILIARY)
        .part("S1", "switch")
        .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .part("R2", "diode")
        .part("F9", "suppressor", { type: "zener", clampVoltage: "24 V" })
        .wires(HEAVY, "G20:+ - S1:common", "S1:out - Q1:coil+", "Q1:coil- - G20:-")
        .wires(SMALL, "Q1:coil- - R2:anode", "R2:cathode - F9:1", "F9:2 - Q1:coil+")
        .build(),
      at: "R2",
    },
  ],
  notChecked: [
    {
      name: "suppressor of unstated type",
      drawing: unstated(suppressor("zener", "2"), "F9", "type"),
      at: "F9",
      reason: "kindUnstated",
      missing: ["F9.type"],
    },
  ],
  doesNotApply: [
    {
      name: "diode with one end free",
      drawing: string(drawing(), 1).part("R1", "diode").wire("G1:+", "R1:anode", SMALL).build(),
    },
    { name: "no diode at all", drawing: string(drawing(), 2).build() },
  ],
});
