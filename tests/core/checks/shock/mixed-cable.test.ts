import { mixedCable } from "../../../../core/checks/shock/mixed-cable.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

const wire = (volts: string | undefined, together: WireOptions): WireOptions => ({
  ...SMALL,
  ...(volts === undefined ? {} : { insulation: { volts } }),
  ...together,
});

/** A heater on the pack and a lamp on 12 V whose supply wires run together. */
const together = (low: string | undefined, how: WireOptions, blocks = 6, more: Parameters = {}) =>
  withTwelveVolts(pack(blocks, more))
    .cable("C1", { sheath: true })
    .part("E1", "heater", { voltage: "72 V", power: "1 kW" })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .wire(`G${blocks}:+`, "E1:+", { ...HEAVY, insulation: { volts: "600 V" }, ...how })
    .wire("E1:-", "G1:-", { ...HEAVY, insulation: { volts: "600 V" } })
    .wire("F20:2", "P1:+", wire(low, how))
    .wire("P1:-", "X1:stud", wire("60 V", {}))
    .build();

/** The same two on one connector. */
const plug = (parameters: Parameters, blocks = 6, more: Parameters = {}) =>
  withTwelveVolts(pack(blocks, more))
    .part("E1", "heater", { voltage: "72 V", power: "1 kW" })
    .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
    .part("X2", "connector", { positions: "4", touchSafe: "yes", ...parameters })
    .wires(HEAVY, `G${blocks}:+ - X2:1a`, "X2:1b - E1:+", "E1:- - G1:-")
    .wires(SMALL, "F20:2 - X2:4a", "X2:4b - P1:+", "P1:- - X1:stud")
    .build();

const UNKNOWN = { chemistry: null };
const FOUR = ["G1.chemistry", "G2.chemistry", "G3.chemistry", "G4.chemistry"];

checkTable(mixedCable, {
  fails: [
    {
      name: "a 60 V core in the cable of a 72 V heater",
      drawing: together("60 V", { cable: "C1" }),
      at: "W10",
      message: "cable",
      severity: "WARNING",
      remedies: ["insulate-for-volts"],
      value: 88.92,
      limit: 60,
    },
    {
      name: "a 60 V wire in the conduit of a 144 V heater",
      drawing: together("60 V", { conduit: "under the sill" }, 12),
      at: "W16",
      message: "conduit",
      severity: "WARNING",
      remedies: ["insulate-for-volts"],
      value: 177.84,
      limit: 60,
    },
    {
      name: "a connector for 30 V between 12 V and 48 V",
      drawing: plug({ pinVoltage: "30 V" }, 4),
      at: "X2",
      message: "connector",
      severity: "WARNING",
      remedies: [],
      value: 59.28,
      limit: 30,
    },
    {
      name: "a phase of a motor in one cable with the wires of its sensor",
      drawing: withTwelveVolts(pack(6))
        .cable("C1", { sheath: true })
        .part("T1", "ac-controller", { logicFeed: "isolated-12v", currentContinuous: "100 A" })
        .part("M1", "motor-ac", { machine: "induction", currentContinuous: "100 A" })
        .wires(HEAVY, "G6:+ - T1:B+", "T1:B- - G1:-", "T1:V - M1:V", "T1:W - M1:W")
        .wire("T1:U", "M1:U", { ...HEAVY, insulation: { volts: "600 V" }, cable: "C1" })
        .wire("T1:encoder-ground", "M1:encoder-ground", wire("60 V", { cable: "C1" }))
        .wires(SMALL, "F20:2 - T1:logic+", "T1:logic- - X1:stud")
        .build(),
      at: "W13",
      message: "cable",
      severity: "WARNING",
      remedies: ["insulate-for-volts"],
    },
  ],
  passes: [
    { name: "a 100 V core in the cable of a 72 V heater", drawing: together("100 V", { cable: "C1" }), at: "W10" },
    {
      name: "a 60 V wire in the conduit of a 48 V heater",
      drawing: together("60 V", { conduit: "sill" }, 4),
      at: "W8",
    },
    { name: "a connector for 250 V between 12 V and 144 V", drawing: plug({ pinVoltage: "250 V" }, 12), at: "X2" },
  ],
  notChecked: [
    {
      name: "a core of unstated insulation",
      drawing: together(undefined, { cable: "C1" }),
      at: "W10",
      reason: "insulation",
      missing: ["W10.insulation.volts"],
    },
    {
      name: "a 60 V core beside 48 V of unstated chemistry",
      drawing: together("60 V", { cable: "C1" }, 4, UNKNOWN),
      at: "W8",
      reason: "chemistry",
      missing: FOUR,
    },
    {
      name: "a connector of unstated rating",
      drawing: plug({}),
      at: "X2",
      reason: "pins",
      missing: ["X2.pinVoltage"],
    },
    {
      name: "a connector for 60 V on 48 V of unstated chemistry",
      drawing: plug({ pinVoltage: "60 V" }, 4, UNKNOWN),
      at: "X2",
      reason: "pinsChemistry",
      missing: FOUR,
    },
  ],
  doesNotApply: [
    { name: "wires on their own", drawing: together("60 V", {}) },
    {
      name: "12 V alone in a cable and in a connector",
      drawing: withTwelveVolts(pack(2))
        .cable("C1")
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .part("X2", "connector", { positions: "2", pinVoltage: "30 V" })
        .wire("F20:2", "X2:1a", { ...SMALL, cable: "C1" })
        .wires(SMALL, "X2:1b - P1:+", "P1:- - X1:stud")
        .build(),
    },
  ],
});
