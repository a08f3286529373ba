import { tractionOnAuxiliary } from "../../../../core/checks/shock/traction-on-auxiliary.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

/** A 12 V battery whose minus hangs on no chassis. */
const floatingTwelve = (sketch: Drawing) =>
  sketch
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "flooded-lead", resistance: "6 mohm" })
    .part("P2", "lamp", { voltage: "12 V", power: "5 W" })
    .wires(SMALL, "G20:+ - P2:+", "P2:- - G20:-");

const converter = (isolated: string | null, blocks = 10) =>
  withTwelveVolts(pack(blocks))
    .part("T2", "dc-dc-converter", { isolated, outputCurrentMax: "30 A", inputMin: "30 V" })
    .wires(SMALL, `G${blocks}:+ - T2:in+`, "T2:in- - G1:-", "T2:out+ - F20:1", "T2:out- - X1:stud");

const instrument = (isolated: string) =>
  withTwelveVolts(pack(8))
    .part("T4", "dc-dc-converter", { isolated, outputVoltage: "12 V", outputCurrentMax: "2 A" })
    .part("P1", "gauge", { isolated: "no", senseMax: "200 V" })
    .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud", "T4:out+ - P1:supply+", "T4:out- - P1:supply-")
    .wires(SMALL, "G8:+ - P1:sense+", "G1:- - P1:sense-");

checkTable(tractionOnAuxiliary, {
  fails: [
    {
      name: "a converter that is not isolated",
      drawing: converter("no").build(),
      at: "T2",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a converter that is not isolated and off while the vehicle is stored",
      drawing: withTwelveVolts(pack(10))
        .part("Q9", "manual-disconnect")
        .part("T2", "dc-dc-converter", { isolated: "no", outputCurrentMax: "30 A", inputMin: "30 V", backfeed: "no" })
        .wires(SMALL, "G10:+ - Q9:line", "Q9:load - T2:in+", "T2:in- - G1:-", "T2:out+ - F20:1", "T2:out- - X1:stud")
        .build(),
      at: "T2",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a wire from the pack's minus to that of a floating 12 V battery",
      drawing: floatingTwelve(pack(8)).wire("G1:-", "G20:-", HEAVY).build(),
      at: "W10",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "a gauge without isolation, fed from the 12 V battery",
      drawing: floatingTwelve(pack(8))
        .part("P1", "gauge", { isolated: "no", senseMax: "200 V" })
        .wires(SMALL, "G20:+ - P1:supply+", "G20:- - P1:supply-", "G8:+ - P1:sense+", "G1:- - P1:sense-")
        .build(),
      at: "P1",
      message: "joined",
      severity: "DANGER",
      remedies: [],
    },
    {
      name: "one low-voltage vehicle that declares a shared minus",
      drawing: converter("no", 4).sharedNegative().build(),
      at: "T2",
      message: "declared",
      severity: "NOTICE",
      remedies: [],
    },
  ],
  passes: [
    { name: "an isolated converter", drawing: converter("yes").build(), at: "G1" },
    { name: "an isolated converter of its own for a gauge on the pack", drawing: instrument("yes").build(), at: "G1" },
    { name: "a 12 V battery that touches nothing of the pack", drawing: floatingTwelve(pack(8)).build(), at: "G1" },
  ],
  notChecked: [
    {
      name: "a converter of which nobody said whether it isolates",
      drawing: converter(null).build(),
      at: "T2",
      reason: "barrier",
      missing: ["T2.isolated"],
    },
  ],
  doesNotApply: [
    { name: "no 12 V side", drawing: pack(8).build() },
    {
      name: "the pack bolted to the chassis, which traction-on-chassis says",
      drawing: withTwelveVolts(pack(8)).wire("G1:-", "X1:stud", HEAVY).build(),
    },
    { name: "no traction pack", drawing: withTwelveVolts(drawing()).build() },
  ],
});
