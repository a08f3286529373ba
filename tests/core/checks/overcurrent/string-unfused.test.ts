import { stringUnfused } from "../../../../core/checks/overcurrent/string-unfused.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { cart, THICK } from "./cart.ts";

const BLOCK = { duty: "traction", chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" };

/** A string of so many 12 V blocks; `between` gives the fuse that stands ahead of a block, by the block's number. */
function string(
  blocks: number,
  between: Readonly<Record<number, string>> = {},
  parameters: Parameters = BLOCK,
): Drawing {
  const made = drawing();
  for (let block = 1; block <= blocks; block += 1) made.part(`G${String(block)}`, "battery-block", parameters);
  for (const fuse of Object.values(between)) made.part(fuse, "fuse", { rating: "200 A" });
  for (let block = 2; block <= blocks; block += 1) {
    const fuse = between[block];
    const [from, to] = [`G${String(block - 1)}:+`, `G${String(block)}:-`];
    if (fuse === undefined) made.wire(from, to, THICK);
    else made.wire(from, `${fuse}:1`, THICK).wire(`${fuse}:2`, to, THICK);
  }
  return made;
}

const drive = (made: Drawing, plus: string, minus: string): Drawing =>
  made
    .part("T1", "dc-controller", { currentContinuous: "100 A", logicFeed: "pack-fed" })
    .part("M1", "motor-series", { currentContinuous: "100 A" })
    .wires(THICK, `${plus} - T1:B+`, `T1:B- - ${minus}`, "T1:M+ - M1:A1", "M1:A2 - M1:S1", "M1:S2 - T1:M-");

const withPack = (parameters: Parameters): Drawing =>
  drive(
    drawing()
      .part("G1", "battery-pack", { chemistry: "nmc", cells: "1", blocks: "90", capacity: "60 Ah", ...parameters })
      .part("F1", "fuse", { rating: "200 A" })
      .wire("G1:+", "F1:1", THICK),
    "F1:2",
    "G1:-",
  );

const parallel = (fuses: boolean) => {
  const made = drawing()
    .parts("battery-block", BLOCK, "G1", "G2", "G3", "G4")
    .part("F1", "fuse", { rating: "200 A" })
    .part("E1", "load", { voltage: "24 V", power: "500 W" })
    .wires(THICK, "G1:+ - G2:-", "G3:+ - G4:-", "G1:- - G3:-", "F1:2 - E1:+", "E1:- - G1:-");
  if (!fuses) return made.wires(THICK, "G2:+ - F1:1", "G4:+ - G2:+").build();
  return made
    .part("F2", "fuse", { rating: "150 A" })
    .part("F3", "fuse", { rating: "150 A" })
    .wires(THICK, "G2:+ - F2:1", "G4:+ - F3:1", "F2:2 - F1:1", "F3:2 - F1:1")
    .build();
};

checkTable(stringUnfused, {
  fails: [
    {
      name: "36 V and no device anywhere",
      drawing: drive(string(3), "G3:+", "G1:-").build(),
      at: "G1",
      message: "unfused",
      severity: "WARNING",
      remedies: ["fit-fuse"],
    },
    {
      name: "a fuse for the meter alone",
      drawing: drive(string(3), "G3:+", "G1:-")
        .part("F2", "fuse", { rating: "1 A" })
        .part("P1", "voltmeter")
        .wires(THICK, "G3:+ - F2:1", "F2:2 - P1:+", "P1:- - G1:-")
        .build(),
      at: "G1",
      message: "unfused",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "two parallel strings with one fuse towards the drive",
      drawing: parallel(false),
      at: "G1",
      message: "parallel",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "144 V with a fuse at the end alone",
      drawing: drive(
        string(12).part("F1", "fuse", { rating: "200 A" }).wire("G12:+", "F1:1", THICK),
        "F1:2",
        "G1:-",
      ).build(),
      at: "G1",
      message: "middle",
      severity: "NOTICE",
      remedies: ["fit-fuse"],
    },
    {
      name: "144 V with a fuse three blocks from the end",
      drawing: drive(string(12, { 10: "F1" }), "G12:+", "G1:-").build(),
      at: "G1",
      message: "middle",
      severity: "NOTICE",
      remedies: ["fit-fuse"],
    },
  ],
  passes: [
    { name: "a sound cart", drawing: cart().build(), at: "G1" },
    {
      name: "144 V with a fuse in the middle",
      drawing: drive(string(12, { 7: "F1" }), "G12:+", "G1:-").build(),
      at: "G1",
    },
    {
      name: "36 V with a fuse between two blocks",
      drawing: drive(string(3, { 2: "F1" }), "G3:+", "G1:-").build(),
      at: "G1",
    },
    { name: "parallel strings with a fuse each", drawing: parallel(true), at: "G1" },
    { name: "a pack with a fuse inside", drawing: withPack({ internalFuseRating: "250 A" }).build(), at: "G1" },
    {
      name: "two blocks and no drive, fused at the end",
      drawing: string(2).part("F1", "fuse", { rating: "100 A" }).wire("G2:+", "F1:1", THICK).build(),
      at: "G1",
    },
  ],
  notChecked: [
    {
      name: "a pack that does not say whether there is a fuse inside",
      drawing: withPack({}).build(),
      at: "G1",
      reason: "inside",
      missing: ["G1.internalFuseRating"],
    },
    {
      name: "a string of unstated chemistry",
      drawing: drive(
        string(9, {}, { duty: "traction", capacity: "100 Ah" })
          .part("F1", "fuse", { rating: "200 A" })
          .wire("G9:+", "F1:1", THICK),
        "F1:2",
        "G1:-",
      ).build(),
      at: "G1",
      reason: "chemistry",
      missing: ["G1.chemistry"],
    },
  ],
  doesNotApply: [
    {
      name: "a 12 V battery",
      drawing: drawing()
        .part("G20", "battery-block", { ...BLOCK, duty: "auxiliary" })
        .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
        .wires(THICK, "G20:+ - P1:+", "P1:- - G20:-")
        .build(),
    },
  ],
});
