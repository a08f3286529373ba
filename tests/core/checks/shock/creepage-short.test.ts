import { creepageShort } from "../../../../core/checks/shock/creepage-short.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { PartOptions } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

/** A pre-charge relay across the pack of which the open contact's tabs stand this far apart (mm). */
const relay = (blocks: number, apart: number | undefined, parameters: Parameters = {}) => {
  const face: PartOptions =
    apart === undefined
      ? {}
      : { face: { "coil+": [0, 0], "coil-": [12, 0], common: [0, 30], no: [apart, 30], nc: [0, 60] } };
  return withTwelveVolts(pack(blocks, parameters))
    .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" }, face)
    .part("E1", "heater", { voltage: "72 V", power: "1 kW" })
    .wires(HEAVY, `G${blocks}:+ - K1:common`, "K1:no - E1:+", "E1:- - G1:-")
    .part("S1", "key-switch", {})
    .wires(SMALL, "F20:2 - S1:battery", "S1:ignition - K1:coil+", "K1:coil- - X1:stud")
    .build();
};

/** Studs of a pack in one box. */
const posts = (blocks: string, apart: number) =>
  withTwelveVolts(pack(0))
    .part(
      "G1",
      "battery-pack",
      { duty: "traction", chemistry: "lifepo4", cells: "4", blocks, resistance: "40 mohm" },
      { face: { "+": [10, 10], "-": [10, 10 + apart] } },
    )
    .part(
      "E1",
      "heater",
      { voltage: "350 V", power: "1 kW" },
      { face: { "+": [10, 10], "-": [90, 10], case: [50, 60] } },
    )
    .wires(HEAVY, "G1:+ - E1:+", "E1:- - G1:-")
    .build();

// Limits: IEC 60664-1 table F.4, pollution degree 3, material group III, the row at or above the voltage.
checkTable(creepageShort, {
  fails: [
    {
      name: "posts 4 mm apart at 365 V (400 V row: 6.3 mm)",
      drawing: posts("25", 4),
      at: "G1:+",
      message: "short",
      severity: "WARNING",
      value: 0.004,
      limit: 0.0063,
    },
    {
      name: "posts 2 mm apart at 88 V (100 V row: 2.2 mm)",
      drawing: posts("6", 2),
      at: "G1:+",
      message: "short",
      severity: "WARNING",
      limit: 0.0022,
    },
    {
      name: "posts 3 mm apart at 190 V (200 V row: 3.2 mm)",
      drawing: posts("13", 3),
      at: "G1:+",
      message: "short",
      severity: "WARNING",
      limit: 0.0032,
    },
  ],
  passes: [
    { name: "posts 6.4 mm apart at 365 V", drawing: posts("25", 6.4), at: ["G1", "E1"] },
    { name: "posts 2.3 mm apart at 88 V", drawing: posts("6", 2.3), at: "G1" },
    { name: "a relay's tabs 8 mm apart at 178 V", drawing: relay(12, 8), at: "K1" },
  ],
  notChecked: [
    {
      name: "parts whose faces nobody stated",
      drawing: relay(12, undefined),
      at: ["E1", "K1"],
      reason: "face",
      missing: ["E1.face", "K1.face"],
    },
    {
      name: "posts 1.9 mm apart on a pack of unstated chemistry",
      drawing: withTwelveVolts(pack(0))
        .part(
          "G1",
          "battery-pack",
          { duty: "traction", cells: "4", blocks: "8", resistance: "40 mohm" },
          { face: { "+": [10, 10], "-": [10, 11.9] } },
        )
        .part(
          "E1",
          "heater",
          { voltage: "72 V", power: "1 kW" },
          { face: { "+": [0, 0], "-": [90, 0], case: [0, 90] } },
        )
        .wires(HEAVY, "G1:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: "G1:+",
      reason: "voltage",
      missing: ["G1.chemistry"],
    },
  ],
  doesNotApply: [
    { name: "posts 1 mm apart at 48 V", drawing: posts("3", 1) },
    { name: "no traction circuit", drawing: withTwelveVolts(pack(0)).build() },
  ],
});
