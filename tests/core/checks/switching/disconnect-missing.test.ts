import { disconnectMissing } from "../../../../core/checks/switching/disconnect-missing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, splitPack, stepCar, supplies, twoBoxes } from "./vehicle.ts";

/** A cart whose string is joined in the middle through `kind` instead of a disconnect in its lead. */
const splitBy = (kind: string, parameters: Readonly<Record<string, string>>, a: string, b: string) => {
  const sketch = supplies(4)
    .part("G5", "battery-block", BLOCK)
    .part("D1", kind, parameters)
    .part("Q1", "contactor", COIL)
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "100 A" })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "100 A" });
  return sketch
    .wires(POWER, `G4:+ - D1:${a}`, `D1:${b} - G5:-`, "G5:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(POWER, "T1:B+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");
};

/** A field-controlled cart on 36 V without disconnect or tow switch. */
const towed = () =>
  supplies(3)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", COIL)
    .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
    .part("M1", "motor-separately-excited", { currentContinuous: "120 A" })
    .wires(POWER, "G3:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(POWER, "T1:M- - M1:A2", "T1:M+ - M1:A1", "T1:F1 - M1:F1", "T1:F2 - M1:F2")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

const PLUG = { positions: "1", pinVoltage: "150 V", pinCurrent: "175 A" };

checkTable(disconnectMissing, {
  fails: [
    {
      name: "contactor alone",
      drawing: cart({ disconnect: null }).build(),
      at: "G8:+",
      message: "none",
      severity: "DANGER",
      remedies: ["fit-disconnect"],
      value: 8 * 6 * 2.47,
    },
    {
      name: "cart without disconnect or tow switch",
      drawing: towed().build(),
      at: "G3:+",
      message: "none",
      severity: "DANGER",
    },
    {
      name: "heater ahead of the disconnect",
      drawing: cart()
        .part("E1", "heater", { voltage: "96 V", power: "1 kW" })
        .wires(SMALL, "G8:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: "G8:+",
      message: "bypassed",
      severity: "DANGER",
    },
    {
      name: "a wire across the disconnect",
      drawing: cart().wires(POWER, "Q9:line - Q9:load").build(),
      at: "G8:+",
      message: "idle",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a plug rated for too little",
      drawing: splitBy("connector", { ...PLUG, pinVoltage: "50 V" }, "1a", "1b").build(),
      at: "G5:+",
      message: "none",
      severity: "DANGER",
    },
    {
      name: "a breaker without a handle",
      drawing: splitBy("circuit-breaker", { rating: "200 A", manual: "no" }, "line", "load").build(),
      at: "G5:+",
      message: "none",
      severity: "DANGER",
    },
  ],
  passes: [
    { name: "split pack with two contactors", drawing: splitPack().build() },
    { name: "two boxes with an interlock loop", drawing: twoBoxes().build() },
    {
      name: "a disconnect, and a small load ahead of it at 48 V",
      drawing: cart({ blocks: 4 })
        .part("E1", "load", { voltage: "24 V", current: "0.2 A" })
        .wires(SMALL, "G4:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: "G4:+",
    },
    {
      name: "a disconnect, and a converter without isolation that joins pack and 12 V side",
      drawing: cart()
        .part("T2", "dc-dc-converter", { isolated: "no", inputMin: "50 V", outputCurrentMax: "20 A" })
        .wires(SMALL, "T1:B+ - T2:in+", "T2:in- - T1:B-", "T2:out+ - S1:battery", "T2:out- - X9:stud")
        .build(),
      at: "G8:+",
    },
    { name: "disconnect in the lead", drawing: cart().build(), at: "G8:+" },
    {
      name: "a rated plug in the middle of the string",
      drawing: splitBy("connector", PLUG, "1a", "1b").build(),
      at: "G5:+",
    },
    {
      name: "a breaker with a handle",
      drawing: splitBy("circuit-breaker", { rating: "200 A", manual: "yes" }, "line", "load").build(),
      at: "G5:+",
    },
    {
      name: "series and parallel steps behind one disconnect",
      drawing: stepCar().part("Q8", "manual-disconnect").build(),
    },
  ],
  notChecked: [
    {
      name: "the only plug states no rating",
      drawing: splitBy("connector", { positions: "1" }, "1a", "1b").build(),
      at: "G5:+",
      reason: "rating",
      missing: ["D1.pinCurrent", "D1.pinVoltage"],
    },
    {
      name: "nobody says whether the breaker has a handle",
      drawing: splitBy("circuit-breaker", { rating: "200 A" }, "line", "load").build(),
      at: "G5:+",
      reason: "rating",
      missing: ["D1.manual"],
    },
  ],
  doesNotApply: [
    { name: "no traction pack", drawing: supplies(0).build() },
    { name: "a string without any load", drawing: supplies(2, { ...BLOCK, duty: "traction" }).build() },
  ],
});
