import { outputUndefined } from "../../../../core/checks/coils/output-undefined.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { AUXILIARY, HEAVY, resistorAcrossSolenoid, SMALL } from "../known-good.ts";

const COIL = { coilVoltage: "12 V", coilPower: "12 W" };

/** A 320 V inverter whose contactors hang on the outputs of a control unit; a delay relay in the main one's chain or not. */
const inverter = (unit: Parameters, delayed = false) => {
  const sketch = drawing()
    .part("G1", "battery-pack", {
      duty: "traction",
      chemistry: "lifepo4",
      cells: "4",
      blocks: "24",
      resistance: "60 mohm",
    })
    .part("T1", "ac-controller", { logicFeed: "isolated-12v", inputCapacitance: "1 mF" })
    .part("Q1", "contactor", COIL)
    .part("Q2", "contactor", COIL)
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("R1", "resistor", { resistance: "500 ohm", power: "50 W" })
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("K5", "control-unit", { inputs: "1", outputs: "2", outputType: "low-side", ...unit })
    .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - Q2:load", "Q2:line - G1:-")
    .wires(SMALL, "Q1:line - K1:common", "K1:no - R1:1", "R1:2 - Q1:load")
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - K5:supply+", "K5:supply- - G20:-", "S1:ignition - T1:logic+")
    .wires(SMALL, "T1:logic- - G20:-", "S1:ignition - Q2:coil+", "Q2:coil- - G20:-")
    .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - K5:out-2", "Q1:coil- - K5:out-1");
  if (!delayed) return sketch.wires(SMALL, "S1:ignition - Q1:coil+").build();
  return sketch
    .part("K2", "timer-relay", { supplyVoltage: "12 V", delay: "5 s", mode: "on-delay" })
    .wires(SMALL, "S1:ignition - K2:supply+", "K2:supply- - G20:-", "S1:ignition - K2:common", "K2:no - Q1:coil+")
    .build();
};

/** A controller that drives its own contactor from its own plus. */
const controller = (parameters: Parameters) =>
  drawing()
    .part("G1", "battery-pack", { duty: "traction", chemistry: "agm-lead", blocks: "8", resistance: "40 mohm" })
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "high-side", ...parameters })
    .part("Q1", "contactor", COIL)
    .part("R1", "resistor", { resistance: "1 kohm", power: "20 W" })
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "G20:+ - S1:battery", "S1:ignition - T1:logic+")
    .wires(SMALL, "T1:logic- - G20:-", "T1:contactor-out - Q1:coil+", "Q1:coil- - G20:-")
    .build();

checkTable(outputUndefined, {
  fails: [
    {
      name: "a main contactor on a control unit of which nobody knows what it does at first",
      drawing: inverter({ outputBootState: "undefined" }),
      at: "Q1:coil+",
      message: "undefined",
      severity: "WARNING",
      limit: 8.4,
    },
    {
      name: "a main contactor on a control unit whose outputs come up on",
      drawing: inverter({ outputBootState: "on" }),
      at: "Q1:coil+",
      message: "on",
      severity: "WARNING",
    },
    {
      name: "a controller that closes its own contactor for a moment",
      drawing: controller({ outputBootState: "undefined" }),
      at: "Q1:coil+",
      message: "undefined",
      severity: "WARNING",
    },
  ],
  passes: [
    {
      name: "outputs that are off at first",
      drawing: inverter({ outputBootState: "off" }),
      at: ["Q1:coil+", "Q2:coil+"],
    },
    {
      name: "a delay relay in the coil's chain",
      drawing: inverter({ outputBootState: "undefined" }, true),
      at: ["Q1:coil+", "Q2:coil+"],
    },
    { name: "a coil on the key alone", drawing: resistorAcrossSolenoid().build() },
    {
      name: "a controller whose driver is off at first",
      drawing: controller({ outputBootState: "off" }),
      at: "Q1:coil+",
    },
  ],
  notChecked: [
    {
      name: "a control unit of which nothing is stated",
      drawing: inverter({}),
      at: "Q1:coil+",
      reason: "boot",
      missing: ["K5.outputBootState"],
    },
  ],
  doesNotApply: [
    {
      name: "a contactor of the 12 V side",
      drawing: drawing()
        .part("G20", "battery-block", AUXILIARY)
        .part("K5", "control-unit", { inputs: "1", outputs: "1", outputBootState: "on" })
        .part("Q1", "contactor", COIL)
        .wires(SMALL, "G20:+ - K5:supply+", "K5:supply- - G20:-", "K5:out-1 - Q1:coil+", "Q1:coil- - G20:-")
        .wires(SMALL, "G20:+ - Q1:line")
        .build(),
    },
  ],
});
