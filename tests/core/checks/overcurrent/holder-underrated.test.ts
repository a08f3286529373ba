import { holderUnderrated } from "../../../../core/checks/overcurrent/holder-underrated.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

const WIRE = { size: "4 mm2", length: "0.3 m", insulation: { material: "PVC", volts: "60 V", temperature: "105 C" } };

const heater = (fuse: Parameters, load: Parameters = { power: "120 W" }) =>
  drawing()
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "2 mohm" })
    .part("F1", "fuse", { curve: "blade", voltageDc: "32 V", interrupting: "2 kA", ...fuse })
    .part("E1", "heater", { voltage: "12 V", ...load })
    .wire("G20:+", "F1:1", WIRE)
    .wire("F1:2", "E1:+", WIRE)
    .wire("E1:-", "G20:-", WIRE)
    .build();

checkTable(holderUnderrated, {
  fails: [
    {
      name: "30 A in a holder for 20 A",
      drawing: heater({ rating: "30 A", holderRating: "20 A" }),
      at: "F1",
      message: "rating",
      severity: "WARNING",
      value: 30,
      limit: 20,
      remedies: ["smaller-device"],
    },
    {
      name: "30 A in a holder for 20 A, and the load needs 18 A",
      drawing: heater({ rating: "30 A", holderRating: "20 A" }, { power: "220 W" }),
      at: "F1",
      message: "rating",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "more current than fuse and holder are made for",
      drawing: heater({ rating: "20 A", holderRating: "20 A" }, { power: "320 W" }),
      at: "F1",
      message: "current",
      severity: "WARNING",
      limit: 20,
    },
    {
      name: "a fuse of unknown rating with too much current for the holder",
      drawing: heater({ holderRating: "5 A" }),
      at: "F1",
      message: "current",
      severity: "WARNING",
      limit: 5,
    },
  ],
  passes: [
    { name: "a fuse that fits", drawing: heater({ rating: "15 A", holderRating: "20 A" }), at: "F1" },
    { name: "just its size", drawing: heater({ rating: "20 A", holderRating: "20 A" }), at: "F1" },
    { name: "far below", drawing: heater({ rating: "2 A", holderRating: "30 A" }, { power: "12 W" }), at: "F1" },
  ],
  notChecked: [
    {
      name: "a holder of unknown rating",
      drawing: heater({ rating: "15 A" }),
      at: "F1",
      reason: "holder",
      missing: ["F1.holderRating"],
    },
    {
      name: "a fuse of unknown rating",
      drawing: heater({ holderRating: "30 A" }),
      at: "F1",
      reason: "rating",
      missing: ["F1.rating"],
    },
  ],
  doesNotApply: [
    {
      name: "a breaker, which has no holder",
      drawing: drawing().part("F1", "circuit-breaker", { rating: "20 A" }).build(),
    },
  ],
});
