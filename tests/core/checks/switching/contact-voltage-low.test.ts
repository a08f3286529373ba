import { contactVoltageLow } from "../../../../core/checks/switching/contact-voltage-low.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, splitPack, stepCar, supplies, twoBoxes } from "./vehicle.ts";

/** A relay of 12 V that switches a lamp of the 12 V side, in its minus lead if so asked. */
const lamp = (rating: Readonly<Record<string, string>>, inMinus = false) => {
  const sketch = supplies(0)
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", ...rating })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud");
  return inMinus
    ? sketch.wires(SMALL, "F9:2 - P1:+", "P1:- - K1:common", "K1:no - X9:stud")
    : sketch.wires(SMALL, "F9:2 - K1:common", "K1:no - P1:+", "P1:- - X9:stud");
};

/** A pack-fed controller woken through a key and a relay. */
const wake = (key: string | undefined, relay: string) =>
  supplies(8)
    .part("Q1", "contactor", { ...COIL, contactVoltage: "150 V" })
    .part("S2", "key-switch", key === undefined ? {} : { contactVoltage: key })
    .part("K2", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: relay })
    .part("T1", "dc-controller", { logicFeed: "pack-fed" })
    .wires(POWER, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - S2:battery", "S2:ignition - K2:common", "K2:no - T1:logic+")
    .wires(SMALL, "S1:ignition - K2:coil+", "K2:coil- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

/** Reversing contactors in the motor loop. */
const reversing = (rating: string) =>
  supplies(4)
    .parts("changeover-contactor", { ...COIL, contactVoltage: rating }, "Q2", "Q3")
    .part("Q1", "contactor", { ...COIL, contactVoltage: "96 V" })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "100 A" })
    .part("M1", "motor-series", { currentContinuous: "100 A" })
    .part("S3", "selector-switch", { contactVoltage: "24 V" })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "T1:M+ - M1:S1")
    .wires(POWER, "M1:S2 - Q2:no", "M1:S2 - Q3:no", "Q2:nc - T1:M-", "Q3:nc - T1:M-")
    .wires(POWER, "Q2:common - M1:A1", "Q3:common - M1:A2")
    .wires(SMALL, "S1:ignition - S3:common", "S3:a - Q2:coil+", "S3:b - Q3:coil+", "Q2:coil- - X9:stud")
    .wires(SMALL, "Q3:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

checkTable(contactVoltageLow, {
  fails: [
    {
      name: "main contactor of 48 V on a string of eight",
      drawing: cart({ contactor: { contactVoltage: "48 V" } }).build(),
      at: "Q1",
      message: "pack",
      severity: "DANGER",
      remedies: ["contact-for-volts"],
      value: 8 * 6 * 2.47,
      limit: 48,
    },
    {
      name: "a resistor across it empties nothing of its duty",
      drawing: cart({ contactor: { contactVoltage: "96 V" }, resistor: "1 kohm" }).build(),
      at: "Q1",
      message: "pack",
      severity: "DANGER",
      remedies: ["contact-for-volts"],
    },
    {
      name: "disconnect of 32 V",
      drawing: cart({ disconnect: { voltageDc: "32 V" } }).build(),
      at: "Q9",
      message: "pack",
      severity: "DANGER",
      remedies: ["contact-for-volts"],
    },
    {
      name: "a key of 24 V carries the pack to the controller",
      drawing: wake("24 V", "150 V").build(),
      at: "S2",
      message: "pack",
      severity: "DANGER",
      remedies: ["contact-for-volts"],
    },
    {
      name: "reversing contactors in the motor loop",
      drawing: reversing("24 V").build(),
      at: ["Q2", "Q3"],
      message: "pack",
      severity: "DANGER",
      remedies: ["contact-for-volts"],
    },
    {
      name: "a relay of 5 V in a lamp's lead",
      drawing: lamp({ contactVoltage: "5 V" }).build(),
      at: "K1",
      message: "held",
      severity: "WARNING",
      remedies: ["contact-for-volts"],
      value: 12.7,
      limit: 5,
    },
  ],
  passes: [
    { name: "split pack with two contactors", drawing: splitPack().build(), at: ["Q1", "Q2", "Q9"] },
    { name: "two boxes with an interlock loop", drawing: twoBoxes().build(), at: ["Q1", "Q4", "Q8", "Q9"] },
    { name: "rated above the pack", drawing: cart({ contactor: { contactVoltage: "150 V" } }).build(), at: "Q1" },
    { name: "key and relay rated for the pack", drawing: wake("125 V", "125 V").build(), at: ["K2", "Q1", "S2"] },
    { name: "a 12 V relay on 12 V", drawing: lamp({ contactVoltage: "12 V" }).build(), at: "K1" },
    { name: "a 14 V relay in the minus lead", drawing: lamp({ contactVoltage: "14 V" }, true).build(), at: "K1" },
    {
      name: "a 12 V relay in the minus lead of a declared common minus",
      drawing: cart({ blocks: 4, contactor: { contactVoltage: "96 V" } })
        .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: "14 V" })
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(SMALL, "G1:- - X9:stud", "S1:ignition - K1:coil+", "K1:coil- - X9:stud")
        .wires(SMALL, "F9:2 - P1:+", "P1:- - K1:common", "K1:no - X9:stud")
        .sharedNegative()
        .build(),
      at: ["K1", "Q1"],
    },
    { name: "series and parallel steps", drawing: stepCar().build(), at: ["Q1", "Q2", "Q3", "Q4", "S1", "S9"] },
    { name: "reversing contactors rated for the pack", drawing: reversing("80 V").build(), at: ["Q2", "Q3"] },
  ],
  notChecked: [
    {
      name: "the key states no rating",
      drawing: wake(undefined, "150 V").build(),
      at: ["S1", "S2"],
      reason: "rating",
      missing: ["S1.contactVoltage", "S2.contactVoltage"],
    },
    {
      name: "nobody says what the blocks are made of",
      drawing: cart({ block: { capacity: "100 Ah" }, contactor: { contactVoltage: "125 V" } }).build(),
      at: "Q1",
      reason: "chemistry",
      missing: ["G1", "G2", "G3", "G4", "G5", "G6", "G7", "G8"].map((block) => `${block}.chemistry`),
    },
  ],
  doesNotApply: [{ name: "no contact anywhere", drawing: cartless() }],
});

function cartless() {
  return supplies(0).part("G1", "battery-block", BLOCK).build();
}
