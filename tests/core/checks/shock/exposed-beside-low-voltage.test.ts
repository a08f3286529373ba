import { exposedBesideLowVoltage } from "../../../../core/checks/shock/exposed-beside-low-voltage.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { PartOptions } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

const BLOCK = { duty: "traction", chemistry: "flooded-lead", resistance: "5 mohm", finish: "booted" };
const DRIVE = { logicFeed: "pack-fed", currentContinuous: "100 A" };

/** A pack-fed controller; its signal plug is 139 mm from B- on the face of the kind. Only B- is bare. */
function plugBesideStud(controller: Parameters, options: PartOptions = {}, blocks = "12", fused = true) {
  const sketch = drawing()
    .part("G1", "battery-pack", { ...BLOCK, blocks })
    .part("S1", "key-switch")
    .part("T1", "dc-controller", { ...DRIVE, ...controller }, options)
    .wires(HEAVY, "G1:+ - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "S1:ignition - T1:logic+");
  if (fused) sketch.part("F2", "fuse", { rating: "5 A" }).wires(SMALL, "G1:+ - F2:1", "F2:2 - S1:battery");
  else sketch.wires(SMALL, "G1:+ - S1:battery");
  return sketch.build();
}
const BARE_MINUS = { finish: "booted", "finish-B-": "bare" };
/** The plug moved to 40 mm from B-. */
const NEAR = { face: { "logic+": [65, 110], "B-": [25, 110] } } as const;

/** A shunt on the controller's minus, 40 mm from the coil tab whose lead comes from a plug; behind a disconnect. */
function coilLead(connector: Parameters, shunt: Parameters) {
  return (
    withTwelveVolts(pack(12, { finish: "booted" }))
      .part("Q9", "manual-disconnect", { finish: "booted" })
      .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W", finish: "booted" }, { panel: [0, 0] })
      .part("X2", "connector", { positions: "1", ...connector })
      .part("S1", "key-switch")
      // Q1:coil+ is at (20, 5); line of the shunt at (15, 20), load at (45, 20) on its own face.
      .part("B1", "shunt", shunt, { panel: [15, -15] })
      .part("T1", "dc-controller", { ...DRIVE, logicFeed: "isolated-12v", finish: "booted", inputCapacitance: "5 mF" })
      .wires(HEAVY, "G12:+ - Q9:line", "Q9:load - Q1:line", "Q1:load - T1:B+", "G1:- - B1:line", "B1:load - T1:B-")
      .wires(SMALL, "F20:2 - S1:battery", "S1:ignition - X2:1a", "X2:1b - Q1:coil+", "Q1:coil- - X1:stud")
      .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X1:stud")
      .build()
  );
}
const SHUNT = { ratedCurrent: "500 A", finish: "booted", "finish-load": "bare" };

/** A plug of the 12 V harness 100 mm from the pack's plus post. */
function harnessPlug(connector: Parameters, post: "bare" | "booted", apart = 100) {
  return withTwelveVolts(drawing())
    .part(
      "G1",
      "battery-pack",
      { duty: "traction", chemistry: "flooded-lead", blocks: "10", finish: "booted", "finish-+": post },
      {
        panel: [0, 0],
        face: { "+": [0, 0], "-": [400, 0] },
      },
    )
    .part(
      "X2",
      "connector",
      { positions: "1", leadLength: "150 mm", ...connector },
      { panel: [apart, 0], face: { "1a": [0, 0], "1b": [0, 0] } },
    )
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
    .wires(SMALL, "F20:2 - X2:1a", "X2:1b - P1:+", "P1:- - X1:stud");
}

/** As before, and a converter without isolation, by which every 12 V net belongs to the pack as well. */
const joinedHarnessPlug = () =>
  harnessPlug({ touchSafe: "no" }, "bare")
    .part("T2", "dc-dc-converter", { isolated: "no", inputMin: "30 V", outputCurrentMax: "20 A" })
    .wires(SMALL, "G1:+ - T2:in+", "T2:in- - G1:-", "T2:out+ - F20:1", "T2:out- - X1:stud")
    .build();

/** A 12 V tab as near to a bare traction stud as 1 mm: 177.84 V need 1.5 mm (2.5 kV, pollution degree 3). */
const tabBesideStud = (apart: number) =>
  withTwelveVolts(drawing())
    .part("G1", "battery-pack", { ...BLOCK, blocks: "12" })
    .part(
      "Q1",
      "contactor",
      { coilVoltage: "12 V", finish: "bare", "finish-load": "booted" },
      { face: { line: [15, 50], "coil+": [15, 50 + apart] } },
    )
    .part("E1", "heater", { voltage: "144 V", finish: "booted" })
    .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
    .wires(SMALL, "F20:2 - Q1:coil+", "Q1:coil- - X1:stud")
    .build();

const ANCHOR = {
  busbar: "a busbar in a plug's lead holds it, so that the plug no longer swings from the terminal beyond it",
};

checkTable(exposedBesideLowVoltage, {
  fails: [
    {
      name: "a plug of a 12 V harness that a converter without isolation joins to the pack",
      drawing: joinedHarnessPlug(),
      at: "G1:+",
      message: "plug",
      severity: "DANGER",
      remedies: ["fit-boots"],
    },
    {
      name: "a signal plug 40 mm from a bare stud",
      drawing: plugBesideStud(BARE_MINUS, NEAR),
      at: "T1:B-",
      message: "plug",
      severity: "DANGER",
      remedies: ["fit-boots"],
      value: 0.04,
      limit: 0.1,
    },
    {
      name: "the same at 36 V, with a fuse in the loop",
      drawing: plugBesideStud(BARE_MINUS, NEAR, "3"),
      at: "T1:B-",
      message: "plug",
      severity: "WARNING",
      remedies: ["fit-boots"],
    },
    {
      name: "the same at 36 V, but nothing in the loop clears",
      drawing: plugBesideStud(BARE_MINUS, NEAR, "3", false),
      at: "T1:B-",
      message: "plug",
      severity: "DANGER",
      remedies: ["fit-boots"],
    },
    {
      name: "the coil lead's plug beside the shunt on the controller's minus",
      drawing: coilLead({ leadLength: "100 mm", touchSafe: "no" }, SHUNT),
      at: "B1:load",
      message: "plug",
      severity: "DANGER",
      remedies: ["fit-boots"],
      except: ANCHOR,
    },
    {
      name: "a plug of the 12 V harness 100 mm from the pack's plus",
      drawing: harnessPlug({ touchSafe: "no" }, "bare").build(),
      at: "G1:+",
      message: "plug",
      severity: "DANGER",
      remedies: ["fit-boots"],
      value: 0.1,
      limit: 0.15,
    },
    {
      name: "a coil tab 1 mm from a bare stud",
      drawing: tabBesideStud(1),
      at: "Q1:line",
      message: "fixed",
      severity: "DANGER",
      remedies: ["fit-boots"],
      value: 0.001,
      limit: 0.0015,
    },
  ],
  passes: [
    {
      name: "the plug where the kind has it, 139 mm away",
      drawing: plugBesideStud(BARE_MINUS),
      at: ["T1:B-", "T1:B+"],
    },
    { name: "the plug near, but the stud booted", drawing: plugBesideStud({ finish: "booted" }, NEAR), at: "T1:B-" },
    { name: "a touch-safe plug", drawing: harnessPlug({ touchSafe: "yes" }, "bare").build(), at: "G1:+" },
    { name: "a plug out of reach", drawing: harnessPlug({ touchSafe: "no" }, "bare", 180).build(), at: "G1:+" },
    { name: "a coil tab 45 mm away", drawing: tabBesideStud(45), at: "Q1:line" },
  ],
  notChecked: [
    {
      name: "a stud of unstated finish",
      drawing: plugBesideStud({}, NEAR),
      at: ["T1:B+", "T1:B-"],
      reason: "cover",
      missing: ["T1.finish"],
    },
    {
      name: "a plug of which nobody said whether its contacts can be touched",
      drawing: harnessPlug({}, "bare").build(),
      at: "G1:+",
      reason: "cover",
      missing: ["X2.touchSafe"],
    },
  ],
  doesNotApply: [{ name: "no traction circuit", drawing: withTwelveVolts(drawing()).build() }],
});
