import { exposedOppositePoles } from "../../../../core/checks/shock/exposed-opposite-poles.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { HEAVY, SMALL, withTwelveVolts } from "../pack.ts";

const BLOCK = { duty: "traction", chemistry: "flooded-lead", capacity: "100 Ah", resistance: "5 mohm" };

/**
 * Two rows of eight 12 V blocks back to back, posts (40, 25) and (290, 25) on each face. The lower row stands with its
 * posts 100 mm from those of the upper: G1:- is 100 mm from G16:+.
 */
function rows(finish: "bare" | "booted" | undefined) {
  const sketch = drawing();
  for (let n = 1; n <= 16; n += 1) {
    const upper = n <= 8;
    const column = upper ? n - 1 : 16 - n;
    // The face is not turned: a lower block has its posts the other way round, so that + comes under the upper's -.
    const options = {
      panel: [column * 400, upper ? 0 : 100] as const,
      face: (upper ? { "+": [290, 25], "-": [40, 25] } : { "+": [40, 25], "-": [290, 25] }) as Readonly<
        Record<string, readonly [number, number]>
      >,
    };
    sketch.part(`G${n}`, "battery-block", BLOCK, finish === undefined ? options : { ...options, finish });
    if (n > 1) sketch.wire(`G${n - 1}:+`, `G${n}:-`, HEAVY);
  }
  return sketch.build();
}

/** A pack and a contactor that opens it: its studs are 30 mm apart, and at rest the whole pack stands between them. */
function contactor(parameters: Parameters, blocks: "12" | "2" = "12") {
  return drawing()
    .part("G1", "battery-pack", { ...BLOCK, blocks, finish: "booted" })
    .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W", ...parameters })
    .part("E1", "heater", { voltage: "144 V", power: "2 kW", finish: "booted" })
    .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-");
}

const COVERED_LOAD = { finish: "bare", "finish-load": "booted" };

checkTable(exposedOppositePoles, {
  fails: [
    {
      name: "two rows of blocks back to back, the ends of the string 100 mm apart",
      drawing: rows("bare"),
      at: "G1:-",
      message: "several",
      severity: "WARNING",
      remedies: ["fit-boots"],
      // 2.47 V x 6 x 16 on charge.
      value: 237.12,
      limit: 30,
    },
    {
      name: "an open contactor with bare studs",
      drawing: contactor({ finish: "bare" }).build(),
      at: "Q1:line",
      message: "bare",
      severity: "WARNING",
      remedies: ["fit-boots"],
      value: 177.84,
    },
    {
      name: "a controller whose studs all come out on one narrow face",
      drawing: drawing()
        .part("G1", "battery-pack", { ...BLOCK, blocks: "6", finish: "booted" })
        .part(
          "T1",
          "dc-controller",
          { logicFeed: "pack-fed", finish: "bare" },
          { face: { "B+": [20, 20], "B-": [60, 20], "M-": [400, 20] } },
        )
        .wires(HEAVY, "G1:+ - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "G1:+ - T1:logic+")
        .build(),
      at: "T1:B+",
      message: "several",
      severity: "WARNING",
      remedies: ["fit-boots"],
      value: 88.92,
    },
  ].map((c) => ({ ...c, severity: "WARNING" as const })),
  passes: [
    { name: "the same rows of blocks, booted", drawing: rows("booted"), at: ["G1", "G16"] },
    { name: "a contactor with a boot on one stud", drawing: contactor(COVERED_LOAD).build(), at: "Q1" },
    { name: "a contactor with bare studs at 24 V", drawing: contactor({ finish: "bare" }, "2").build(), at: "Q1" },
    {
      name: "a contactor of bare studs in a box that opens with a tool only",
      drawing: drawing()
        .enclosure("box", { toolClosed: true })
        .part("G1", "battery-pack", { ...BLOCK, blocks: "12", finish: "booted" })
        .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W", finish: "bare" }, { enclosure: "box" })
        .part("E1", "heater", { voltage: "144 V", power: "2 kW", finish: "booted" })
        .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
        .build(),
      at: "Q1",
    },
  ],
  notChecked: [
    {
      name: "a contactor of unstated finish",
      drawing: contactor({}).build(),
      at: "Q1",
      reason: "cover",
      missing: ["Q1.finish"],
    },
    {
      name: "bare studs in a box of which nobody said how it opens",
      drawing: drawing()
        .enclosure("box")
        .part("G1", "battery-pack", { ...BLOCK, blocks: "12", finish: "booted" })
        .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W", finish: "bare" }, { enclosure: "box" })
        .part("E1", "heater", { voltage: "144 V", power: "2 kW", finish: "booted" })
        .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
        .build(),
      at: "Q1",
      reason: "cover",
      missing: ["box.toolClosed"],
    },
  ],
  doesNotApply: [{ name: "no traction circuit", drawing: withTwelveVolts(drawing()).build() }],
});
