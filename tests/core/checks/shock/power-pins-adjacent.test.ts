import { powerPinsAdjacent } from "../../../../core/checks/shock/power-pins-adjacent.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { PartOptions } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

/** A heater behind a plug: minus on pin 2, or on another. */
const plug = (blocks: number, parameters: Parameters, minus = 2, chemistry: string | null = "flooded-lead") =>
  pack(blocks, { chemistry })
    .part("X1", "connector", { positions: "3", touchSafe: "yes", finish: "booted", ...parameters })
    .part("E1", "heater", { voltage: "72 V", power: "1 kW" })
    .wires(HEAVY, `G${blocks}:+ - X1:1a`, "X1:1b - E1:+", `E1:- - X1:${minus}b`, `X1:${minus}a - G1:-`)
    .build();

/** A pack-fed controller whose logic plus is beside throttle-1 on a face of its own. */
const controller = (options: PartOptions, blocks = 8) =>
  pack(blocks)
    .part("T1", "dc-controller", { logicFeed: "pack-fed", throttleInput: "resistance-rising" }, options)
    .part("B1", "throttle-two-wire", {})
    .wires(HEAVY, `G${blocks}:+ - T1:B+`, "T1:B- - G1:-")
    .wires(SMALL, `G${blocks}:+ - T1:pack-sense`, `G${blocks}:+ - T1:logic+`, "T1:throttle-1 - B1:1")
    .wires(SMALL, "B1:2 - T1:throttle-2")
    .build();
const FACE = {
  "logic+": [10, 10],
  "pack-sense": [12.5, 10],
  "throttle-1": [15, 10],
  "throttle-2": [17.5, 10],
} as const;

checkTable(powerPinsAdjacent, {
  fails: [
    {
      name: "both poles of 72 V side by side in a plug of unstated rating",
      drawing: plug(6, {}),
      at: "X1:1a",
      message: "unrated",
      severity: "WARNING",
      value: 88.92,
      limit: 60,
    },
    {
      name: "both poles of 144 V in a plug for 125 V",
      drawing: plug(12, { pinVoltage: "125 V" }),
      at: "X1:1a",
      message: "rating",
      severity: "WARNING",
      limit: 125,
    },
    {
      name: "both poles of 48 V in a plug for 30 V",
      drawing: plug(4, { pinVoltage: "30 V" }),
      at: "X1:1a",
      message: "rating",
      severity: "WARNING",
      value: 59.28,
      limit: 30,
    },
    {
      name: "the pack's plus beside the throttle in a controller's plug",
      drawing: controller({ face: FACE }),
      at: "T1:pack-sense",
      message: "own",
      severity: "NOTICE",
      limit: 60,
    },
  ],
  passes: [
    { name: "both poles of 144 V in a plug for 250 V", drawing: plug(12, { pinVoltage: "250 V" }), at: "X1" },
    { name: "both poles of 48 V in a plug of unstated rating", drawing: plug(4, {}), at: "X1" },
    { name: "a pack-fed controller at 48 V", drawing: controller({ face: FACE }, 4), at: "T1" },
  ],
  notChecked: [
    {
      name: "48 V of unstated chemistry in a plug of unstated rating",
      drawing: plug(4, {}, 2, null),
      at: "X1",
      reason: "chemistry",
      missing: ["G1.chemistry", "G2.chemistry", "G3.chemistry", "G4.chemistry"],
    },
    {
      name: "a controller whose plug nobody described",
      drawing: controller({}),
      at: "T1",
      reason: "face",
      missing: ["T1.face"],
    },
  ],
  doesNotApply: [
    { name: "both poles of 72 V with a free pin between them", drawing: plug(6, {}, 3) },
    { name: "no plug", drawing: withTwelveVolts(pack(2)).build() },
  ],
});
