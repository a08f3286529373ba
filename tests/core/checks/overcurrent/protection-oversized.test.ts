/** 33 CFR 183.455(c) and table 5: 10 AWG of 105 C carries 60 A, so that 90 A may protect it at 12 V and 60 A at 72 V. */
import { describe, expect, test } from "vitest";
import { protectionOversized } from "../../../../core/checks/overcurrent/protection-oversized.ts";
import { largestRating } from "../../../../core/standards/overcurrent.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { cart, SHORT, THICK, THIN } from "./cart.ts";

const BLOCK = { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" };

/** One battery of so many cells, one fuse, one load on 10 AWG. */
const oneFuse = (rating: Parameters, cells: string, wire: WireOptions = {}, battery: Parameters = {}) =>
  drawing()
    .part("G1", "battery-block", { ...BLOCK, cells, ...battery })
    .part("F1", "fuse", rating)
    .part("E1", "load", { voltage: "12 V", power: "50 W" })
    .wire("G1:+", "F1:1", { ...THICK, ...SHORT })
    .wires({ ...THIN, size: "10 AWG", ...wire }, "F1:2 - E1:+", "E1:- - G1:-")
    .build();

/** A heater by a thin wire behind the main fuse. */
const heater = (wire: WireOptions) =>
  cart({
    more: (made) => {
      made.part("E1", "heater", { voltage: "48 V", power: "500 W" });
      made.wire("Q1:load", "E1:+", { ...wire, number: "H1" }).wire("E1:-", "G1:-", { ...THIN, ...wire, number: "H2" });
    },
  }).build();

/** A fused branch that leaves the thick cable by a thin tap of some length. */
const tap = (wire: WireOptions) => cart({ wires: { "Q9:load - F2:1": wire } }).build();

checkTable(protectionOversized, {
  fails: [
    {
      name: "a heater branch that only the main fuse protects",
      drawing: heater({ ...THIN, size: "12 AWG" }),
      at: "F1",
      message: "oversized",
      severity: "WARNING",
      remedies: ["fit-fuse"],
      value: 250,
      limit: 67.5,
    },
    {
      name: "100 A on 10 AWG at 12 V",
      drawing: oneFuse({ rating: "100 A" }, "6"),
      at: "F1",
      message: "oversized",
      severity: "WARNING",
      remedies: ["smaller-device"],
      value: 100,
      limit: 90,
    },
    {
      name: "70 A on 10 AWG at 72 V",
      drawing: oneFuse({ rating: "70 A" }, "36"),
      at: "F1",
      message: "oversized",
      severity: "WARNING",
      remedies: ["smaller-device"],
      value: 70,
      limit: 60,
    },
    {
      name: "400 A on 4 AWG, three metres from the battery",
      drawing: drawing()
        .parts("battery-block", BLOCK, "G1", "G2", "G3", "G4")
        .part("F1", "fuse", { rating: "400 A" })
        .part("Q1", "contactor")
        .wires(THICK, "G1:+ - G2:-", "G2:+ - G3:-", "G3:+ - G4:-")
        .wire("G4:+", "F1:1", { ...THICK, size: "4 AWG", length: "3 m" })
        .wire("F1:2", "Q1:line", { ...THICK, size: "4 AWG" })
        .build(),
      at: "F1",
      message: "oversized",
      severity: "WARNING",
      remedies: ["smaller-device"],
      limit: 240,
    },
    {
      name: "one thin wire in the main lead, ahead of the fuse",
      drawing: drawing()
        .parts("battery-block", BLOCK, "G1", "G2", "G3", "G4", "G5", "G6")
        .part("F1", "fuse", { rating: "300 A" })
        .part("E1", "load", { voltage: "72 V", power: "10 kW" })
        .wires(THICK, "G1:+ - G2:-", "G2:+ - G3:-", "G3:+ - G4:-", "G4:+ - G5:-", "G5:+ - G6:-")
        .wire("G6:+", "F1:1", { ...THICK, ...SHORT, size: "6 AWG" })
        .wires(THICK, "F1:2 - E1:+", "E1:- - G1:-")
        .build(),
      at: "F1",
      message: "oversized",
      severity: "WARNING",
      remedies: ["thicker-wire"],
      limit: 125,
    },
    {
      name: "a charger's return through a thin wire that the charger's fuse does not fit",
      drawing: cart({
        parts: { F3: { rating: "40 A" } },
        wires: { "F3:2 - T3:out+": { size: "8 AWG" }, "F3:1 - G8:+": { size: "8 AWG" } },
        without: ["T3:out- - G1:-"],
        more: (made) => {
          made.wire("T3:out-", "Q1:coil-", { ...THIN, size: "8 AWG" });
        },
      }).build(),
      at: "F3",
      message: "oversized",
      severity: "WARNING",
      remedies: ["smaller-device"],
      limit: 37.5,
    },
    {
      name: "a thin tap of half a metre without sheath",
      drawing: tap({ length: "0.5 m" }),
      at: "F1",
      message: "oversized",
      severity: "WARNING",
      remedies: ["fit-fuse"],
    },
    {
      name: "nothing but a short-circuit fuse",
      drawing: oneFuse({ rating: "50 A", curve: "semiconductor-aR" }, "6"),
      at: "F1",
      message: "shortCircuitOnly",
      severity: "WARNING",
      remedies: ["full-range"],
    },
  ],
  passes: [
    { name: "a sound cart", drawing: cart().build(), at: ["W8", "W16", "W19", "W20"] },
    { name: "90 A on 10 AWG at 12 V", drawing: oneFuse({ rating: "90 A" }, "6"), at: ["W2", "W3"] },
    { name: "60 A on 10 AWG at 72 V", drawing: oneFuse({ rating: "60 A" }, "36"), at: ["W2", "W3"] },
    { name: "a tap of 0.9 m in a sheath", drawing: tap({ length: "0.9 m", sheath: true }), at: "W16" },
    {
      name: "a battery too small to overload the wire",
      drawing: oneFuse({ rating: "200 A" }, "6", {}, { resistance: "0.5 ohm" }),
      at: "W2",
    },
    {
      name: "a short-circuit fuse beside a full-range one",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("F1", "fuse", { rating: "50 A", curve: "semiconductor-aR" })
        .part("F2", "fuse", { rating: "60 A", curve: "bolted-strip" })
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wires({ ...THIN, size: "10 AWG" }, "G1:+ - F1:1", "F1:2 - F2:1", "F2:2 - E1:+", "E1:- - G1:-")
        .build(),
      at: ["W3", "W4"],
    },
  ],
  notChecked: [
    {
      name: "heater on wire of unstated size",
      drawing: heater({ length: "1 m", size: null }),
      at: ["H1", "H2"],
      reason: "size",
      missing: ["H1.size", "H2.size"],
    },
    {
      name: "heater on wire below the table",
      drawing: heater({ ...THIN, size: "0.5 mm2" }),
      at: ["H1", "H2"],
      reason: "small",
      missing: [],
    },
    {
      name: "heater on wire of a class below the table",
      drawing: heater({ ...THIN, insulation: { temperature: "50 C" } }),
      at: ["H1", "H2"],
      reason: "insulation",
      missing: [],
    },
    {
      name: "a fuse of unstated rating",
      drawing: oneFuse({}, "6"),
      at: ["W1", "W2", "W3"],
      reason: "rating",
      missing: ["F1.rating"],
    },
    {
      name: "insulation of unstated class, and a rating between its worst and its best",
      drawing: oneFuse({ rating: "70 A" }, "6", { insulation: {} }),
      at: ["W2", "W3"],
      reason: "range",
      missing: ["W2.insulation.temperature", "W3.insulation.temperature"],
    },
    {
      name: "a tap of half a metre, sheath unstated",
      drawing: cart({
        without: ["Q9:load - F2:1"],
        more: (made) => {
          const { sheath: _sheath, ...rest } = THIN;
          made.wire("Q9:load", "F2:1", { ...rest, length: "0.5 m", number: "T1" });
        },
      }).build(),
      at: "T1",
      reason: "tap",
      missing: ["T1.sheath"],
    },
  ],
  doesNotApply: [
    {
      name: "no device anywhere",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wires(THIN, "G1:+ - E1:+", "E1:- - G1:-")
        .build(),
    },
  ],
});

describe("33 CFR 183.455(c)", () => {
  test("10 AWG of 105 C: 90 A at 12 V, 60 A at 72 V", () => {
    expect(largestRating(60, 12)).toBe(90);
    expect(largestRating(60, 72)).toBe(60);
  });
});
