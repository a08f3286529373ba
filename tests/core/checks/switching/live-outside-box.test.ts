import { liveOutsideBox } from "../../../../core/checks/switching/live-outside-box.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { PartOptions } from "../../../harness/drawing.ts";

const WIRE = {
  size: "10 mm2",
  length: "0.5 m",
  insulation: { material: "XLPE", volts: "600 V", temperature: "105 C" },
};
const BOX: PartOptions = { zone: "battery-box" };

/** A pack and its disconnect in the box, a heater outside; a branch for something else from wherever the test says. */
const vehicle = (from: string, branch: PartOptions, kind = "heater", disconnect = true) => {
  const made = drawing()
    .zone("battery-box")
    .zone("engine")
    .zone("passenger")
    .enclosure("pack case", { zone: "battery-box" })
    .part("G1", "battery-pack", { duty: "traction", chemistry: "nmc", blocks: "8", capacity: "50 Ah" }, BOX)
    .part("F1", "fuse", { rating: "100 A" }, { enclosure: "pack case" })
    .part("F2", "fuse", { rating: "10 A" }, BOX)
    .part("E1", "heater", { voltage: "96 V", power: "2 kW" }, { zone: "engine" });
  if (disconnect) made.part("Q9", "manual-disconnect", { poles: "2" }, BOX);
  made.wires(WIRE, "G1:+ - F1:1");
  if (disconnect) made.wires(WIRE, "F1:2 - Q9:line", "Q9:load - E1:+", "E1:- - Q9:load-2", "Q9:line-2 - G1:-");
  else made.wires(WIRE, "F1:2 - E1:+", "E1:- - G1:-");
  const parameters = kind === "voltmeter" ? {} : { voltage: "96 V", power: "50 W" };
  made.part("P1", kind, parameters, branch).wires(WIRE, `${from} - F2:1`, "F2:2 - P1:+");
  made.wires(WIRE, disconnect ? "P1:- - Q9:line-2" : "P1:- - G1:-");
  return made.build();
};

checkTable(liveOutsideBox, {
  fails: [
    {
      name: "a heater's branch ahead of the disconnect",
      drawing: vehicle("F1:2", { zone: "engine" }),
      at: "P1",
      message: "live",
      severity: "NOTICE",
    },
    {
      name: "a gauge straight from the pack's post",
      drawing: vehicle("G1:+", { zone: "passenger" }, "voltmeter"),
      at: "P1",
      message: "live",
      severity: "NOTICE",
    },
    {
      name: "behind one pole of the disconnect only",
      drawing: vehicle("Q9:load", { zone: "engine" }),
      at: "E1",
      message: "live",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "a branch that stays in the box", drawing: vehicle("F1:2", BOX), at: "G1" },
    { name: "in the box by its case", drawing: vehicle("F1:2", { enclosure: "pack case" }), at: "G1" },
    { name: "the same from the pack's post", drawing: vehicle("G1:+", BOX), at: "G1" },
  ],
  notChecked: [
    {
      name: "a branch ahead of the disconnect, and nobody said where it goes",
      drawing: vehicle("F1:2", {}),
      at: "P1",
      reason: "zone",
      missing: ["P1.zone"],
    },
  ],
  doesNotApply: [
    { name: "no disconnect, so nothing is ever stored", drawing: vehicle("F1:2", { zone: "engine" }, "heater", false) },
  ],
});
