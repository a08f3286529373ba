/**
 * 33 CFR 183.455(b): 178 mm along the conductor, 1,016 mm in a sheath or enclosure throughout. Worked example: a fuse
 * 5 in along an unsheathed lead passes, 30 in unsheathed fails, 30 in sheathed passes, 45 in in an enclosure fails.
 */
import { protectionDistant } from "../../../../core/checks/overcurrent/protection-distant.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, THICK, THIN } from "./cart.ts";

const BLOCK = { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" };
const { sheath: _sheath, ...UNSTATED } = THICK;

/** Battery, fuse and load in one box; the lead to the fuse as the test wants it. */
const lead = (wire: WireOptions, options: { readonly enclosure?: string } = {}) =>
  drawing()
    .enclosure("box")
    .part("G1", "battery-block", BLOCK, options)
    .part("F1", "fuse", { rating: "100 A" }, options)
    .part("E1", "load", { voltage: "12 V", power: "50 W" })
    .wire("G1:+", "F1:1", { ...THICK, ...wire })
    .wires(THICK, "F1:2 - E1:+", "E1:- - G1:-")
    .build();

const output = (parameters: Readonly<Record<string, string>>, wire: WireOptions = {}) =>
  drawing()
    .part("G9", "dc-source", { voltage: "12 V", ...parameters })
    .part("F1", "fuse", { rating: "10 A" })
    .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
    .wires({ ...THIN, ...wire }, "G9:+ - F1:1", "F1:2 - P1:+", "P1:- - G9:-")
    .build();

const bothPoles = (plus: string, minus: string) =>
  drawing()
    .part("G1", "battery-block", BLOCK)
    .part("F1", "fuse", { rating: "100 A" })
    .part("F2", "fuse", { rating: "100 A" })
    .part("E1", "load", { voltage: "12 V", power: "50 W" })
    .wire("G1:+", "F1:1", { ...THICK, length: plus })
    .wire("G1:-", "F2:1", { ...THICK, length: minus })
    .wires(THICK, "F1:2 - E1:+", "E1:- - F2:2")
    .build();

checkTable(protectionDistant, {
  fails: [
    {
      name: "30 in without sheath",
      drawing: lead({ length: "762 mm" }),
      at: "F1",
      message: "distant",
      severity: "WARNING",
      remedies: ["move-to-source"],
      value: 0.762,
      limit: 0.178,
    },
    {
      name: "45 in in an enclosure",
      drawing: lead({ length: "1143 mm" }, { enclosure: "box" }),
      at: "F1",
      message: "distant",
      severity: "WARNING",
      remedies: ["move-to-source"],
      value: 1.143,
      limit: 1.016,
      except: {
        splice: "the splice is drawn outside the box, so that its two wires are no longer inside throughout",
        busbar: "as for the splice",
        connector: "as for the splice",
        contact: "as for the splice",
      },
    },
    {
      name: "2 m of sheathed lead straight from the stud",
      drawing: lead({ length: "2 m", sheath: true }),
      at: "F1",
      message: "distant",
      severity: "WARNING",
      remedies: ["move-to-source"],
      limit: 1.829,
      except: {
        contact: "with a contact in it the lead no longer comes straight from the stud, and the limit is lower",
      },
    },
    {
      name: "300 mm to the fuse of a pack whose minus is on the frame",
      drawing: drawing()
        .part("G1", "battery-pack", { ...BLOCK, blocks: "4" })
        .part("F1", "fuse", { rating: "100 A" })
        .part("E1", "load", { voltage: "48 V", power: "500 W" })
        .part("X1", "chassis-point", { structure: "frame" })
        .wire("G1:+", "F1:1", { ...THICK, length: "300 mm" })
        .wires(THICK, "F1:2 - E1:+", "E1:- - G1:-", "G1:- - X1:stud")
        .build(),
      at: "F1",
      message: "distant",
      severity: "WARNING",
      remedies: ["move-to-source"],
      value: 0.3,
    },
    {
      name: "devices in both poles, both far",
      drawing: bothPoles("0.5 m", "0.6 m"),
      at: "F1",
      message: "distant",
      severity: "WARNING",
      remedies: ["move-to-source"],
    },
    {
      name: "the only device in the minus pole, half a metre away",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("F1", "fuse", { rating: "100 A" })
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wire("G1:-", "F1:1", { ...THICK, length: "0.5 m" })
        .wires(THICK, "G1:+ - E1:+", "E1:- - F1:2")
        .build(),
      at: "F1",
      message: "distant",
      severity: "WARNING",
      remedies: ["move-to-source"],
    },
    {
      name: "an output of 200 A on thin wire",
      drawing: output({ currentMax: "200 A" }),
      at: "F1",
      message: "distant",
      severity: "WARNING",
      remedies: ["move-to-source"],
    },
  ],
  passes: [
    { name: "a sound cart", drawing: cart().build(), at: ["F1", "F3", "F5", "F6"] },
    { name: "5 in without sheath", drawing: lead({ length: "127 mm" }), at: "F1" },
    { name: "30 in in a sheath", drawing: lead({ length: "762 mm", sheath: true }), at: "F1" },
    {
      name: "1.8 m of sheathed lead straight from the stud",
      drawing: lead({ length: "1.8 m", sheath: true }),
      at: "F1",
    },
    { name: "devices in both poles, one close", drawing: bothPoles("0.5 m", "0.15 m"), at: "F2" },
    { name: "120 mm of unstated sheath", drawing: lead({ ...UNSTATED, length: "120 mm" }), at: "F1" },
  ],
  notChecked: [
    {
      name: "a lead of unstated length",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("F1", "fuse", { rating: "100 A" })
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wire("G1:+", "F1:1", { size: "2 AWG", sheath: false })
        .wires(THICK, "F1:2 - E1:+", "E1:- - G1:-")
        .build(),
      at: "F1",
      reason: "length",
      missing: ["W1.length"],
    },
    {
      name: "half a metre of unstated sheath",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("F1", "fuse", { rating: "100 A" })
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wire("G1:+", "F1:1", { ...UNSTATED, length: "0.5 m" })
        .wires(THICK, "F1:2 - E1:+", "E1:- - G1:-")
        .build(),
      at: "F1",
      reason: "length",
      missing: ["W1.sheath"],
    },
    {
      name: "an output of unstated limit",
      drawing: output({}),
      at: "F1",
      reason: "limit",
      missing: ["G9.currentMax"],
    },
  ],
  doesNotApply: [
    {
      name: "no device at all",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wires(THIN, "G1:+ - E1:+", "E1:- - G1:-")
        .build(),
    },
    { name: "an output whose limit is within its wire's ampacity", drawing: output({ currentMax: "10 A" }) },
    {
      name: "the only device between the blocks",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("G2", "battery-block", BLOCK)
        .part("F1", "fuse", { rating: "100 A" })
        .part("E1", "load", { voltage: "24 V", power: "50 W" })
        .wires(THICK, "G1:+ - F1:1", "F1:2 - G2:-", "G2:+ - E1:+", "E1:- - G1:-")
        .build(),
    },
  ],
});
