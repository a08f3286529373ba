import { coilWeak } from "../../../../core/checks/coils/coil-weak.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { AUXILIARY, earthedWhileCharging, inverter320, resistorAcrossSolenoid, SMALL } from "../known-good.ts";

const COIL = { coilVoltage: "12 V", coilResistance: "12 ohm", suppression: "none" };

/** A contactor's coil on a 12 V battery through the key; `feed` is the wire from key to coil. */
const coil = (feed: WireOptions, parameters: Parameters = COIL) =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("Q1", "contactor", parameters)
    .wire("G20:+", "S1:battery", SMALL)
    .wire("S1:ignition", "Q1:coil+", feed)
    .wire("Q1:coil-", "G20:-", SMALL)
    .build();

/** The same with a resistor and a lamp in the feed: the wet joint of a rainy day. */
const wet = (ohms: string) =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("R9", "resistor", { resistance: ohms, power: "50 W" })
    .part("P1", "lamp", { voltage: "12 V", power: "55 W" })
    .part("Q1", "contactor", COIL)
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - R9:1", "R9:2 - Q1:coil+", "R9:2 - P1:+")
    .wires(SMALL, "Q1:coil- - G20:-", "P1:- - G20:-")
    .build();

/** A coil with a resistor that its own break contact bridges until it is in. */
const economised = () =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("R9", "resistor", { resistance: "12 ohm", power: "50 W" })
    .part("Q1", "contactor", { ...COIL, aux: "break" })
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - R9:1", "R9:2 - Q1:coil+", "Q1:coil- - G20:-")
    .wires(SMALL, "R9:1 - Q1:aux-1", "Q1:aux-2 - R9:2")
    .build();

/** A 12 V coil on a converter that gives too little. */
const converter = (outputVoltage: string) =>
  drawing()
    .part("G1", "battery-pack", { duty: "traction", chemistry: "agm-lead", blocks: "4", resistance: "20 mohm" })
    .part("T2", "dc-dc-converter", {
      isolated: "yes",
      inputMin: "30 V",
      outputVoltage,
      outputCurrentMax: "10 A",
      enableInput: "none",
    })
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .wires(SMALL, "G1:+ - T2:in+", "T2:in- - G1:-", "T2:out+ - K1:coil+", "K1:coil- - T2:out-")
    .build();

checkTable(coilWeak, {
  fails: [
    {
      name: "a coil of 12 ohm behind 60 m of 0.35 mm2",
      // 10.5 V behind some 4 ohm of warm wire.
      drawing: coil({ size: "0.35 mm2", length: "60 m" }),
      at: "Q1:coil+",
      message: "battery",
      severity: "WARNING",
      limit: 8.4,
    },
    {
      name: "a coil behind a wet joint that a lamp shares",
      drawing: wet("1.5 ohm"),
      at: "Q1:coil+",
      message: "battery",
      severity: "WARNING",
      limit: 8.4,
    },
    {
      name: "a coil with a pick-up of 92 %",
      drawing: coil({ size: "1.5 mm2", length: "3 m" }, { ...COIL, pickUp: "92 %" }),
      at: "Q1:coil+",
      message: "flat",
      severity: "WARNING",
      limit: 11.04,
    },
    {
      name: "a 12 V relay on a converter for 8 V",
      drawing: converter("8 V"),
      at: "K1:coil+",
      message: "supply",
      severity: "WARNING",
      value: 8,
      limit: 8.4,
    },
  ],
  passes: [
    { name: "a coil behind 3 m of 1.5 mm2", drawing: coil({ size: "1.5 mm2", length: "3 m" }), at: "Q1:coil+" },
    { name: "a joint that is sound", drawing: wet("5 mohm"), at: "Q1:coil+" },
    { name: "a resistor that comes in only once the coil is in", drawing: economised(), at: "Q1:coil+" },
    { name: "a 12 V relay on a converter for 12 V", drawing: converter("12 V"), at: "K1:coil+" },
    { name: "a solenoid on 48 V", drawing: resistorAcrossSolenoid().build() },
    { name: "an inverter that drives its own contactor", drawing: inverter320().build() },
    { name: "a car that is earthed while it charges", drawing: earthedWhileCharging().build() },
  ],
  notChecked: [
    {
      name: "a coil of unstated voltage",
      drawing: coil(SMALL, { coilResistance: "12 ohm" }),
      at: "Q1:coil+",
      reason: "unrated",
      missing: ["Q1.coilVoltage"],
    },
    {
      name: "a coil of unstated power",
      drawing: coil(SMALL, { coilVoltage: "12 V" }),
      at: "Q1:coil+",
      reason: "current",
      missing: ["Q1.coilPower"],
    },
    {
      name: "a feed of unstated length",
      drawing: coil({ size: "1.5 mm2" }),
      at: "Q1:coil+",
      reason: "wires",
      missing: ["W2.length"],
    },
    {
      name: "a coil on a traction pack of unstated chemistry",
      drawing: drawing()
        .part("G1", "battery-pack", { duty: "traction", blocks: "4", resistance: "20 mohm" })
        .part("Q1", "contactor", { coilVoltage: "48 V", coilResistance: "190 ohm" })
        .part("S1", "key-switch")
        .wires(SMALL, "G1:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - G1:-")
        .build(),
      at: "Q1:coil+",
      reason: "chemistry",
      missing: ["G1.chemistry"],
    },
  ],
  doesNotApply: [
    {
      name: "a coil that nothing feeds",
      drawing: drawing().part("G20", "battery-block", AUXILIARY).part("Q1", "contactor", COIL).build(),
    },
  ],
});
