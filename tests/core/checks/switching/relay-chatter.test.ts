import { relayChatter } from "../../../../core/checks/switching/relay-chatter.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { AUXILIARY, CONTACTOR_12, inverter320, resistorAcrossSolenoid, SMALL, stepCar } from "../known-good.ts";
import { unstated } from "../mistakes.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm" };

const start = () =>
  drawing().part("G20", "battery-block", AUXILIARY).part("S1", "key-switch").wire("G20:+", "S1:battery", SMALL);

/** Two main contactors behind key and inertia switch, a lamp on the same feed, a joint of so many ohms ahead. */
const wetJoint = (ohms: string) =>
  start()
    .part("R9", "resistor", { resistance: ohms })
    .part("S5", "inertia-switch")
    .parts("contactor", { coilVoltage: "12 V", coilResistance: "12 ohm" }, "Q1", "Q2")
    .part("P1", "lamp", { voltage: "12 V", power: "100 W" })
    .wires(SMALL, "S1:ignition - R9:1", "R9:2 - S5:common", "S5:nc - Q1:coil+", "S5:nc - Q2:coil+")
    .wires(SMALL, "S5:common - P1:+", "P1:- - G20:-", "Q1:coil- - G20:-", "Q2:coil- - G20:-")
    .build();

checkTable(relayChatter, {
  fails: [
    {
      name: "coil fed through its own break contact",
      drawing: start()
        .part("K1", "relay", RELAY)
        .wires(SMALL, "S1:ignition - K1:common", "K1:nc - K1:coil+", "K1:coil- - G20:-")
        .build(),
      at: "K1",
      message: "circle",
      severity: "WARNING",
    },
    {
      name: "two relays that switch each other off",
      drawing: start()
        .parts("relay", RELAY, "K1", "K2")
        .wires(SMALL, "S1:ignition - K1:common", "K1:nc - K2:coil+", "K2:coil- - G20:-")
        .wires(SMALL, "S1:ignition - K2:common", "K2:no - K1:coil+", "K1:coil- - G20:-")
        .build(),
      at: "K1",
      message: "circle",
      severity: "WARNING",
    },
    {
      name: "wet joint ahead of two coils and a lamp",
      drawing: wetJoint("1.5 ohm"),
      at: ["Q1:coil+", "Q2:coil+"],
      message: "between",
      severity: "WARNING",
      limit: 8.4,
    },
    {
      name: "24 V relay on 12 V",
      drawing: start()
        .part("K1", "relay", { coilVoltage: "24 V", coilResistance: "360 ohm" })
        .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - G20:-")
        .build(),
      at: "K1:coil+",
      message: "between",
      severity: "WARNING",
      limit: 16.8,
    },
  ],
  passes: [
    { name: "sound joint ahead of two coils and a lamp", drawing: wetJoint("20 mohm"), at: ["Q1:coil+", "Q2:coil+"] },
    { name: "interlocked step car", drawing: stepCar().build(), at: ["Q1:coil+", "Q2:coil+", "Q4:coil+"] },
    { name: "inverter of 320 V", drawing: inverter320().build(), at: ["Q1:coil+", "K1:coil+"] },
    { name: "48 V cart", drawing: resistorAcrossSolenoid().build(), at: "Q1:coil+" },
    {
      name: "relay that holds itself in after a push on a button",
      drawing: start()
        .part("K1", "relay", RELAY)
        .part("S2", "push-button", { contact: "make" })
        .wires(SMALL, "S1:ignition - S2:1", "S2:2 - K1:coil+", "S1:ignition - K1:common", "K1:no - K1:coil+")
        .wire("K1:coil-", "G20:-", SMALL)
        .build(),
      at: "K1:coil+",
    },
  ],
  notChecked: [
    {
      name: "coil voltage unstated",
      drawing: unstated(inverter320().build(), "K1", "coilVoltage"),
      at: "K1:coil+",
      reason: "unrated",
      missing: ["K1.coilVoltage"],
    },
  ],
  doesNotApply: [
    {
      name: "coil that nothing feeds",
      drawing: start().part("Q1", "contactor", CONTACTOR_12).wire("Q1:coil-", "G20:-", SMALL).build(),
    },
    { name: "no coil", drawing: start().build() },
  ],
});
