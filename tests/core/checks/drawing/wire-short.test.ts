import { wireShort } from "../../../../core/checks/drawing/wire-short.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { PartOptions, WireOptions } from "../../../harness/drawing.ts";

/** Two busbars whose stud 1 is where the face is put, so that distances can be read off. */
const bars = (a: PartOptions, b: PartOptions, wire: WireOptions) =>
  drawing()
    .enclosure("drive box")
    .enclosure("battery box")
    .part("X1", "busbar", { positions: "2" }, { face: { "1": [0, 0] }, ...a })
    .part("X2", "busbar", { positions: "2" }, { face: { "1": [0, 0] }, ...b })
    .wire("X1:1", "X2:1", wire)
    .build();

const at = (x: number, y: number, enclosure = "drive box"): PartOptions => ({ panel: [x, y], enclosure });

checkTable(wireShort, {
  fails: [
    {
      name: "300 mm apart, 250 mm of wire",
      drawing: bars(at(0, 0), at(300, 0), { size: "35 mm2", length: "0.25 m" }),
      at: "W1",
      message: "short",
      severity: "NOTICE",
      remedies: ["lengthen"],
      value: 0.25,
      limit: 0.3305,
    },
    {
      name: "just the straight distance, nothing left for bends",
      drawing: bars(at(0, 0), at(300, 400), { size: "70 mm2", length: "0.5 m" }),
      at: "W1",
      message: "short",
      severity: "NOTICE",
      remedies: ["lengthen"],
      limit: 0.5431,
    },
    {
      name: "too short whatever its size",
      drawing: bars(at(0, 0), at(600, 0), { length: "0.5 m" }),
      at: "W1",
      message: "short",
      severity: "NOTICE",
      remedies: ["lengthen"],
      limit: 0.6,
    },
    {
      name: "on a bench, in no box",
      drawing: bars({ panel: [0, 0] }, { panel: [0, 900] }, { size: "1 mm2", length: "0.3 m" }),
      at: "W1",
      message: "short",
      severity: "NOTICE",
      remedies: ["lengthen"],
    },
  ],
  passes: [
    { name: "room for the bends", drawing: bars(at(0, 0), at(300, 0), { size: "35 mm2", length: "0.35 m" }), at: "W1" },
    { name: "ample", drawing: bars(at(20, 0), at(20, 90), { size: "1.5 mm2", length: "0.4 m" }), at: "W1" },
    {
      name: "closer together on the bench",
      drawing: bars({ panel: [0, 0] }, { panel: [0, 100] }, { size: "1 mm2", length: "0.3 m" }),
      at: "W1",
    },
  ],
  notChecked: [
    {
      name: "no length",
      drawing: bars(at(0, 0), at(300, 0), { size: "35 mm2" }),
      at: "W1",
      reason: "length",
      missing: ["W1.length"],
    },
    {
      name: "no size, and it may just do",
      drawing: bars(at(0, 0), at(300, 0), { length: "0.32 m" }),
      at: "W1",
      reason: "size",
      missing: ["W1.size"],
    },
  ],
  doesNotApply: [
    { name: "in two boxes", drawing: bars(at(0, 0), at(900, 0, "battery box"), { size: "35 mm2", length: "0.2 m" }) },
    { name: "no place on the panel", drawing: bars(at(0, 0), { enclosure: "drive box" }, { length: "0.1 m" }) },
  ],
});
