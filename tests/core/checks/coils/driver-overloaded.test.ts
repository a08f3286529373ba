import { driverOverloaded } from "../../../../core/checks/coils/driver-overloaded.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { AUXILIARY, SMALL } from "../known-good.ts";

const COIL = { coilVoltage: "12 V", coilResistance: "6 ohm" };

/** A control unit of which output 1 switches a contactor (and a lamp) while driving. */
const unit = (parameters: Parameters, coil: Parameters = COIL, lamp = false) => {
  const sketch = drawing()
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("K5", "control-unit", {
      inputs: "1",
      outputs: "2",
      outputType: "high-side",
      "out-1-follows": "driving",
      ...parameters,
    })
    .part("Q1", "contactor", coil)
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - K5:supply+", "K5:supply- - G20:-")
    .wires(SMALL, "K5:out-1 - Q1:coil+", "Q1:coil- - G20:-");
  if (!lamp) return sketch.build();
  return sketch
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .wires(SMALL, "K5:out-1 - P1:+", "P1:- - G20:-")
    .build();
};

const ECONOMISED = { coilVoltage: "12 V", coilResistance: "3 ohm", economiser: "yes" };

checkTable(driverOverloaded, {
  fails: [
    {
      name: "a coil of 2 A on an output for 1 A",
      drawing: unit({ outputCurrent: "1 A" }),
      at: "K5:out-1",
      message: "overloaded",
      severity: "WARNING",
      limit: 1,
    },
    {
      name: "a coil and a lamp of 21 W on an output for 3 A",
      drawing: unit({ outputCurrent: "3 A" }, COIL, true),
      at: "K5:out-1",
      message: "overloaded",
      severity: "WARNING",
      limit: 3,
    },
    {
      name: "a coil that pulls in with 4 A and holds with less than 2 A on an output for 2 A",
      drawing: unit({ outputCurrent: "2 A" }, ECONOMISED),
      at: "K5:out-1",
      message: "overloaded",
      severity: "WARNING",
      limit: 2,
    },
    {
      name: "a low-side output that nothing in its program ever turns on",
      drawing: drawing()
        .part("G20", "battery-block", AUXILIARY)
        .part("K5", "control-unit", { inputs: "1", outputs: "1", outputType: "low-side", outputCurrent: "0.5 A" })
        .part("Q1", "contactor", COIL)
        .wires(SMALL, "G20:+ - K5:supply+", "K5:supply- - G20:-", "G20:+ - Q1:coil+", "Q1:coil- - K5:out-1")
        .build(),
      at: "K5:out-1",
      message: "overloaded",
      severity: "WARNING",
      limit: 0.5,
    },
  ],
  passes: [
    { name: "a coil of 2 A on an output for 3 A", drawing: unit({ outputCurrent: "3 A" }), at: "K5:out-1" },
    {
      name: "a coil and a lamp on an output for 5 A",
      drawing: unit({ outputCurrent: "5 A" }, COIL, true),
      at: "K5:out-1",
    },
    {
      name: "a coil that pulls in with 4 A on an output for 5 A",
      drawing: unit({ outputCurrent: "5 A" }, ECONOMISED),
      at: "K5:out-1",
    },
  ],
  notChecked: [
    {
      name: "an output of unstated rating",
      drawing: unit({}),
      at: "K5:out-1",
      reason: "rating",
      missing: ["K5.outputCurrent"],
    },
    {
      name: "a coil of unstated power",
      drawing: unit({ outputCurrent: "3 A" }, { coilVoltage: "12 V" }),
      at: "K5:out-1",
      reason: "coil",
      missing: ["Q1.coilPower"],
    },
  ],
  doesNotApply: [
    {
      name: "an output that only a control unit's input hangs on",
      drawing: drawing()
        .part("G20", "battery-block", AUXILIARY)
        .part("K5", "control-unit", { inputs: "1", outputs: "1", outputCurrent: "1 A", "out-1-follows": "driving" })
        .part("K6", "control-unit", { inputs: "1", outputs: "1" })
        .wires(SMALL, "G20:+ - K5:supply+", "K5:supply- - G20:-", "G20:+ - K6:supply+", "K6:supply- - G20:-")
        .wires(SMALL, "K5:out-1 - K6:in-1")
        .build(),
    },
  ],
});
