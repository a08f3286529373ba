import { prechargeOrder } from "../../../../core/checks/precharge/precharge-order.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm", contactVoltage: "500 V" };
const CONTROLLER = { logicFeed: "isolated-12v", inputCapacitance: "2 mF" };

interface Sequence {
  /** Capacitance at the controller; null leaves it unstated. */
  readonly capacitance?: string | null;
  /** What feeds the coils: minus pole, plus pole with the resistor across it, middle of the string. */
  readonly minus: string;
  readonly plus: string;
  readonly middle: string;
  readonly timers?: Readonly<Record<string, string>>;
}

/**
 * Twelve blocks in two halves, contactors in the minus pole (Q2), in the middle (Q3) and in the plus pole (Q1), R1 across
 * Q1; K2 and K3 are timers on the key, of which `timers` states the delay.
 */
const halves = ({ capacitance = "2 mF", minus, plus, middle, timers = {} }: Sequence) => {
  const sketch = supplies(0);
  for (let index = 1; index <= 12; index += 1) {
    sketch.part(`G${index}`, "battery-block", { chemistry: "flooded-lead", capacity: "100 Ah" });
    if (index > 1 && index !== 7) sketch.wire(`G${index - 1}:+`, `G${index}:-`, POWER);
  }
  sketch.part("F1", "fuse", { rating: "250 A" }).parts("contactor", COIL, "Q1", "Q2", "Q3");
  for (const [timer, delay] of [
    ["K2", timers["K2"] ?? "3 s"],
    ["K3", timers["K3"] ?? "4 s"],
  ] as const) {
    const parameters = { supplyVoltage: "12 V", mode: "on-delay", ...(delay === "" ? {} : { delay }) };
    sketch.part(timer, "timer-relay", parameters);
    sketch.wires(
      SMALL,
      `S1:ignition - ${timer}:supply+`,
      `${timer}:supply- - X9:stud`,
      `S1:ignition - ${timer}:common`,
    );
  }
  const { inputCapacitance: _, ...bare } = CONTROLLER;
  return sketch
    .part("R1", "resistor", { resistance: "100 ohm", power: "50 W" })
    .part("T1", "dc-controller", capacitance === null ? bare : { ...bare, inputCapacitance: capacitance })
    .wires(POWER, "G6:+ - Q3:load", "Q3:line - G7:-", "G12:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+")
    .wires(POWER, "T1:B- - Q2:load", "Q2:line - G1:-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, `${minus} - Q2:coil+`, `${plus} - Q1:coil+`, `${middle} - Q3:coil+`)
    .wires(SMALL, "Q1:coil- - X9:stud", "Q2:coil- - X9:stud", "Q3:coil- - X9:stud");
};

/** Contactors in both poles and a pre-charge relay, sequenced by a control unit; `main` is the output of the plus pole. */
const salvaged = (main: string, boot: string) =>
  supplies(0)
    .part("G1", "battery-pack", { duty: "traction", chemistry: "nmc", cells: "2", blocks: "48", capacity: "80 Ah" })
    .parts("contactor", COIL, "Q1", "Q2")
    .part("K1", "relay", RELAY)
    .part("R1", "resistor", { resistance: "50 ohm", power: "50 W" })
    .part("T1", "ac-controller", { ...CONTROLLER, inputCapacitance: "1 mF" })
    .part("K5", "control-unit", {
      outputs: "3",
      inputs: "1",
      outputType: "high-side",
      outputBootState: boot,
      "out-1-follows": "not parked",
      "out-2-follows": "key-on or pre-charging",
      "out-3-follows": "ready or driving or driving-low",
    })
    .wires(POWER, "G1:- - Q1:line", "Q1:load - T1:B-", "G1:+ - Q2:line", "Q2:load - T1:B+")
    .wires(SMALL, "Q2:line - K1:common", "K1:no - R1:1", "R1:2 - Q2:load")
    .wires(SMALL, "S1:ignition - K5:supply+", "K5:supply- - X9:stud", "K5:out-1 - Q1:coil+", `${main} - Q2:coil+`)
    .wires(SMALL, "K5:out-2 - K1:coil+", "Q1:coil- - X9:stud", "Q2:coil- - X9:stud", "K1:coil- - X9:stud")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

checkTable(prechargeOrder, {
  fails: [
    {
      name: "a contactor in the middle of the string closes after the one that the resistor bridges",
      drawing: halves({ minus: "S1:ignition", plus: "K2:no", middle: "K3:no" }).build(),
      at: "Q3",
      message: "early",
      severity: "DANGER",
      // Twelve blocks at rest, 12.7 V each, less what leaks have put onto the capacitors.
      value: 151,
    },
    {
      name: "minus pole last",
      drawing: halves({ minus: "K3:no", plus: "K2:no", middle: "S1:ignition" }).build(),
      at: "Q2",
      message: "early",
      severity: "DANGER",
    },
    {
      name: "control lines of both main contactors tied together",
      drawing: salvaged("K5:out-1", "off").build(),
      at: "Q1",
      message: "early",
      severity: "DANGER",
    },
    {
      name: "outputs that are on while the control unit starts",
      drawing: salvaged("K5:out-3", "on").build(),
      at: "Q1",
      message: "early",
      severity: "DANGER",
    },
  ],
  passes: [
    {
      name: "middle and minus pole first, then the plus pole with the resistor across it",
      drawing: halves({ minus: "S1:ignition", plus: "K2:no", middle: "S1:ignition" }).build(),
      at: "Q1",
    },
    { name: "minus pole, pre-charge, plus pole, each by its own output", drawing: salvaged("K5:out-3", "off").build() },
    { name: "resistor across the only contactor", drawing: cart({ blocks: 8, resistor: "470 ohm" }).build(), at: "Q1" },
    {
      name: "one that closes late onto capacitors too small to weld anything",
      drawing: halves({ minus: "S1:ignition", plus: "K2:no", middle: "K3:no", capacitance: "20 uF" }).build(),
      at: "Q3",
    },
  ],
  notChecked: [
    {
      name: "capacitance unstated",
      drawing: halves({ minus: "S1:ignition", plus: "K2:no", middle: "K3:no", capacitance: null }).build(),
      at: "Q3",
      reason: "capacitance",
      missing: ["T1.inputCapacitance"],
    },
    {
      name: "the delay that decides the order unstated",
      drawing: halves({ minus: "S1:ignition", plus: "K2:no", middle: "K3:no", timers: { K3: "" } }).build(),
      at: "Q1",
      reason: "delay",
      missing: ["K3.delay"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: cart({ blocks: 8, resistor: "470 ohm" })
        .part("K9", "relay", RELAY)
        .wires(SMALL, "S1:ignition - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
  ],
  doesNotApply: [
    { name: "no capacitors", drawing: supplies(2).build() },
    { name: "no resistor at all", drawing: cart({ blocks: 8 }).build() },
  ],
});
