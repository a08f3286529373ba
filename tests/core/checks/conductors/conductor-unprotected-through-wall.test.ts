import { conductorUnprotectedThroughWall } from "../../../../core/checks/conductors/conductor-unprotected-through-wall.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { PartOptions, WireOptions } from "../../../harness/drawing.ts";

/** A lamp and its battery, wherever the test puts them; the return never leaves the battery's side. */
const lamp = (battery: PartOptions, lamp: PartOptions, wire: WireOptions, conductive?: boolean | null) =>
  drawing()
    .zone("engine")
    .zone("passenger")
    .zone("luggage")
    .zone("battery-box")
    .zone("underfloor")
    .enclosure("box", conductive === undefined ? {} : { conductive })
    .cable("duct cable", { conduit: "floor duct" })
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" }, battery)
    .part("P1", "lamp", { voltage: "12 V", power: "5 W" }, lamp)
    .part("P2", "lamp", { voltage: "12 V", power: "5 W" }, battery)
    .wire("G20:+", "P1:+", { size: "1.5 mm2", length: "1 m", ...wire })
    .wire("P2:-", "G20:-", { size: "1.5 mm2", length: "1 m" })
    .build();

const ENGINE: PartOptions = { zone: "engine" };
const CAB: PartOptions = { zone: "passenger" };

checkTable(conductorUnprotectedThroughWall, {
  fails: [
    {
      name: "through the bulkhead into the cab",
      drawing: lamp(ENGINE, CAB, { grommets: false }),
      at: "W1",
      message: "bare",
      severity: "CAUTION",
      remedies: ["fit-grommets"],
    },
    {
      name: "both ends in the engine bay, but by way of the cab",
      drawing: lamp(ENGINE, ENGINE, { zones: ["engine", "passenger"], grommets: false }),
      at: "W1",
      message: "bare",
      severity: "CAUTION",
      remedies: ["fit-grommets"],
    },
    {
      name: "out of the battery box",
      drawing: lamp({ zone: "battery-box" }, { zone: "underfloor" }, { grommets: false }),
      at: "W1",
      message: "bare",
      severity: "CAUTION",
      remedies: ["fit-grommets"],
    },
    {
      name: "into a metal box in the same bay",
      drawing: lamp(ENGINE, { zone: "engine", enclosure: "box" }, { grommets: false }, true),
      at: "W1",
      message: "bare",
      severity: "CAUTION",
      remedies: ["fit-grommets"],
    },
  ],
  passes: [
    { name: "with a grommet", drawing: lamp(ENGINE, CAB, { grommets: true }), at: "W1" },
    { name: "in a conduit", drawing: lamp(ENGINE, CAB, { conduit: "cab to engine bay" }), at: "W1" },
    { name: "in a cable that lies in a duct", drawing: lamp(ENGINE, CAB, { cable: "duct cable" }), at: "W1" },
    {
      name: "into a metal box through a gland",
      drawing: lamp(ENGINE, { zone: "engine", enclosure: "box" }, { grommets: true }, true),
      at: "W1",
    },
  ],
  notChecked: [
    {
      name: "nobody said what lines the hole",
      drawing: lamp(ENGINE, CAB, {}),
      at: "W1",
      reason: "unstated",
      missing: ["W1.conduit", "W1.grommets"],
    },
    {
      name: "a box of unstated material",
      drawing: lamp(ENGINE, { zone: "engine", enclosure: "box" }, {}, null),
      at: "W1",
      reason: "where",
      missing: ["box.conductive"],
    },
    {
      name: "no zones at all",
      drawing: lamp({}, {}, {}),
      at: ["W1", "W2"],
      reason: "where",
      missing: ["W1.zones", "W2.zones"],
    },
  ],
  doesNotApply: [
    { name: "within the engine bay", drawing: lamp(ENGINE, ENGINE, { grommets: false }) },
    { name: "from engine bay to underfloor, which is open", drawing: lamp(ENGINE, { zone: "underfloor" }, {}) },
    { name: "from cab to luggage, which share the cabin", drawing: lamp(CAB, { zone: "luggage" }, {}) },
    {
      name: "into a plastic box",
      drawing: lamp(ENGINE, { zone: "engine", enclosure: "box" }, { grommets: false }, false),
    },
  ],
});
