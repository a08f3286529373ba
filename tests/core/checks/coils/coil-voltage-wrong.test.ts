import { coilVoltageWrong } from "../../../../core/checks/coils/coil-voltage-wrong.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import {
  AUXILIARY,
  BLOCK,
  earthedWhileCharging,
  inverter320,
  resistorAcrossSolenoid,
  SMALL,
  string,
} from "../known-good.ts";
import { splitPack } from "../known-good-packs.ts";
import { unstated } from "../mistakes.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm" };

/** Two relays of 12 V in a row on 24 V; a switch bridges the second. */
const boat = () =>
  string(drawing(), 2, { ...BLOCK, duty: "auxiliary" })
    .parts("relay", RELAY, "K1", "K2")
    .part("S2", "switch")
    .wires(SMALL, "G2:+ - K1:coil+", "K1:coil- - K2:coil+", "K2:coil- - G1:-", "S2:common - K1:coil-", "S2:out - G1:-")
    .build();

const onTwelve = (relay: Readonly<Record<string, string>>) =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("K1", "relay", relay)
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - K1:coil+", "K1:coil- - G20:-")
    .build();

checkTable(coilVoltageWrong, {
  fails: [
    {
      name: "two 12 V relays in a row on 24 V, one of them bridged",
      drawing: boat(),
      at: "K1:coil+",
      message: "high",
      severity: "WARNING",
      value: 25.4,
      limit: 16,
    },
    {
      name: "24 V relay on 12 V",
      drawing: onTwelve({ coilVoltage: "24 V", coilResistance: "360 ohm" }),
      at: "K1:coil+",
      message: "low",
      severity: "WARNING",
      limit: 16.8,
    },
    {
      name: "36 V contactor on a pack of 48 V",
      drawing: string(drawing(), 4)
        .part("S1", "key-switch")
        .part("Q1", "contactor", { coilVoltage: "36 V", coilPower: "12 W" })
        .wires(SMALL, "G4:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - G1:-")
        .build(),
      at: "Q1:coil+",
      message: "high",
      severity: "WARNING",
      limit: 47.9,
    },
    {
      name: "12 V contactor on a controller's pack-fed output",
      drawing: string(drawing(), 4)
        .part("S1", "key-switch")
        .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .part("T1", "dc-controller", {
          logicFeed: "pack-fed",
          logicMin: "20 V",
          prechargeInternal: "yes",
          contactorDriver: "low-side",
        })
        .wires(
          SMALL,
          "G4:+ - S1:battery",
          "S1:ignition - Q1:coil+",
          "S1:ignition - T1:logic+",
          "Q1:coil- - T1:contactor-out",
        )
        .wires(SMALL, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .build(),
      at: "Q1:coil+",
      message: "high",
      severity: "WARNING",
      limit: 16,
    },
    {
      name: "stated range that ends below a charged battery",
      drawing: onTwelve({ ...RELAY, coilMin: "8 V", coilMax: "12.5 V" }),
      at: "K1:coil+",
      message: "high",
      severity: "WARNING",
      limit: 12.5,
    },
  ],
  passes: [
    { name: "12 V relay on 12 V", drawing: onTwelve(RELAY), at: "K1:coil+" },
    { name: "48 V coil on 48 V, charging as well", drawing: resistorAcrossSolenoid().build(), at: "Q1:coil+" },
    { name: "12 V coils beside a converter", drawing: earthedWhileCharging().build(), at: "Q1:coil+" },
    { name: "12 V coils of a split pack", drawing: splitPack().build(), at: ["Q1:coil+", "Q2:coil+", "K1:coil+"] },
    { name: "coils on an inverter's outputs", drawing: inverter320().build(), at: ["Q1:coil+", "K1:coil+"] },
  ],
  notChecked: [
    {
      name: "coil voltage unstated",
      drawing: unstated(onTwelve(RELAY), "K1", "coilVoltage"),
      at: "K1:coil+",
      reason: "unrated",
      missing: ["K1.coilVoltage"],
    },
    {
      name: "pick-up known to be unknown",
      drawing: {
        ...onTwelve(RELAY),
        parts: onTwelve(RELAY).parts.map((part) =>
          part.designation === "K1" ? { ...part, parameters: { ...RELAY, coilVoltage: "10 V", pickUp: null } } : part,
        ),
      },
      at: "K1:coil+",
      reason: "unrated",
      missing: ["K1.pickUp"],
    },
  ],
  doesNotApply: [
    {
      name: "coil that nothing feeds",
      drawing: string(drawing(), 2).part("K1", "relay", RELAY).wire("K1:coil-", "G1:-", SMALL).build(),
    },
    {
      name: "coil behind a lamp: its voltage depends on the lamp",
      drawing: string(drawing(), 1)
        .part("K1", "relay", RELAY)
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "G1:+ - P1:+", "P1:- - K1:coil+", "K1:coil- - G1:-")
        .build(),
    },
  ],
});
