import { throttleMismatch } from "../../../../core/checks/controls/throttle-mismatch.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

const HEAVY = { size: "35 mm2", length: "0.5 m" };
const SMALL = { size: "1 mm2", length: "2 m" };

/** A 24 V cart whose controller has its logic on the key; throttle, its wires and more as given. */
const cart = (
  controller: Parameters,
  throttle: readonly [kind: string, parameters: Parameters],
  ...wires: readonly string[]
) =>
  drawing()
    .parts("battery-block", { chemistry: "agm-lead", capacity: "80 Ah" }, "G1", "G2")
    .part("F1", "fuse", { rating: "100 A" })
    .part("Q1", "contactor", { coilVoltage: "24 V" })
    .part("S1", "key-switch")
    .part("S3", "micro-switch", { actuator: "throttle-pedal" })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "50 A" })
    .part("B2", throttle[0], throttle[1])
    .part("R2", "resistor", { resistance: "10 kohm" })
    .part("T1", "dc-controller", { logicFeed: "pack-fed", nominalMin: "24 V", ...controller })
    .wires(HEAVY, "G1:+ - G2:-", "G2:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(HEAVY, "T1:B+ - M1:+", "M1:- - T1:M-")
    .wires(SMALL, "F1:2 - S1:battery", "S1:ignition - T1:logic+", "S1:ignition - Q1:coil+", "Q1:coil- - G1:-")
    .wires(SMALL, "S1:ignition - S3:common", "S3:no - T1:interlock")
    .wires(SMALL, ...wires)
    .build();

const RISING = { throttleInput: "resistance-rising", throttleIdle: "0 ohm", throttleFull: "5 kohm" };
const FALLING = { throttleInput: "resistance-falling", throttleIdle: "5 kohm", throttleFull: "0 ohm" };
const DIVIDER = { throttleInput: "divider", throttleIdle: "0 V", throttleFull: "5 V" };
const HALL = { throttleInput: "hall", throttleIdle: "0.9 V", throttleFull: "3.6 V" };
const TWO = ["B2:1 - T1:throttle-1", "B2:2 - T1:throttle-2"];
const THREE = ["B2:high - T1:throttle-1", "B2:wiper - T1:throttle-2", "B2:low - T1:throttle-3"];
const SENSOR = ["B2:supply - T1:throttle-1", "B2:signal - T1:throttle-2", "B2:ground - T1:throttle-3"];
const POT = (ohms: string): readonly [string, Parameters] => ["throttle-two-wire", { resistanceFull: ohms }];

checkTable(throttleMismatch, {
  fails: [
    {
      // 20 kohm and 10 kohm in parallel: 20 x 10 / 30 = 6.667 kohm.
      name: "20 kohm with 10 kohm across it, where 5 kohm is full",
      drawing: cart(
        { throttleInput: "resistance-rising", throttleFull: "5 kohm" },
        POT("20 kohm"),
        ...TWO,
        "R2:1 - B2:1",
        "R2:2 - B2:2",
      ),
      at: "T1:throttle-2",
      message: "full",
      severity: "WARNING",
      value: 6666.7,
      limit: 5000,
    },
    {
      name: "a 2 kohm throttle never reaches full",
      drawing: cart(RISING, POT("2 kohm"), ...TWO),
      at: "T1:throttle-2",
      message: "full",
      severity: "WARNING",
      value: 2000,
      limit: 5000,
    },
    {
      name: "a falling throttle of 4 kohm where 5 kohm is idle",
      drawing: cart(
        FALLING,
        ["throttle-two-wire", { resistanceIdle: "4 kohm", resistanceFull: "0 ohm" }],
        "B2:1 - T1:throttle-1",
        "B2:2 - T1:throttle-2",
      ),
      at: "T1:throttle-2",
      message: "idle",
      severity: "WARNING",
      value: 4000,
      limit: 5000,
    },
    {
      name: "a potentiometer wired the wrong way round",
      drawing: cart(
        DIVIDER,
        ["throttle-three-wire", {}],
        "B2:low - T1:throttle-1",
        "B2:wiper - T1:throttle-2",
        "B2:high - T1:throttle-3",
      ),
      at: "T1:throttle-2",
      message: "reversed",
      severity: "WARNING",
      value: 5,
      limit: 0,
    },
    {
      name: "a two-wire throttle on a three-wire input",
      drawing: cart(DIVIDER, POT("5 kohm"), ...TWO),
      at: "T1:throttle-2",
      message: "kind",
      severity: "WARNING",
    },
    {
      name: "a Hall throttle on a resistance input",
      drawing: cart(RISING, ["throttle-hall", {}], ...SENSOR),
      at: "T1:throttle-2",
      message: "kind",
      severity: "WARNING",
    },
    {
      name: "a potentiometer on a Hall input",
      drawing: cart(HALL, ["throttle-three-wire", {}], ...THREE),
      at: "T1:throttle-2",
      message: "kind",
      severity: "WARNING",
    },
    {
      name: "all three wires of a potentiometer on a resistance input",
      drawing: cart(RISING, ["throttle-three-wire", {}], ...THREE),
      at: "T1:throttle-2",
      message: "wires",
      severity: "WARNING",
    },
    {
      name: "a Hall throttle that gives 4.3 V at full is beyond the fault limit of 4.0 V",
      drawing: cart(
        { ...HALL, throttleFaultBand: "yes" },
        ["throttle-hall", { voltageIdle: "0.9 V", voltageFull: "4.3 V" }],
        ...SENSOR,
      ),
      at: "T1:throttle-2",
      message: "band",
      severity: "WARNING",
      limit: 4,
    },
  ],
  passes: [
    { name: "5 kohm on 5 kohm", drawing: cart(RISING, POT("5 kohm"), ...TWO), at: "T1:throttle-2" },
    { name: "a pedal that reaches 4.5 kohm", drawing: cart(RISING, POT("4.5 kohm"), ...TWO), at: "T1:throttle-2" },
    {
      name: "10 kohm brought down to 5 kohm by 10 kohm across it",
      drawing: cart(RISING, POT("10 kohm"), ...TWO, "R2:1 - B2:1", "R2:2 - B2:2"),
      at: "T1:throttle-2",
    },
    {
      name: "a falling throttle",
      drawing: cart(FALLING, ["throttle-two-wire", { resistanceIdle: "5 kohm", resistanceFull: "0 ohm" }], ...TWO),
      at: "T1:throttle-2",
    },
    {
      name: "a potentiometer on a three-wire input",
      drawing: cart(DIVIDER, ["throttle-three-wire", {}], ...THREE),
      at: "T1:throttle-2",
    },
    {
      name: "its return on the pack's minus, to which the input refers",
      drawing: cart(DIVIDER, ["throttle-three-wire", {}], ...THREE.slice(0, 2), "B2:low - G1:-"),
      at: "T1:throttle-2",
    },
    {
      name: "a Hall throttle of the published range",
      drawing: cart(HALL, ["throttle-hall", { voltageIdle: "0.9 V", voltageFull: "3.6 V" }], ...SENSOR),
      at: "T1:throttle-2",
    },
    {
      name: "a potentiometer that moves about a centre of its own",
      drawing: cart({ ...DIVIDER, throttleMode: "centre-zero" }, ["throttle-three-wire", {}], ...THREE),
      at: "T1:throttle-2",
    },
  ],
  notChecked: [
    {
      name: "the input's kind is not stated",
      drawing: cart({}, POT("20 kohm"), ...TWO),
      at: "T1:throttle-2",
      reason: "unstated",
      missing: ["T1.throttleInput"],
    },
    {
      name: "what a Hall throttle gives is not stated",
      drawing: cart(HALL, ["throttle-hall", {}], ...SENSOR),
      at: "T1:throttle-2",
      reason: "unstated",
      missing: ["B2.voltageFull", "B2.voltageIdle"],
    },
    {
      name: "the controller is never alive",
      drawing: cart(
        { ...HALL, logicMin: "30 V" },
        ["throttle-hall", { voltageIdle: "0.9 V", voltageFull: "3.6 V" }],
        ...SENSOR,
      ),
      at: "T1:throttle-2",
      reason: "dead",
      missing: [],
    },
  ],
  doesNotApply: [
    { name: "no throttle drawn", drawing: cart(RISING, POT("5 kohm")) },
    { name: "no controller", drawing: drawing().part("B2", "throttle-hall").build() },
  ],
});
