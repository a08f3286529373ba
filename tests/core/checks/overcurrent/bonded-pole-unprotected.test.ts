/** Distances of 33 CFR 183.455(b); arrangements from reports of the field. */
import { bondedPoleUnprotected } from "../../../../core/checks/overcurrent/bonded-pole-unprotected.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, THICK, THIN } from "./cart.ts";

const BLOCK = { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" };
const AUXILIARY = { ...BLOCK, duty: "auxiliary" };

/** Six blocks, minus on the frame, the first fuse at the end of the lead given. */
const bonded = (lead: WireOptions, structure = "frame") =>
  drawing()
    .parts("battery-block", BLOCK, "G1", "G2", "G3", "G4", "G5", "G6")
    .part("F1", "fuse", { rating: "200 A" })
    .part("E1", "load", { voltage: "72 V", power: "500 W" })
    .part("X1", "chassis-point", { structure })
    .wires(THICK, "G1:+ - G2:-", "G2:+ - G3:-", "G3:+ - G4:-", "G4:+ - G5:-", "G5:+ - G6:-", "G1:- - X1:stud")
    .wire("G6:+", "F1:1", lead)
    .wires(THICK, "F1:2 - E1:+", "E1:- - G1:-");

const source = (currentMax: Readonly<Record<string, string>>, wire: WireOptions = THIN) =>
  drawing()
    .part("G9", "dc-source", { voltage: "12 V", ...currentMax })
    .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
    .part("X1", "chassis-point", { structure: "body" })
    .wires(wire, "G9:+ - P1:+", "P1:- - G9:-", "G9:- - X1:stud")
    .build();

checkTable(bondedPoleUnprotected, {
  fails: [
    {
      name: "pack minus on the frame, the first fuse half a metre away",
      drawing: bonded({ ...THICK, length: "0.5 m" }).build(),
      at: "G6:+",
      message: "bare",
      severity: "DANGER",
      remedies: ["move-to-source"],
      value: 0.5,
      limit: 0.178,
    },
    {
      name: "12 V battery on the body without any fuse",
      drawing: drawing()
        .part("G20", "battery-block", AUXILIARY)
        .part("P1", "lamp", { voltage: "12 V", power: "55 W" })
        .part("X1", "chassis-point", { structure: "body" })
        .wires({ ...THIN, length: "2 m" }, "G20:- - X1:stud", "G20:+ - P1:+", "P1:- - X1:stud")
        .build(),
      at: "G20:+",
      message: "bare",
      severity: "WARNING",
      remedies: ["fit-fuse"],
      value: 2,
    },
    {
      name: "plus on the body, the fuse in the minus lead too far",
      drawing: drawing()
        .part("G20", "battery-block", AUXILIARY)
        .part("F1", "fuse", { rating: "10 A" })
        .part("P1", "lamp", { voltage: "12 V", power: "55 W" })
        .part("X1", "chassis-point", { structure: "body" })
        .wires({ ...THIN, length: "0.4 m" }, "G20:+ - X1:stud", "G20:- - F1:1", "F1:2 - P1:-", "P1:+ - X1:stud")
        .build(),
      at: "G20:-",
      message: "bare",
      severity: "WARNING",
      remedies: ["move-to-source"],
      value: 0.4,
    },
    {
      name: "a strong output whose minus is on the body",
      drawing: source({ currentMax: "200 A" }),
      at: "G9:+",
      message: "bare",
      severity: "WARNING",
      remedies: ["fit-fuse"],
    },
  ],
  passes: [
    { name: "a cart whose 12 V battery is fused at its post", drawing: cart().build(), at: "G20:+" },
    { name: "the fuse 150 mm from the post", drawing: bonded({ ...THICK, length: "150 mm" }).build(), at: "G6:+" },
    {
      name: "the fuse 0.9 m from the post in a sheath",
      drawing: bonded({ ...THICK, length: "0.9 m", sheath: true }).build(),
      at: "G6:+",
    },
  ],
  notChecked: [
    {
      name: "a lead of unstated length",
      drawing: bonded({ size: "2 AWG", sheath: false }).build(),
      at: "G6:+",
      reason: "length",
      missing: ["W7.length"],
    },
    {
      name: "an output of unstated limit",
      drawing: source({}),
      at: "G9:+",
      reason: "limit",
      missing: ["G9.currentMax"],
    },
  ],
  doesNotApply: [
    {
      name: "a floating pack",
      drawing: drawing()
        .part("G1", "battery-block", BLOCK)
        .part("E1", "load", { voltage: "12 V", power: "50 W" })
        .wires(THIN, "G1:+ - E1:+", "E1:- - G1:-")
        .build(),
    },
    { name: "an output whose limit is within its wire's ampacity", drawing: source({ currentMax: "10 A" }) },
  ],
});
