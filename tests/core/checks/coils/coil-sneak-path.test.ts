import { coilSneakPath } from "../../../../core/checks/coils/coil-sneak-path.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { AUXILIARY, earthedWhileCharging, resistorAcrossSolenoid, SMALL, string } from "../known-good.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm" };

/** Two relays of 12 V in a row on 24 V; a switch bridges the second. */
const boat = (relay: Parameters = RELAY) =>
  string(drawing(), 2, AUXILIARY)
    .parts("relay", relay, "K1", "K2")
    .part("S2", "switch")
    .wires(SMALL, "G2:+ - K1:coil+", "K1:coil- - K2:coil+", "K2:coil- - G1:-", "S2:common - K1:coil-", "S2:out - G1:-")
    .build();

/** A brake lamp and its switch; a relay on the key, with a diode from the lamp's line to its coil or none. */
const brake = (diode: "from-lamp" | "none" | "own") => {
  const sketch = drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("S3", "micro-switch", { actuator: "brake-pedal" })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .part("K5", "relay", RELAY)
    .wires(SMALL, "G20:+ - S1:battery", "G20:+ - S3:common", "S3:no - P1:+", "P1:- - G20:-", "K5:coil- - G20:-");
  if (diode === "none") return sketch.wires(SMALL, "S1:ignition - K5:coil+").build();
  if (diode === "from-lamp") {
    return sketch
      .part("R2", "diode", { current: "1 A", reverseVoltage: "100 V" })
      .wires(SMALL, "S1:ignition - K5:coil+", "P1:+ - R2:anode", "R2:cathode - K5:coil+")
      .build();
  }
  return sketch
    .part("S4", "push-button", { contact: "make" })
    .part("R2", "diode", { current: "1 A", reverseVoltage: "100 V" })
    .part("R3", "diode", { current: "1 A", reverseVoltage: "100 V" })
    .wires(SMALL, "S1:ignition - R2:anode", "R2:cathode - K5:coil+", "G20:+ - S4:1", "S4:2 - R3:anode")
    .wires(SMALL, "R3:cathode - K5:coil+", "S1:ignition - K5:common")
    .build();
};

/** A horn relay's coil that a lamp feeds while the switch stands open. */
const lampAcross = (power: string, relay: Parameters = RELAY) =>
  drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S2", "switch")
    .part("P1", "lamp", { voltage: "12 V", power })
    .part("K1", "relay", relay)
    .wires(SMALL, "G20:+ - S2:common", "S2:out - K1:coil+", "K1:coil- - G20:-", "G20:+ - P1:+", "P1:- - K1:coil+")
    .build();

checkTable(coilSneakPath, {
  fails: [
    {
      name: "two 12 V relays in a row on 24 V: the first is fed through the second when the switch is off",
      drawing: boat(),
      at: "K1:coil+",
      message: "pulls",
      severity: "WARNING",
      value: 12.9,
      limit: 1.2,
    },
    {
      name: "a diode from the brake lamp to the relay of the key",
      drawing: brake("from-lamp"),
      at: "K5:coil+",
      message: "pulls",
      severity: "WARNING",
    },
    {
      name: "a lamp across the switch of a relay",
      drawing: lampAcross("5 W"),
      at: "K1:coil+",
      message: "pulls",
      severity: "WARNING",
    },
    {
      name: "a small lamp across the switch of a relay holds it in",
      drawing: lampAcross("0.6 W"),
      at: "K1:coil+",
      message: "holds",
      severity: "WARNING",
    },
  ],
  passes: [
    {
      name: "a brake lamp and a relay that have nothing to do with each other",
      drawing: brake("none"),
      at: "K5:coil+",
    },
    { name: "an indicator of a few milliwatts across the switch", drawing: lampAcross("0.05 W"), at: "K1:coil+" },
    { name: "a solenoid on 48 V", drawing: resistorAcrossSolenoid().build() },
    { name: "a car that is earthed while it charges", drawing: earthedWhileCharging().build() },
  ],
  notChecked: [
    {
      name: "a relay of unstated coil voltage",
      drawing: lampAcross("5 W", { coilResistance: "90 ohm" }),
      at: "K1:coil+",
      reason: "unrated",
      missing: ["K1.coilVoltage"],
    },
  ],
  doesNotApply: [
    { name: "a coil that key and button feed through a diode each", drawing: brake("own") },
    {
      name: "a coil that nothing but a lamp ever feeds",
      drawing: drawing()
        .part("G20", "battery-block", AUXILIARY)
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .part("K1", "relay", RELAY)
        .wires(SMALL, "G20:+ - P1:+", "P1:- - K1:coil+", "K1:coil- - G20:-")
        .build(),
    },
  ],
});
