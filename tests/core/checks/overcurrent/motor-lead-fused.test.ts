import { motorLeadFused } from "../../../../core/checks/overcurrent/motor-lead-fused.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { drawing } from "../../../harness/drawing.ts";
import { cart, THICK } from "./cart.ts";

const FUSE = { rating: "300 A", voltageDc: "80 V", interrupting: "10 kA", curve: "bolted-strip" };

/** The cart with one cable of its motor circuit led through another part. */
const through = (pair: string, kind: string, ends: readonly [string, string], parameters = {}) => {
  const [from = "", to = ""] = pair.split(" - ");
  return cart({
    without: [pair],
    more: (made: Drawing) => {
      made.part("X9", kind, parameters).wire(from, `X9:${ends[0]}`, THICK).wire(`X9:${ends[1]}`, to, THICK);
    },
  }).build();
};

const ac = (fuseInPhase: boolean) => {
  const made = drawing()
    .part("G1", "battery-pack", { duty: "traction", chemistry: "nmc", blocks: "8", capacity: "50 Ah" })
    .part("F1", "fuse", FUSE)
    .part("F2", "fuse", FUSE)
    .part("T1", "ac-controller", { currentContinuous: "150 A" })
    .part("M1", "motor-ac", { currentContinuous: "150 A" })
    .wires(THICK, "G1:+ - F1:1", "F1:2 - T1:B+", "G1:- - T1:B-", "T1:U - M1:U", "T1:V - M1:V");
  if (fuseInPhase) made.wires(THICK, "T1:W - F2:1", "F2:2 - M1:W");
  else made.wires(THICK, "T1:W - M1:W");
  return made.build();
};

checkTable(motorLeadFused, {
  fails: [
    {
      name: "a fuse between motor and controller",
      drawing: through("M1:S2 - T1:M-", "fuse", ["1", "2"], FUSE),
      at: "X9",
      message: "fused",
      severity: "WARNING",
      remedies: ["take-out-part"],
    },
    {
      name: "a fuse on the positive side of the motor",
      drawing: through("T1:M+ - M1:A1", "fuse", ["1", "2"], FUSE),
      at: "X9",
      message: "fused",
      severity: "WARNING",
      remedies: ["take-out-part"],
    },
    {
      name: "a breaker between the windings",
      drawing: through("M1:A2 - M1:S1", "circuit-breaker", ["line", "load"], { rating: "300 A" }),
      at: "X9",
      message: "fused",
      severity: "WARNING",
      remedies: ["take-out-part"],
    },
    {
      name: "motor plus taken ahead of the main fuse: the current circulates through it",
      drawing: cart({
        without: ["T1:M+ - M1:A1"],
        more: (made) => {
          made.wire("F1:1", "M1:A1", THICK);
        },
      }).build(),
      at: "F1",
      message: "fused",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "a fuse in one phase",
      drawing: ac(true),
      at: "F2",
      message: "fused",
      severity: "WARNING",
      remedies: ["take-out-part"],
    },
  ],
  passes: [
    { name: "a sound cart", drawing: cart().build(), at: "T1" },
    { name: "an AC drive fused at the pack alone", drawing: ac(false), at: "T1" },
    {
      name: "a shunt in the motor lead",
      drawing: through("M1:S2 - T1:M-", "shunt", ["line", "load"], { ratedCurrent: "500 A" }),
      at: "T1",
    },
  ],
  doesNotApply: [
    {
      name: "a motor switched by a contactor, without a controller",
      drawing: drawing()
        .part("G1", "battery-block", { duty: "traction", chemistry: "flooded-lead" })
        .part("F1", "fuse", FUSE)
        .part("M1", "motor-permanent-magnet", { currentContinuous: "50 A" })
        .wires(THICK, "G1:+ - F1:1", "F1:2 - M1:+", "M1:- - G1:-")
        .build(),
    },
  ],
});
