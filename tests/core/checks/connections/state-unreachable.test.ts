import { stateUnreachable } from "../../../../core/checks/connections/state-unreachable.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

const HEAVY = { size: "50 mm2", length: "0.4 m" };
const SMALL = { size: "2.5 mm2", length: "1 m" };

interface Given {
  readonly controller?: Parameters;
  readonly throttle?: readonly [kind: string, parameters: Parameters, ...wires: readonly string[]];
  /** Wires of the coil and of the controller's logic, and whatever else. */
  readonly control: readonly string[];
  readonly main?: readonly string[];
  readonly parts?: readonly (readonly [designation: string, kind: string, parameters: Parameters])[];
}

const TWO_WIRE: Given["throttle"] = ["throttle-two-wire", {}, "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2"];
const MAIN = ["G2:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-"];
const KEYED = ["S1:ignition - Q1:coil+", "Q1:coil- - X1:stud", "S1:ignition - T1:logic+"];

/** A 24 V cart with a key, one main contactor and a permanent-magnet motor; 12 V on the body. */
const cart = (given: Given) => {
  const [kind, parameters, ...wires] = given.throttle ?? TWO_WIRE ?? ["", {}];
  const sketch = drawing()
    .parts("battery-block", { chemistry: "flooded-lead", capacity: "100 Ah" }, "G1", "G2", "G20")
    .part("X1", "chassis-point", { structure: "body" })
    .part("F1", "fuse", { rating: "150 A" })
    .part("F2", "fuse", { rating: "10 A" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilResistance: "12 ohm" })
    .part("S1", "key-switch")
    .part("M1", "motor-permanent-magnet", { currentContinuous: "60 A" })
    .part("B1", kind, parameters)
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      nominalMin: "24 V",
      currentContinuous: "80 A",
      throttleInput: "resistance-rising",
      throttleFull: "5 kohm",
      contactorDriver: "low-side",
      ...given.controller,
    });
  for (const [designation, partKind, own] of given.parts ?? []) sketch.part(designation, partKind, own);
  return sketch
    .wires(HEAVY, "G1:+ - G2:-", "T1:B+ - M1:+", "M1:- - T1:M-", ...(given.main ?? MAIN))
    .wires(SMALL, "G20:- - X1:stud", "G20:+ - F2:1", "F2:2 - S1:battery", "T1:logic- - X1:stud", ...wires)
    .wires(SMALL, ...given.control);
};

/** Two 6 V halves on a contactor, no electronics. */
const contactorCart = (...coil: readonly string[]) =>
  drawing()
    .parts("battery-block", { chemistry: "flooded-lead", capacity: "200 Ah" }, "G1", "G2")
    .part("Q1", "contactor", { coilVoltage: "24 V", coilPower: "20 W" })
    .part("S1", "key-switch")
    .part("S3", "micro-switch", { actuator: "throttle-pedal" })
    .part("M1", "motor-series", { currentContinuous: "80 A" })
    .wires(HEAVY, "G1:+ - G2:-", "G2:+ - Q1:line", "Q1:load - M1:A1", "M1:A2 - M1:S1", "M1:S2 - G1:-")
    .wires(SMALL, "G2:+ - S1:battery", "S1:ignition - S3:common", ...coil)
    .build();

const charging = (charger: Parameters, ...wires: readonly string[]) =>
  cart({
    control: [...KEYED, ...wires],
    parts: [
      ["T3", "charger", { outputVoltageMax: "28.8 V", outputCurrentMax: "20 A", mainsPlug: "yes", ...charger }],
      ["X4", "inlet", {}],
      ["S9", "switch", {}],
    ],
  });

/** G3-like: behind the pedal, pedal contact opens with the pedal. */
const REGENERATES = { regeneration: "yes", regenerationCutVoltage: "32 V" };

/** A control unit with the contactor's coil on its first output. */
const sequenced = (program: Parameters) =>
  cart({
    control: [
      "S1:ignition - K5:supply+",
      "K5:supply- - X1:stud",
      "S1:ignition - K5:in-1",
      "S1:ignition - Q1:coil+",
      "Q1:coil- - K5:out-1",
      "S1:ignition - T1:logic+",
    ],
    parts: [["K5", "control-unit", { inputs: "1", outputs: "1", outputType: "low-side", ...program }]],
  }).build();

/** The key's feed is missing; nobody said which way the controller's unused output drives. */
const keyUnfed = () => {
  const whole = cart({ controller: { contactorDriver: null }, control: KEYED }).build();
  const key = whole.parts.find(({ designation }) => designation === "S1")?.id;
  return {
    ...whole,
    wires: whole.wires.filter(({ ends }) => !ends.some((end) => end?.[0] === key && end?.[1] === "battery")),
  };
};

checkTable(stateUnreachable, {
  fails: [
    {
      name: "a seat switch wired to its resting contact",
      drawing: cart({
        control: ["S1:ignition - S4:common", "S4:nc - Q1:coil+", "Q1:coil- - X1:stud", "S1:ignition - T1:logic+"],
        parts: [["S4", "micro-switch", { actuator: "seat" }]],
      }).build(),
      at: "S4",
      message: "open",
      severity: "WARNING",
    },
    {
      name: "contactor behind a relay whose coil is fed from the start position alone",
      drawing: cart({
        control: [
          "F2:2 - K1:common",
          "K1:no - Q1:coil+",
          "Q1:coil- - X1:stud",
          "S1:start - K1:coil+",
          "K1:coil- - X1:stud",
          "S1:ignition - T1:logic+",
        ],
        parts: [["K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" }]],
      }).build(),
      at: "S1",
      message: "open",
      severity: "WARNING",
    },
    {
      name: "wet joint: both contactors sag with a lamp on the same lead",
      drawing: cart({
        control: [
          "S1:ignition - R9:1",
          "R9:2 - S5:common",
          "S5:nc - Q1:coil+",
          "S5:nc - Q2:coil+",
          "Q1:coil- - X1:stud",
          "Q2:coil- - X1:stud",
          "S5:common - P1:+",
          "P1:- - X1:stud",
          "S1:ignition - T1:logic+",
        ],
        main: ["G2:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - Q2:load", "Q2:line - G1:-"],
        parts: [
          ["R9", "resistor", { resistance: "1.5 ohm" }],
          ["S5", "inertia-switch", {}],
          ["Q2", "contactor", { coilVoltage: "12 V", coilResistance: "12 ohm" }],
          ["P1", "lamp", { voltage: "12 V", power: "100 W" }],
        ],
      }).build(),
      at: ["Q1:coil+"],
      message: "weak",
      severity: "WARNING",
    },
    {
      name: "the contactor's coil has no feed at all",
      drawing: cart({ control: ["Q1:coil- - X1:stud", "S1:ignition - T1:logic+"] }).build(),
      at: "Q1:coil+",
      message: "unfed",
      severity: "WARNING",
    },
    {
      name: "the control unit lets the contactor in only while charging",
      drawing: sequenced({ "out-1-follows": "charging" }),
      at: ["K5"],
      message: "open",
      severity: "WARNING",
    },
    {
      name: "the key has no feed: neither coil nor logic, whatever the controller's unused output does",
      drawing: keyUnfed(),
      at: ["Q1:coil+"],
      message: "unfed",
      severity: "WARNING",
    },
    {
      name: "the controller closes its contactor, and nothing charges the bus",
      drawing: cart({
        control: ["S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out", "S1:ignition - T1:logic+"],
      }).build(),
      at: "T1:B+",
      message: "uncharged",
      severity: "WARNING",
    },
    {
      name: "throttle of 20 kohm on an input for 5 kohm",
      drawing: cart({
        control: KEYED,
        throttle: ["throttle-two-wire", { resistanceFull: "20 kohm" }, "B1:1 - T1:throttle-1", "B1:2 - T1:throttle-2"],
      }).build(),
      at: "T1:throttle-2",
      message: "throttle-fault",
      severity: "WARNING",
    },
    {
      name: "throttle short-circuited by a slipped strand",
      drawing: cart({ control: [...KEYED, "B1:1 - B1:2"] }).build(),
      at: "T1:throttle-2",
      message: "throttle-idle",
      severity: "WARNING",
    },
    {
      name: "forward and reverse on one feed",
      drawing: cart({ control: [...KEYED, "S1:ignition - T1:forward", "S1:ignition - T1:reverse"] }).build(),
      at: "T1:forward",
      message: "direction",
      severity: "WARNING",
    },
    {
      name: "brake switch on its resting contact",
      drawing: cart({
        control: [...KEYED, "S1:ignition - S4:common", "S4:nc - T1:brake"],
        parts: [["S4", "micro-switch", { actuator: "brake-pedal" }]],
      }).build(),
      at: "T1:brake",
      message: "brake",
      severity: "WARNING",
    },
    {
      name: "charge inhibit on a charger contact whose other end is forgotten",
      drawing: cart({
        control: [...KEYED, "T1:charge-inhibit - T3:inhibit-1", "T3:out+ - F1:1", "T3:out- - G1:-"],
        parts: [["T3", "charger", { outputVoltageMax: "28.8 V", outputCurrentMax: "20 A", mainsPlug: "yes" }]],
      }).build(),
      at: "T1:charge-inhibit",
      message: "inhibited",
      severity: "WARNING",
    },
    {
      name: "charger behind the main contactor, which is out while charging",
      drawing: charging({}, "T3:out+ - T1:B+", "T3:out- - G1:-").build(),
      at: "S1",
      message: "open",
      severity: "WARNING",
    },
    {
      name: "charger that looks for a battery behind a diode",
      drawing: cart({
        control: [...KEYED, "T3:out+ - R7:anode", "R7:cathode - F1:1", "T3:out- - G1:-"],
        parts: [
          ["T3", "charger", { outputVoltageMax: "28.8 V", mainsPlug: "yes", batteryDetect: "yes" }],
          ["R7", "diode", {}],
        ],
      }).build(),
      at: "T3:out+",
      message: "detection",
      severity: "WARNING",
    },
    {
      name: "charger wired for an inlet that is not there",
      drawing: charging({ mainsPlug: "no" }, "T3:out+ - F1:1", "T3:out- - G1:-").build(),
      at: "T3:L",
      message: "mains",
      severity: "WARNING",
    },
    {
      name: "a contactor cart whose pedal contact is on its resting side",
      drawing: contactorCart("S3:nc - Q1:coil+", "Q1:coil- - G1:-"),
      at: "S3",
      message: "open",
      severity: "WARNING",
    },
    {
      name: "regeneration with a pedal contact in the contactor's feed",
      drawing: cart({
        controller: REGENERATES,
        control: ["S1:ignition - S3:common", "S3:no - Q1:coil+", "Q1:coil- - X1:stud", "S1:ignition - T1:logic+"],
        parts: [["S3", "micro-switch", { actuator: "throttle-pedal" }]],
      }).build(),
      at: "S3",
      message: "open",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "a whole tug", drawing: tug(), at: ["T1"] },
    { name: "a keyed cart", drawing: cart({ control: KEYED }).build(), at: ["T1"] },
    {
      name: "the controller closes its contactor over a pre-charge resistor",
      drawing: cart({
        control: [
          "S1:ignition - Q1:coil+",
          "Q1:coil- - T1:contactor-out",
          "S1:ignition - T1:logic+",
          "Q1:line - R1:1",
          "R1:2 - Q1:load",
        ],
        parts: [["R1", "resistor", { resistance: "220 ohm" }]],
      }).build(),
      at: ["T1"],
    },
    {
      name: "high-pedal lockout waits for the pedal",
      drawing: cart({
        controller: { highPedalLockout: "yes" },
        control: ["S1:ignition - Q1:coil+", "Q1:coil- - X1:stud", "S1:ignition - S3:common", "S3:no - T1:logic+"],
        parts: [["S3", "micro-switch", { actuator: "throttle-pedal" }]],
      }).build(),
      at: ["T1"],
    },
    {
      name: "a brake cut in the enable chain: regeneration comes with the lifted pedal",
      drawing: cart({
        controller: REGENERATES,
        control: [...KEYED, "S1:ignition - S4:common", "S4:nc - T1:interlock"],
        parts: [["S4", "micro-switch", { actuator: "brake-pedal" }]],
      }).build(),
      at: ["T1"],
    },
    {
      name: "forward input without reverse, on a selector",
      drawing: cart({
        control: [...KEYED, "S1:ignition - S6:common", "S6:a - T1:forward"],
        parts: [["S6", "selector-switch", {}]],
      }).build(),
      at: ["T1"],
    },
    { name: "a contactor cart", drawing: contactorCart("S3:no - Q1:coil+", "Q1:coil- - G1:-"), at: ["M1"] },
    { name: "a control unit closes the contactor", drawing: sequenced({ "out-1-follows": "in-1" }), at: ["T1"] },
    {
      name: "a full pack on its charger takes nothing",
      drawing: charging({ chemistry: "flooded-lead" }, "T3:out+ - F1:1", "T3:out- - G1:-").build(),
      at: ["T1", "T3"],
    },
    {
      name: "a charger on an inlet",
      drawing: charging(
        { mainsPlug: "no" },
        "T3:out+ - F1:1",
        "T3:out- - G1:-",
        "X4:L - T3:L",
        "X4:N - T3:N",
        "X4:PE - T3:PE",
      ).build(),
      at: ["T1", "T3"],
    },
  ],
  notChecked: [
    {
      name: "nobody said what pushes the micro-switch",
      drawing: cart({
        control: ["S1:ignition - S4:common", "S4:no - Q1:coil+", "Q1:coil- - X1:stud", "S1:ignition - T1:logic+"],
        parts: [["S4", "micro-switch", {}]],
      }).build(),
      at: "S4",
      reason: "undecided",
      missing: ["S4.actuator"],
    },
    {
      name: "nobody said what the control unit's output follows",
      drawing: sequenced({}),
      at: "K5",
      reason: "undecided",
      missing: ["K5.out-1-follows"],
    },
    {
      name: "nobody said which way the controller's output drives",
      drawing: cart({
        controller: { contactorDriver: null },
        control: ["S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out", "S1:ignition - T1:logic+"],
      }).build(),
      at: "Q1:coil+",
      reason: "undecided",
      missing: ["T1.contactorDriver"],
    },
    {
      name: "a charger without an output voltage",
      drawing: charging({ outputVoltageMax: null }, "T3:out+ - F1:1", "T3:out- - G1:-").build(),
      at: "T3:out+",
      reason: "undecided",
      missing: ["T3.outputVoltageMax"],
    },
  ],
  doesNotApply: [
    { name: "a lamp on a battery", drawing: drawing().part("G20", "battery-block").part("P1", "lamp").build() },
    { name: "an empty sheet", drawing: drawing().build() },
  ],
});
