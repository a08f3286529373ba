import { jumpersMixed } from "../../../../core/checks/conductors/jumpers-mixed.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart } from "../overcurrent/cart.ts";

const THICK = {
  size: "70 mm2",
  length: "0.3 m",
  insulation: { material: "XLPE", volts: "600 V", temperature: "105 C" },
};

const BLOCK = { chemistry: "flooded-lead", cells: "6", capacity: "100 Ah", resistance: "5 mohm" };

/** Four blocks in a row with a fuse in the middle; a thin tap at each joint. */
const row = (...sizes: readonly (string | null)[]) => {
  const made = drawing()
    .parts("battery-block", { ...BLOCK, duty: "traction" }, "G1", "G2", "G3", "G4")
    .part("F5", "fuse", { rating: "200 A" })
    .part("P1", "voltmeter", {});
  ["G1:+ - G2:-", "G2:+ - F5:1", "F5:2 - G3:-", "G3:+ - G4:-"].forEach((pair, at) => {
    const [from = "", to = ""] = pair.split(" - ");
    made.wire(from, to, { ...THICK, size: sizes[at] ?? null });
  });
  return made
    .wire("P1:+", "G2:-", { ...THICK, size: "1 mm2" })
    .wire("P1:-", "G1:-", { ...THICK, size: "1 mm2" })
    .build();
};

/** Two rows of two blocks side by side; each row is a string of its own kind of cable. */
const sideBySide = (second: string) =>
  drawing()
    .parts("battery-block", { ...BLOCK, duty: "traction" }, "G1", "G2", "G3", "G4", "G5", "G6")
    .wires(THICK, "G1:+ - G2:-", "G2:+ - G3:-")
    .wires({ ...THICK, size: "50 mm2" }, "G4:+ - G5:-")
    .wires({ ...THICK, size: second }, "G5:+ - G6:-")
    .wires(THICK, "G3:+ - G6:+", "G1:- - G4:-")
    .build();

checkTable(jumpersMixed, {
  fails: [
    {
      name: "one thin jumper among eight blocks",
      drawing: cart({ wires: { "G3:+ - G4:-": { size: "4 AWG" } } }).build(),
      at: "W3",
      message: "mixed",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
    {
      name: "three different sizes: the thinnest first",
      drawing: row("70 mm2", "50 mm2", "70 mm2", "35 mm2"),
      at: "W4",
      message: "mixed",
      severity: "NOTICE",
      value: 35e-6,
      limit: 70e-6,
      remedies: ["thicker-wire"],
    },
    {
      name: "thin on one side of the middle fuse",
      drawing: row("70 mm2", "70 mm2", "25 mm2", "70 mm2"),
      at: "W3",
      message: "mixed",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
    {
      name: "one of two parallel rows is mixed in itself",
      drawing: sideBySide("35 mm2"),
      at: "W4",
      message: "mixed",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
    {
      name: "mixed whatever the unstated one is",
      drawing: row("70 mm2", null, "70 mm2", "35 mm2"),
      at: "W4",
      message: "mixed",
      severity: "NOTICE",
      remedies: ["thicker-wire"],
    },
  ],
  passes: [
    { name: "a sound cart", drawing: cart().build(), at: ["W1", "W7"] },
    { name: "all alike, with thin taps on them", drawing: row("70 mm2", "70 mm2", "70 mm2", "70 mm2"), at: "W1" },
    { name: "70 mm2 and 2/0 AWG are each other's equal", drawing: row("70 mm2", "2/0 AWG", "70 mm2", "2/0 AWG") },
    { name: "two rows, each alike in itself", drawing: sideBySide("50 mm2"), at: ["W1", "W3"] },
  ],
  notChecked: [
    {
      name: "one of unstated size",
      drawing: row("70 mm2", null, "70 mm2", "70 mm2"),
      at: "W2",
      reason: "size",
      missing: ["W2.size"],
    },
    {
      name: "no size at all",
      drawing: row(null, null, null, null),
      at: ["W1", "W2", "W3", "W4"],
      reason: "size",
      missing: ["W1.size", "W2.size", "W3.size", "W4.size"],
    },
  ],
  doesNotApply: [
    {
      name: "two blocks, one jumper",
      drawing: drawing()
        .parts("battery-block", { ...BLOCK, duty: "traction" }, "G1", "G2")
        .wires(THICK, "G1:+ - G2:-")
        .build(),
    },
    { name: "a pack in one symbol", drawing: drawing().part("G1", "battery-pack", { duty: "traction" }).build() },
  ],
});
