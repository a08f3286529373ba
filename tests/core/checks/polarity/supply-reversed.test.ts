import { supplyReversed } from "../../../../core/checks/polarity/supply-reversed.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import {
  AUXILIARY,
  earthedWhileCharging,
  HEAVY,
  inverter320,
  resistorAcrossSolenoid,
  SMALL,
  string,
} from "../known-good.ts";
import { swapped } from "../mistakes.ts";

const seriesDrive = () =>
  string(drawing(), 12)
    .part("F1", "fuse", { rating: "400 A" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
    .part("G20", "battery-block", AUXILIARY)
    .part("S1", "key-switch")
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", nominalMin: "144 V", currentContinuous: "200 A" })
    .part("M1", "motor-series", { currentContinuous: "150 A" })
    .wires(HEAVY, "G12:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:M+ - M1:A1", "M1:A2 - M1:S2", "M1:S1 - T1:M-")
    .wires(SMALL, "G20:+ - S1:battery", "S1:ignition - Q1:coil+", "Q1:coil- - G20:-")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - G20:-")
    .build();

/** Three groups of four cells, each with a monitor of its own; the middle harness may be mirrored. */
const tapped = (mirrored: boolean) => {
  const sketch = drawing();
  for (let cell = 1; cell <= 12; cell += 1) {
    sketch.part(`G${cell}`, "battery-block", { chemistry: "nmc", cells: "1", capacity: "100 Ah" });
    if (cell > 1) sketch.wire(`G${cell - 1}:+`, `G${cell}:-`, HEAVY);
  }
  for (let group = 0; group < 3; group += 1) {
    const monitor = `B${group + 1}`;
    sketch.part(monitor, "battery-monitor", { taps: "4", isolated: "yes" });
    for (let tap = 0; tap <= 4; tap += 1) {
      const at = tap === 0 ? `G${4 * group + 1}:-` : `G${4 * group + tap}:+`;
      sketch.wire(`${monitor}:tap-${mirrored && group === 1 ? 4 - tap : tap}`, at, SMALL);
    }
  }
  return sketch.build();
};

checkTable(supplyReversed, {
  fails: [
    {
      name: "pack leads swapped at the controller to make the motor turn the other way",
      drawing: swapped(seriesDrive(), "T1:B+", "T1:B-"),
      at: "T1:B+",
      message: "throughDiode",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "pack leads swapped behind a contactor that the controller itself drives",
      drawing: swapped(inverter320().build(), "T1:B+", "T1:B-"),
      at: "T1:B+",
      message: "throughDiode",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "converter's input swapped",
      drawing: swapped(earthedWhileCharging().build(), "T2:in+", "T2:in-"),
      at: "T2:in+",
      message: "reversed",
      severity: "DANGER",
      remedies: ["swap-wires"],
      value: -59.2,
      limit: -0.3,
    },
    {
      name: "charger's output swapped",
      drawing: swapped(earthedWhileCharging().build(), "T3:out+", "T3:out-"),
      at: "T3:out+",
      message: "reversed",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "pack turned round under controller, converter and charger",
      drawing: swapped(earthedWhileCharging().build(), "G4:+", "G1:-"),
      at: "T1:B+",
      message: "source",
      severity: "DANGER",
      remedies: ["swap-wires"],
    },
    {
      name: "gauge of the 12 V side",
      drawing: earthedWhileCharging()
        .part("P1", "gauge", { isolated: "yes" })
        .wires(SMALL, "P1:supply+ - X1:stud", "P1:supply- - S1:ignition")
        .build(),
      at: "P1:supply+",
      message: "reversed",
      severity: "WARNING",
      remedies: ["swap-wires"],
      value: -13.24,
    },
    {
      name: "contactor with a diode inside on a swapped coil",
      drawing: swapped(inverter320().build(), "Q1:coil+", "Q1:coil-"),
      at: "Q1:coil+",
      message: "throughDiode",
      severity: "WARNING",
      remedies: ["swap-wires"],
    },
    {
      name: "middle group's tap harness mirrored",
      drawing: tapped(true),
      at: "B2:tap-1",
      message: "taps",
      severity: "WARNING",
      remedies: ["sort-taps"],
    },
  ],
  passes: [
    { name: "48 V cart, supply from the pack", drawing: resistorAcrossSolenoid().build(), at: ["T1:B+", "T1:logic+"] },
    { name: "floating pack, charging", drawing: earthedWhileCharging().build(), at: ["T2:in+", "T3:out+"] },
    { name: "series motor, pack the right way round", drawing: seriesDrive(), at: "T1:B+" },
    { name: "tap harnesses in order", drawing: tapped(false), at: ["B2:tap-1", "B2:tap-4"] },
  ],
  notChecked: [
    {
      name: "a lamp the wrong way round that may be one with diodes",
      drawing: string(drawing(), 1)
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "P1:+ - G1:-", "P1:- - G1:+")
        .build(),
      at: "P1:+",
      reason: "polarityUnknown",
      missing: ["P1.needsPolarity"],
    },
  ],
  doesNotApply: [
    {
      name: "a plain coil and a lamp may lie either way",
      drawing: string(drawing(), 1)
        .part("K1", "relay", { coilVoltage: "12 V" })
        .part("P1", "lamp", { voltage: "12 V", power: "5 W", needsPolarity: "no" })
        .wires(SMALL, "K1:coil+ - G1:-", "K1:coil- - G1:+", "P1:+ - G1:-", "P1:- - G1:+")
        .build(),
    },
    { name: "a controller that is not wired yet", drawing: string(drawing().part("T1", "dc-controller"), 2).build() },
  ],
});
