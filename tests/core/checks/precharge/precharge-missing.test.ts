import { prechargeMissing } from "../../../../core/checks/precharge/precharge-missing.ts";
import { capacitorEnergy } from "../../../../core/standards/precharge.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, supplies, twoBoxes } from "../switching/vehicle.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: "500 V" };

/** A string with fuse and contactor on the key, and nothing else, ahead of a controller with this capacitance. */
const bare = (blocks: number, capacitance: string | undefined) =>
  supplies(blocks)
    .part("F1", "fuse", { rating: "400 A", voltageDc: "250 V" })
    .part("Q1", "contactor", { ...COIL, contactVoltage: "360 V", currentContinuous: "500 A" })
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      ...(capacitance === undefined ? {} : { inputCapacitance: capacitance }),
    })
    .wires(POWER, `G${blocks}:+ - F1:1`, "F1:2 - Q1:line", "Q1:load - T1:B+", "G1:- - T1:B-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

/** Contactors in both poles and a pre-charge relay, sequenced by a control unit; `main` is the output of the plus pole. */
const salvaged = (main: string) =>
  supplies(0)
    .part("G1", "battery-pack", { duty: "traction", chemistry: "nmc", cells: "2", blocks: "48", capacity: "80 Ah" })
    .parts("contactor", COIL, "Q1", "Q2")
    .part("K1", "relay", RELAY)
    .part("R1", "resistor", { resistance: "100 ohm", power: "50 W" })
    .part("T1", "ac-controller", { logicFeed: "isolated-12v", inputCapacitance: "1 mF" })
    .part("K5", "control-unit", {
      outputs: "3",
      inputs: "1",
      outputType: "high-side",
      "out-1-follows": "not parked",
      "out-2-follows": "key-on or pre-charging",
      "out-3-follows": "ready or driving or driving-low",
    })
    .wires(POWER, "G1:- - Q1:line", "Q1:load - T1:B-", "G1:+ - Q2:line", "Q2:load - T1:B+")
    .wires(SMALL, "Q2:line - K1:common", "K1:no - R1:1", "R1:2 - Q2:load")
    .wires(SMALL, "S1:ignition - K5:supply+", "K5:supply- - X9:stud", "K5:out-1 - Q1:coil+", `${main} - Q2:coil+`)
    .wires(SMALL, "K5:out-2 - K1:coil+", "Q1:coil- - X9:stud", "Q2:coil- - X9:stud", "K1:coil- - X9:stud")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

/** The controller closes both its pre-charge relay and its contactor. */
const selfSequenced = () =>
  supplies(26)
    .part("F1", "fuse", { rating: "250 A" })
    .part("F2", "fuse", { rating: "5 A", voltageDc: "500 V" })
    .part("Q9", "manual-disconnect")
    .part("S9", "emergency-stop")
    .part("Q1", "contactor", COIL)
    .part("K1", "relay", RELAY)
    .part("R1", "resistor", { resistance: "600 ohm", power: "50 W", pulseEnergy: "60 J" })
    .part("T1", "ac-controller", {
      logicFeed: "isolated-12v",
      contactorDriver: "high-side",
      inputCapacitance: "500 uF",
      nominalMin: "320 V",
      prechargeThreshold: "90 %",
      prechargeTimeout: "3 s",
    })
    .wires(POWER, "G26:+ - Q9:line", "Q9:load - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - F2:1", "F2:2 - K1:common", "K1:no - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "S1:ignition - S9:11", "S9:12 - T1:logic+", "T1:logic- - X9:stud")
    .wires(
      SMALL,
      "T1:contactor-out - Q1:coil+",
      "Q1:coil- - X9:stud",
      "T1:precharge-out - K1:coil+",
      "K1:coil- - X9:stud",
    );

/**
 * The charger sits on the bus, and the charge flap wakes what `awake` names: the controller, which then pre-charges and
 * closes its contactor as always, or the contactor's coil itself.
 */
const chargedThroughContactor = (awake: string) =>
  selfSequenced()
    .part("S4", "micro-switch", { actuator: "charge-flap" })
    .part("T3", "charger", { mainsPlug: "yes", isolated: "yes", outputVoltageMax: "380 V", outputCurrentMax: "10 A" })
    .wires(SMALL, "T1:B+ - T3:out+", "T3:out- - T1:B-", "F9:2 - S4:common", `S4:no - ${awake}`);

/** Negative contactor on the key, resistor straight to the bus, positive contactor by a timer. */
const timed = (resistor: Readonly<Record<string, string>>) =>
  supplies(12)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q9", "manual-disconnect")
    .part("S9", "emergency-stop")
    .parts("contactor", COIL, "Q1", "Q2")
    .part("K2", "timer-relay", { supplyVoltage: "12 V", delay: "5 s", mode: "on-delay" })
    .part("P1", "lamp", { voltage: "12 V", power: "2 W" })
    .part("R1", "resistor", { power: "50 W", ...resistor })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", inputCapacitance: "1 mF" })
    .wires(POWER, "G12:+ - F1:1", "F1:2 - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+")
    .wires(POWER, "T1:B- - Q2:load", "Q2:line - G1:-")
    .wires(SMALL, "Q9:load - R1:1", "R1:2 - T1:B+", "S1:ignition - S9:11", "S9:12 - Q2:coil+", "Q2:coil- - X9:stud")
    .wires(SMALL, "S9:12 - K2:supply+", "K2:supply- - X9:stud", "S9:12 - K2:common", "K2:no - Q1:coil+")
    .wires(SMALL, "K2:nc - P1:+", "P1:- - X9:stud", "Q1:coil- - X9:stud", "S9:12 - T1:logic+", "T1:logic- - X9:stud");

/** The same, and the charge flap starts the same sequence, so that the charger on the bus reaches the pack. */
const timedForCharger = (resistor: Readonly<Record<string, string>>) =>
  timed(resistor)
    .part("S4", "micro-switch", { actuator: "charge-flap" })
    .part("T3", "charger", { mainsPlug: "yes", isolated: "yes", outputVoltageMax: "178 V", outputCurrentMax: "10 A" })
    .wires(SMALL, "T1:B+ - T3:out+", "T3:out- - T1:B-", "F9:2 - S4:common", "S4:no - S9:11");

/** Main contactor behind the pedal, and a relay that wakes the controller with it; pre-charge on the key. */
const twoCuts = () =>
  supplies(8)
    .part("S9", "emergency-stop")
    .part("S3", "micro-switch", { actuator: "throttle-pedal" })
    .part("Q1", "contactor", { ...COIL, currentBreak: "2000 A" })
    .parts("relay", RELAY, "K1", "K2")
    .part("R1", "resistor", { resistance: "750 ohm", power: "50 W" })
    .part("T1", "dc-controller", { logicFeed: "pack-fed", externalCut: "allowed", inputCapacitance: "3 mF" })
    .wires(POWER, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "S1:ignition - S9:11", "S9:12 - S3:common", "S3:no - Q1:coil+", "Q1:coil- - X9:stud")
    .wires(SMALL, "Q1:coil+ - K2:coil+", "K2:coil- - X9:stud", "Q1:line - K2:common", "K2:no - T1:logic+")
    .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud")
    .wires(SMALL, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load");

/** A converter of this input capacitance on a contactor of its own. */
const converter = (blocks: number, capacitance: string | undefined) =>
  cart({ blocks, resistor: "470 ohm" })
    .part("Q4", "contactor", COIL)
    .part("T2", "dc-dc-converter", {
      isolated: "yes",
      outputCurrentMax: "30 A",
      ...(capacitance === undefined ? {} : { inputCapacitance: capacitance }),
    })
    .wires(SMALL, "F1:2 - Q4:line", "Q4:load - T2:in+", "T2:in- - G1:-", "T2:out+ - G90:+", "T2:out- - X9:stud")
    .wires(SMALL, "S1:ignition - Q4:coil+", "Q4:coil- - X9:stud");

checkTable(prechargeMissing, {
  fails: [
    {
      name: "charge flap straight on the coil of a contactor that the controller pre-charges while driving",
      drawing: chargedThroughContactor("Q1:coil+").build(),
      at: "Q1",
      message: "energy",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "144 V onto 7200 uF, contactor rated for more",
      drawing: bare(12, "7200 uF").build(),
      at: "Q1",
      message: "energy",
      severity: "DANGER",
      remedies: ["add-precharge"],
      // 12 blocks at rest, 12.7 V each: half of 7.2 mF times 152.4 V squared.
      value: capacitorEnergy(7.2e-3, 152.4),
    },
    {
      name: "96 V, nothing across the contactor behind key and stop",
      drawing: cart({ blocks: 8 }).build(),
      at: "Q1",
      message: "energy",
      severity: "DANGER",
      remedies: ["add-precharge"],
    },
    {
      name: "the last lead bolted on by hand: 120 uF at 185 V hold about 2 J",
      drawing: supplies(15)
        .part("X1", "connector", { positions: "1" })
        .part("T1", "ac-controller", { inputCapacitance: "120 uF", logicFeed: "isolated-12v" })
        .wires(POWER, "G15:+ - X1:1a", "X1:1b - T1:B+", "G1:- - T1:B-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "X1",
      message: "energy",
      severity: "WARNING",
      remedies: [],
      value: capacitorEnergy(120e-6, 190.5),
    },
    {
      name: "two contactors of a 48 V cart, capacitance unstated",
      drawing: supplies(4, { ...BLOCK, chemistry: "lifepo4", cells: "4", dischargeMax: "50 A" })
        .parts("contactor", { ...COIL, suppression: "none" }, "Q1", "Q2")
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "150 A" })
        .part("M1", "motor-separately-excited", { currentContinuous: "150 A" })
        .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - Q2:load", "Q2:line - G1:-")
        .wires(POWER, "T1:M+ - M1:A1", "T1:M- - M1:A2", "T1:F1 - M1:F1", "T1:F2 - M1:F2")
        .wires(SMALL, "S1:ignition - Q1:coil+", "S1:ignition - Q2:coil+", "Q1:coil- - X9:stud", "Q2:coil- - X9:stud")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "Q1",
      message: "unknown",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "control lines of both main contactors tied together",
      drawing: salvaged("K5:out-1").build(),
      at: "Q1",
      message: "energy",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "disconnect onto a converter that is always on",
      drawing: cart({ blocks: 8, resistor: "470 ohm" })
        .part("T2", "dc-dc-converter", { isolated: "yes", inputCapacitance: "330 uF" })
        .wires(SMALL, "Q9:load - T2:in+", "T2:in- - G1:-", "T2:out+ - G90:+", "T2:out- - X9:stud")
        .build(),
      at: "Q9",
      message: "energy",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "a small converter on a contactor of its own",
      drawing: converter(4, "47 uF").build(),
      at: "Q4",
      message: "little",
      severity: "NOTICE",
      remedies: [],
    },
  ],
  passes: [
    { name: "two boxes with an interlock loop", drawing: twoBoxes().build(), at: "Q4" },
    { name: "24 V, 220 ohm across the contactor", drawing: cart({ blocks: 2, resistor: "220 ohm" }).build(), at: "Q1" },
    { name: "48 V, 470 ohm across the contactor", drawing: cart({ blocks: 4, resistor: "470 ohm" }).build(), at: "Q1" },
    { name: "96 V, 1 kohm across the contactor", drawing: cart({ blocks: 8, resistor: "1 kohm" }).build(), at: "Q1" },
    {
      name: "minus pole, pre-charge, plus pole, each by its own output",
      drawing: salvaged("K5:out-3").build(),
      at: "Q2",
    },
    { name: "controller that closes its contactor on a full bus", drawing: selfSequenced().build(), at: "Q1" },
    {
      name: "controller that charges its bus and closes its contactor for the charger as well",
      drawing: chargedThroughContactor("S9:11").build(),
      at: "Q1",
    },
    { name: "timer of 5 s", drawing: timed({ resistance: "750 ohm" }).build(), at: "Q1" },
    {
      name: "timer that makes the charger wait for the pre-charge too",
      drawing: timedForCharger({ resistance: "750 ohm" }).build(),
      at: "Q1",
    },
    { name: "two independent cuts behind the pedal", drawing: twoCuts().build(), at: "Q1" },
  ],
  notChecked: [
    {
      name: "a converter of unstated capacitance",
      drawing: converter(8, undefined).build(),
      at: "Q4",
      reason: "capacitance",
      missing: ["T2.inputCapacitance"],
    },
    {
      name: "a resistor of unstated value",
      drawing: timed({}).build(),
      at: "Q1",
      reason: "resistor",
      missing: ["R1.resistance"],
    },
  ],
  doesNotApply: [{ name: "no capacitors", drawing: supplies(2).build() }],
});
