/** ISO 10133:2012, 7.7: a single conductor longer than 200 mm has at least 1 mm2, a core in a sheath 0.75 mm2. */
import { conductorFragile } from "../../../../core/checks/conductors/conductor-fragile.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";

const SOUND: WireOptions = { size: "1.5 mm2", length: "1 m", sheath: false };

const lamp = (wire: WireOptions) =>
  drawing()
    .enclosure("dash box")
    .cable("lamp cable", { sheath: true })
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" }, { enclosure: "dash box" })
    .part("P1", "lamp", { voltage: "12 V", power: "2 W" }, { enclosure: "dash box" })
    .part("P2", "lamp", { voltage: "12 V", power: "2 W" })
    .wire("G20:+", "P2:+", { ...SOUND, ...wire })
    .wire("P2:-", "G20:-", SOUND)
    .build();

const inBox = (wire: WireOptions) =>
  drawing()
    .enclosure("dash box")
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" }, { enclosure: "dash box" })
    .part("P1", "lamp", { voltage: "12 V", power: "2 W" }, { enclosure: "dash box" })
    .wire("G20:+", "P1:+", { size: "1.5 mm2", length: "1 m", ...wire })
    .wire("P1:-", "G20:-", SOUND)
    .build();

checkTable(conductorFragile, {
  fails: [
    {
      name: "0.75 mm2 by itself",
      drawing: lamp({ size: "0.75 mm2" }),
      at: "W1",
      message: "thin",
      severity: "CAUTION",
      value: 0.75e-6,
      limit: 1e-6,
      remedies: ["thicker-wire"],
    },
    {
      name: "18 AWG by itself: 0.82 mm2",
      drawing: lamp({ size: "18 AWG" }),
      at: "W1",
      message: "thin",
      severity: "CAUTION",
      limit: 1e-6,
      remedies: ["thicker-wire"],
    },
    {
      name: "a core of 0.5 mm2 in a sheathed cable",
      drawing: lamp({ size: "0.5 mm2", cable: "lamp cable" }),
      at: "W1",
      message: "thin",
      severity: "CAUTION",
      limit: 0.75e-6,
      remedies: ["thicker-wire"],
    },
    {
      name: "0.34 mm2, sheath or not",
      drawing: drawing()
        .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" })
        .part("P1", "lamp", { voltage: "12 V", power: "2 W" })
        .wire("G20:+", "P1:+", { size: "0.34 mm2", length: "2 m" })
        .wire("P1:-", "G20:-", SOUND)
        .build(),
      at: "W1",
      message: "thin",
      severity: "CAUTION",
    },
  ],
  passes: [
    { name: "1 mm2 by itself", drawing: lamp({ size: "1 mm2" }), at: ["W1", "W2"] },
    { name: "18 AWG in a sheath", drawing: lamp({ size: "18 AWG", sheath: true }), at: "W1" },
    { name: "0.75 mm2 in a conduit", drawing: lamp({ size: "0.75 mm2", conduit: "dash loom" }), at: "W1" },
    { name: "0.75 mm2 inside one box", drawing: inBox({ size: "0.75 mm2" }), at: "W1" },
  ],
  notChecked: [
    { name: "no size", drawing: lamp({ size: null }), at: "W1", reason: "size", missing: ["W1.size"] },
    {
      name: "thin, by itself, of unknown length",
      drawing: lamp({ size: "0.75 mm2", length: null }),
      at: "W1",
      reason: "length",
      missing: ["W1.length"],
    },
    {
      name: "0.75 mm2, and nobody said whether in a sheath",
      drawing: lamp({ size: "0.75 mm2", sheath: null }),
      at: "W1",
      reason: "sheath",
      missing: ["W1.sheath"],
    },
    {
      name: "18 AWG, neither length nor sheath stated",
      drawing: lamp({ size: "18 AWG", sheath: null, length: null }),
      at: "W1",
      reason: "sheath",
      missing: ["W1.length", "W1.sheath"],
    },
    {
      name: "0.5 mm2, short, and nobody said whether in a sheath",
      drawing: lamp({ size: "0.5 mm2", sheath: null, length: "0.1 m" }),
      at: "W1",
      reason: "sheath",
      missing: ["W1.sheath"],
    },
  ],
  doesNotApply: [
    {
      name: "two short ends of thin wire",
      drawing: drawing()
        .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead" })
        .part("P1", "lamp", { voltage: "12 V", power: "2 W" })
        .wire("G20:+", "P1:+", { size: "0.5 mm2", length: "0.2 m", sheath: false })
        .wire("P1:-", "G20:-", { size: "0.75 mm2", length: "0.15 m" })
        .build(),
    },
  ],
});
