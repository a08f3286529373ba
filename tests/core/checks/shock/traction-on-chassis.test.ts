import { tractionOnChassis } from "../../../../core/checks/shock/traction-on-chassis.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

const frame = { structure: "frame" };
const withConverter = (isolated: string | null) =>
  withTwelveVolts(pack(10))
    .part("F2", "fuse", { rating: "10 A" })
    .part("T2", "dc-dc-converter", { isolated, outputCurrentMax: "30 A", inputMin: "60 V" })
    .wires(SMALL, "G10:+ - F2:1", "F2:2 - T2:in+", "T2:in- - G1:-", "T2:out+ - F20:1", "T2:out- - X1:stud")
    .build();

checkTable(tractionOnChassis, {
  fails: [
    {
      name: "the pack's minus bolted to the frame",
      drawing: pack(6).part("X1", "chassis-point", frame).wire("G1:-", "X1:stud", HEAVY).build(),
      at: "W6",
      message: "joined",
      severity: "DANGER",
      remedies: [],
      // 100 ohm per volt of 6 x 12.7 V.
      limit: 7620,
    },
    {
      name: "48 V with its minus on the frame, nothing declared",
      drawing: drawing()
        .part("G1", "battery-pack", { duty: "traction", chemistry: "nmc", cells: "13", blocks: "1" })
        .part("F1", "fuse", { rating: "50 A" })
        .part("X1", "chassis-point", frame)
        .wires(HEAVY, "G1:+ - F1:1", "G1:- - X1:stud")
        .build(),
      at: "W2",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a lamp that takes its return from the hull",
      drawing: pack(4)
        .part("X1", "chassis-point", { structure: "hull" })
        .part("P1", "lamp", { voltage: "48 V", power: "20 W" })
        .wires(SMALL, "G4:+ - P1:+", "P1:- - G1:-", "P1:- - X1:stud")
        .build(),
      at: "W6",
      message: "joined",
      severity: "DANGER",
      remedies: ["take-off-wire"],
    },
    {
      name: "the spare green and yellow wire of the fused control line bolted to the frame",
      drawing: pack(6)
        .part("F2", "fuse", { rating: "5 A" })
        .part("S1", "key-switch")
        .part("T1", "dc-controller", { logicFeed: "pack-fed", currentContinuous: "100 A" })
        .part("X1", "chassis-point", frame)
        .wires(HEAVY, "G6:+ - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "G6:+ - F2:1", "F2:2 - S1:battery", "S1:ignition - T1:logic+")
        .wire("F2:2", "X1:stud", { ...SMALL, colour: "GNYE" })
        .build(),
      at: "W11",
      message: "joined",
      severity: "DANGER",
      remedies: ["take-off-wire"],
    },
    {
      name: "a converter that is not isolated",
      drawing: withConverter("no"),
      at: "T2",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a lamp between the pack's plus and the 12 V ground bar",
      drawing: withTwelveVolts(pack(8))
        .part("X5", "busbar", { positions: "4" })
        .part("P1", "lamp", { voltage: "96 V", power: "20 W" })
        .part("P2", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "X5:1 - X1:stud", "F20:2 - P2:+", "P2:- - X5:2", "G8:+ - P1:+", "P1:- - X5:3")
        .build(),
      at: "W14",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a low-voltage vehicle that declares its minus to be the chassis",
      drawing: pack(4).sharedNegative().part("X1", "chassis-point", frame).wire("G1:-", "X1:stud", HEAVY).build(),
      at: "W4",
      message: "declared",
      severity: "NOTICE",
      remedies: [],
    },
    {
      name: "the same declared, but it is the plus that is on the chassis",
      drawing: pack(4).sharedNegative().part("X1", "chassis-point", frame).wire("G4:+", "X1:stud", HEAVY).build(),
      at: "W4",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "two resistors side by side, each above the limit, together below it (10160 ohm)",
      drawing: pack(8)
        .part("X1", "chassis-point", frame)
        .part("R1", "resistor", { resistance: "15 kohm" })
        .part("R2", "resistor", { resistance: "18 kohm" })
        .wires(SMALL, "G1:- - R1:1", "R1:2 - X1:stud", "G1:- - R2:1", "R2:2 - X1:stud")
        .build(),
      at: "W9",
      message: "joined",
      severity: "DANGER",
      remedies: ["take-off-wire"],
    },
    {
      name: "declared, but it is the middle of the string that is on the chassis",
      drawing: pack(8).sharedNegative().part("X1", "chassis-point", frame).wire("G4:+", "X1:stud", HEAVY).build(),
      at: "W8",
      message: "joined",
      severity: "DANGER",
      remedies: ["take-off-wire"],
    },
    {
      name: "declared, but above 60 V on charge",
      drawing: pack(5).sharedNegative().part("X1", "chassis-point", frame).wire("G1:-", "X1:stud", HEAVY).build(),
      at: "W5",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
  ],
  passes: [
    { name: "a floating pack", drawing: withTwelveVolts(pack(8)).build(), at: "G1" },
    { name: "an isolated converter", drawing: withConverter("yes"), at: "G1" },
    {
      name: "an isolation monitor and a leak of stated size",
      drawing: withTwelveVolts(pack(8, {}, { G3: { isolation: "3 kohm" } }))
        .part("B3", "isolation-monitor", { internalResistance: "1 Mohm" })
        .wires(SMALL, "B3:+ - G8:+", "B3:- - G1:-", "B3:chassis - X1:stud")
        .build(),
      at: "G1",
    },
  ],
  notChecked: [
    {
      name: "a converter of which nobody said whether it isolates",
      drawing: withConverter(null),
      at: "T2",
      reason: "barrier",
      missing: ["T2.isolated"],
    },
  ],
  doesNotApply: [{ name: "no traction pack", drawing: withTwelveVolts(drawing()).build() }],
});
