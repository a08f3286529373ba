/**
 * Worked by hand: four blocks of 12.73 V behind 5 mohm give 50.9 V / 20 mohm = 2546 A across their posts at rest; the
 * wires and joints in the loop lower that.
 */
import { protectionInterruptingLow } from "../../../../core/checks/overcurrent/protection-interrupting-low.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { cart, THICK, THIN } from "./cart.ts";

const BLOCK = { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah" };

const string = (fuse: Parameters, battery: Parameters = { resistance: "5 mohm" }, wire: WireOptions = THICK) =>
  drawing()
    .parts("battery-block", { ...BLOCK, ...battery }, "G1", "G2", "G3", "G4")
    .part("F1", "fuse", { rating: "200 A", ...fuse })
    .part("E1", "load", { voltage: "48 V", power: "50 W" })
    .wires(THICK, "G1:+ - G2:-", "G2:+ - G3:-", "G3:+ - G4:-")
    .wires(wire, "G4:+ - F1:1", "F1:2 - E1:+", "E1:- - G1:-")
    .build();

checkTable(protectionInterruptingLow, {
  fails: [
    {
      name: "a 1 kA fuse on four blocks of 5 mohm",
      drawing: string({ interrupting: "1 kA" }),
      at: "F1",
      message: "low",
      severity: "DANGER",
      remedies: ["higher-interrupting"],
      limit: 1000,
    },
    {
      name: "a fuse between the blocks",
      drawing: drawing()
        .parts("battery-block", { ...BLOCK, resistance: "5 mohm" }, "G1", "G2")
        .part("F1", "fuse", { rating: "200 A", interrupting: "1 kA" })
        .part("E1", "load", { voltage: "24 V", power: "50 W" })
        .wires(THICK, "G1:+ - F1:1", "F1:2 - G2:-", "G2:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: "F1",
      message: "low",
      severity: "DANGER",
      remedies: ["higher-interrupting"],
    },
    {
      name: "a blade fuse on a 12 V battery",
      drawing: cart({ parts: { F5: { interrupting: "500 A" }, F6: { interrupting: "2 kA" } } }).build(),
      at: "F5",
      message: "low",
      severity: "NOTICE",
      remedies: ["higher-interrupting"],
      limit: 500,
    },
    {
      name: "batteries of unknown resistance, too much at either end of the range",
      drawing: string({ interrupting: "50 A" }, {}),
      at: "F1",
      message: "low",
      severity: "DANGER",
      remedies: ["higher-interrupting"],
    },
    {
      name: "a breaker in the minus lead",
      drawing: drawing()
        .parts("battery-block", { ...BLOCK, resistance: "5 mohm" }, "G1")
        .part("F1", "circuit-breaker", { rating: "100 A", interrupting: "1 kA" })
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wires(THICK, "G1:+ - E1:+", "E1:- - F1:load", "F1:line - G1:-")
        .build(),
      at: "F1",
      message: "low",
      severity: "DANGER",
      remedies: ["higher-interrupting"],
    },
  ],
  passes: [
    { name: "a sound cart", drawing: cart().build(), at: ["F1", "F3", "F5"] },
    { name: "3 kA on four blocks of 5 mohm", drawing: string({ interrupting: "3 kA" }), at: "F1" },
    {
      name: "1 kA behind so thin a wire that no more can flow",
      drawing: string({ interrupting: "1 kA" }, { resistance: "5 mohm" }, { ...THIN, length: "3 m" }),
      at: "F1",
    },
  ],
  notChecked: [
    { name: "no interrupting rating", drawing: string({}), at: "F1", reason: "rating", missing: ["F1.interrupting"] },
    {
      name: "batteries of unknown resistance, too much at one end of the range only",
      drawing: string({ interrupting: "2 kA" }, {}),
      at: "F1",
      reason: "range",
      missing: ["G1.resistance", "G2.resistance", "G3.resistance", "G4.resistance"],
    },
    {
      name: "wires of unstated length",
      drawing: string({ interrupting: "3 kA" }, { resistance: "5 mohm" }, { size: "2 AWG" }),
      at: "F1",
      reason: "approximate",
      missing: ["W4.length"],
    },
  ],
  doesNotApply: [
    {
      name: "a fuse on an output alone",
      drawing: drawing()
        .part("G9", "dc-source", { voltage: "24 V", currentMax: "10 A" })
        .part("F1", "fuse", { rating: "10 A", interrupting: "1 A" })
        .part("P1", "lamp", { voltage: "24 V", power: "20 W" })
        .wires(THIN, "G9:+ - F1:1", "F1:2 - P1:+", "P1:- - G9:-")
        .build(),
    },
  ],
});
