import { prechargeContactLow } from "../../../../core/checks/precharge/precharge-contact-low.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, SMALL } from "../switching/vehicle.ts";

/** A relay and a resistor across the main contactor. */
const relayed = (relay: Readonly<Record<string, string>>, block: Readonly<Record<string, string>> = BLOCK) =>
  cart({ block, contactor: { contactVoltage: "200 V" } })
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm", ...relay })
    .part("R1", "resistor", { resistance: "500 ohm", power: "50 W" })
    .wires(SMALL, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load", "S1:ignition - K1:coil+")
    .wire("K1:coil-", "X9:stud", SMALL);

checkTable(prechargeContactLow, {
  fails: [
    {
      name: "car relay for 24 V ahead of the resistor at 96 V",
      drawing: relayed({ contactVoltage: "24 V" }).build(),
      at: "K1",
      message: "low",
      severity: "NOTICE",
      remedies: ["contact-for-volts"],
      value: 8 * 6 * 2.47,
      limit: 24,
    },
    {
      name: "relay that stands the nominal voltage and not the charging voltage",
      drawing: relayed({ contactVoltage: "100 V" }).build(),
      at: "K1",
      message: "low",
      severity: "NOTICE",
      remedies: ["contact-for-volts"],
    },
    {
      name: "timer's contact behind the resistor",
      drawing: cart()
        .part("K2", "timer-relay", { supplyVoltage: "12 V", delay: "2 s", contactVoltage: "60 V" })
        .part("R1", "resistor", { resistance: "500 ohm", power: "50 W" })
        .wires(SMALL, "Q1:line - R1:1", "R1:2 - K2:common", "K2:nc - Q1:load", "S1:ignition - K2:supply+")
        .wire("K2:supply-", "X9:stud", SMALL)
        .build(),
      at: "K2",
      message: "low",
      severity: "NOTICE",
      remedies: ["contact-for-volts"],
    },
  ],
  passes: [
    { name: "relay for 150 V", drawing: relayed({ contactVoltage: "150 V" }).build(), at: "K1" },
    {
      name: "relay for 400 V on blocks of unstated chemistry",
      drawing: relayed({ contactVoltage: "400 V" }, { capacity: "100 Ah" }).build(),
      at: "K1",
    },
    {
      name: "contact on the far side of the resistor",
      drawing: cart()
        .part("K1", "relay", { coilVoltage: "12 V", contactVoltage: "150 V" })
        .part("R1", "resistor", { resistance: "500 ohm", power: "50 W" })
        .wires(SMALL, "Q1:line - R1:1", "R1:2 - K1:common", "K1:no - Q1:load", "S1:ignition - K1:coil+")
        .wire("K1:coil-", "X9:stud", SMALL)
        .build(),
      at: "K1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the relay's contact stands",
      drawing: relayed({}).build(),
      at: "K1",
      reason: "unrated",
      missing: ["K1.contactVoltage"],
    },
    {
      name: "nobody says what the blocks are made of",
      drawing: relayed({ contactVoltage: "110 V" }, { capacity: "100 Ah" }).build(),
      at: "K1",
      reason: "chemistry",
      missing: ["G1", "G2", "G3", "G4", "G5", "G6", "G7", "G8"].map((block) => `${block}.chemistry`),
    },
  ],
  doesNotApply: [
    { name: "no pre-charge", drawing: cart().build() },
    { name: "a resistor without a contact of its own", drawing: cart({ resistor: "1 kohm" }).build() },
  ],
});
