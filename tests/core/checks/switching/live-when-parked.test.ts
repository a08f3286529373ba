import { liveWhenParked } from "../../../../core/checks/switching/live-when-parked.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, supplies } from "./vehicle.ts";

/** A converter on the pack of `blocks`, through a fuse and what the test puts between `F2:2` and it. */
const converter = (
  blocks: number,
  parameters: Readonly<Record<string, string>>,
  block = BLOCK as Record<string, string>,
) =>
  cart({ blocks, block })
    .part("F2", "fuse", { rating: "10 A" })
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "30 A", ...parameters })
    .wires(SMALL, `G${blocks}:+ - F2:1`, "T2:in- - G1:-", "T2:out+ - G90:+", "T2:out- - X9:stud");

const always = (parameters: Readonly<Record<string, string>> = {}) =>
  converter(12, parameters).wire("F2:2", "T2:in+", SMALL);

/** The same pack without any stated chemistry. */
const unknown = (blocks: number) => converter(blocks, {}, { capacity: "100 Ah" }).wire("F2:2", "T2:in+", SMALL);

const relayed = (coilFrom: string) =>
  converter(12, {})
    .part("Q4", "contactor", COIL)
    .wires(SMALL, "F2:2 - Q4:line", "Q4:load - T2:in+", `${coilFrom} - Q4:coil+`, "Q4:coil- - X9:stud");

checkTable(liveWhenParked, {
  fails: [
    {
      name: "converter always on the pack",
      drawing: always().build(),
      at: "T2:in+",
      message: "live",
      severity: "WARNING",
      value: 12 * 6 * 2.47,
      limit: 60,
    },
    {
      name: "converter on a contactor that closes ahead of the key",
      drawing: relayed("F9:2").build(),
      at: "T2:in+",
      message: "live",
      severity: "WARNING",
    },
    {
      name: "heater on the controller's studs, main contactor ahead of the key",
      drawing: supplies(6)
        .part("Q1", "contactor", COIL)
        .part("E1", "heater", { voltage: "72 V", power: "1 kW" })
        .part("M1", "motor-permanent-magnet", { currentContinuous: "80 A" })
        .wires(POWER, "G6:+ - Q1:line", "Q1:load - M1:+", "M1:- - G1:-")
        .wires(SMALL, "Q1:load - E1:+", "E1:- - M1:-", "F9:2 - Q1:coil+", "Q1:coil- - X9:stud")
        .build(),
      at: ["E1:+", "M1:+"],
      message: "live",
      severity: "WARNING",
    },
    {
      name: "controller straight on a pack of 72 V",
      drawing: supplies(6)
        .part("T1", "ac-controller", { logicFeed: "isolated-12v" })
        .wires(POWER, "G6:+ - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "T1:B+",
      message: "live",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "drive behind its contactor", drawing: cart().build(), at: "T1:B+" },
    {
      name: "converter behind a contactor of its own",
      drawing: relayed("S1:ignition").build(),
      at: ["T1:B+", "T2:in+"],
    },
    { name: "stated to be always on", drawing: always({ alwaysOn: "yes" }).build(), at: "T2:in+" },
    {
      name: "converter behind the main contactor",
      drawing: cart({ blocks: 12 })
        .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "30 A" })
        .wires(SMALL, "Q1:load - T2:in+", "T2:in- - G1:-", "T2:out+ - G90:+", "T2:out- - X9:stud")
        .build(),
      at: "T2:in+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the blocks are made of",
      drawing: unknown(3).build(),
      at: "T2:in+",
      reason: "chemistry",
      missing: ["G1.chemistry", "G2.chemistry", "G3.chemistry"],
    },
    {
      name: "the contactor ahead closes in no state",
      drawing: supplies(8)
        .part("Q1", "contactor", COIL)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .wires(POWER, "G8:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - T1:contactor-out")
        .build(),
      at: "T1:B+",
      reason: "neverClosed",
      missing: ["T1.contactorDriver"],
    },
  ],
  doesNotApply: [{ name: "48 V", drawing: converter(4, {}).wire("F2:2", "T2:in+", SMALL).build() }],
});
