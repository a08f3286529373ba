import { interlockOpen } from "../../../../core/checks/shock/interlock-open.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { PartOptions } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

const PLUG = { positions: "4", pinVoltage: "600 V", touchSafe: "yes" };
const COIL = { coilVoltage: "12 V", coilPower: "12 W" };

/** A heater behind a contactor and a plug; the coil's feed runs through the plug's pins 3 and 4, or past them. */
const plug = (
  loop: boolean,
  options: PartOptions = {},
  blocks = 8,
  more: Parameters = {},
  box: { readonly toolClosed?: boolean } = {},
) => {
  const sketch = withTwelveVolts(pack(blocks, more))
    .enclosure("box", box)
    .part("S1", "key-switch", {})
    .part("Q1", "contactor", COIL)
    .part("X2", "connector", PLUG, options)
    .part("E1", "heater", { voltage: "96 V", power: "1 kW" })
    .wires(HEAVY, `G${blocks}:+ - Q1:line`, "Q1:load - X2:1a", "X2:1b - E1:+", "E1:- - X2:2b", "X2:2a - G1:-")
    .wires(SMALL, "F20:2 - S1:battery", "Q1:coil- - X1:stud");
  return loop
    ? sketch.wires(SMALL, "S1:ignition - X2:3a", "X2:3b - X2:4b", "X2:4a - Q1:coil+").build()
    : sketch.wires(SMALL, "S1:ignition - Q1:coil+").build();
};

/** A fuse in a box that opens by hand or not, with a switch on its cover in the coil's feed or without. */
const cover = (toolClosed: boolean | undefined, loop: boolean, blocks = 8, more: Parameters = {}) => {
  const sketch = withTwelveVolts(pack(blocks, more))
    .enclosure("fuse box", toolClosed === undefined ? {} : { toolClosed })
    .part("S1", "key-switch", {})
    .part("S2", "micro-switch", { actuator: "cover" }, { enclosure: "fuse box" })
    .part("F1", "fuse", { rating: "30 A" }, { enclosure: "fuse box" })
    .part("Q1", "contactor", COIL)
    .part("E1", "heater", { voltage: "96 V", power: "1 kW" })
    .wires(HEAVY, `G${blocks}:+ - F1:1`, "F1:2 - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
    .wires(SMALL, "F20:2 - S1:battery", "Q1:coil- - X1:stud");
  return loop
    ? sketch.wires(SMALL, "S1:ignition - S2:common", "S2:no - Q1:coil+").build()
    : sketch.wires(SMALL, "S1:ignition - Q1:coil+", "S2:common - F20:2").build();
};

const FOUR = ["G1.chemistry", "G2.chemistry", "G3.chemistry", "G4.chemistry"];

checkTable(interlockOpen, {
  fails: [
    {
      name: "a plug at 96 V with the coil fed past it",
      drawing: plug(false),
      at: "X2",
      message: "connector",
      severity: "NOTICE",
      value: 118.56,
    },
    {
      name: "a plug in a box that opens by hand",
      drawing: plug(false, { enclosure: "box" }, 12, {}, { toolClosed: false }),
      at: "X2",
      message: "connector",
      severity: "NOTICE",
    },
    {
      name: "a box that opens by hand, its cover switch not in the coil's feed",
      drawing: cover(false, false),
      at: "F1",
      message: "cover",
      severity: "NOTICE",
    },
  ].map((c) => ({ ...c, severity: "NOTICE" as const })),
  passes: [
    { name: "a plug that takes the coil's feed with it", drawing: plug(true), at: "X2" },
    {
      name: "a plug in a screwed box",
      drawing: plug(false, { enclosure: "box" }, 8, {}, { toolClosed: true }),
      at: "X2",
    },
    { name: "a cover switch in the coil's feed", drawing: cover(false, true), at: "F1" },
    { name: "a screwed box", drawing: cover(true, false), at: "F1" },
  ],
  notChecked: [
    {
      name: "a box of which nobody said how it opens",
      drawing: cover(undefined, false),
      at: "F1",
      reason: "tool",
      missing: ["fuse box.toolClosed"],
    },
    {
      name: "a plug on 48 V of unstated chemistry",
      drawing: plug(false, {}, 4, { chemistry: null }),
      at: "X2",
      reason: "voltage",
      missing: FOUR,
    },
  ],
  doesNotApply: [
    { name: "a plug at 48 V", drawing: plug(false, {}, 4) },
    { name: "no traction circuit", drawing: withTwelveVolts(pack(0)).part("X2", "connector", PLUG).build() },
  ],
});
