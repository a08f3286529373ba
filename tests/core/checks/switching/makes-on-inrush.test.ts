import { makesOnInrush } from "../../../../core/checks/switching/makes-on-inrush.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, supplies } from "./vehicle.ts";

type Parameters = Readonly<Record<string, string>>;

/** String, contactor on the key, controller of this capacitance; no pre-charge. */
const bare = (contactor: Parameters, capacitance: string | undefined, blocks = 12) =>
  supplies(blocks)
    .part("Q1", "contactor", { ...COIL, ...contactor })
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      ...(capacitance === undefined ? {} : { inputCapacitance: capacitance }),
    })
    .wires(POWER, `G${String(blocks)}:+ - Q1:line`, "Q1:load - T1:B+", "G1:- - T1:B-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

/** A heater of so many watts at 48 V behind a contactor. */
const heating = (contactor: Parameters, power: string) =>
  supplies(4)
    .part("Q1", "contactor", { ...COIL, ...contactor })
    .part("E1", "heater", { voltage: "48 V", power })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

checkTable(makesOnInrush, {
  fails: [
    {
      name: "144 V onto 7200 uF",
      drawing: bare({ currentMake: "600 A" }, "7200 uF").build(),
      at: "Q1",
      message: "over",
      severity: "WARNING",
      limit: 600,
      except: { contact: "The resistance of a contact in every wire holds the inrush below the rating." },
    },
    {
      name: "a heater of 5 kW on a contact for 50 A",
      drawing: heating({ currentMake: "50 A" }, "5 kW").build(),
      at: "Q1",
      message: "over",
      severity: "WARNING",
    },
    {
      name: "a pre-charge relay that gets 15 A through a small resistor",
      drawing: supplies(12)
        .part("K1", "relay", { ...COIL, coilResistance: "90 ohm", contactCurrent: "5 A" })
        .part("R1", "resistor", { resistance: "10 ohm", power: "50 W" })
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", inputCapacitance: "2 mF" })
        .wires(SMALL, "G12:+ - K1:common", "K1:no - R1:1", "R1:2 - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .build(),
      at: "K1",
      message: "over",
      severity: "WARNING",
      // 12 blocks at 12.7 V through 10 ohm, their own resistance and a little wiring.
      value: 14.65,
      limit: 5,
    },
  ],
  passes: [
    {
      name: "capacitors charged by a resistor",
      drawing: cart({ blocks: 8, resistor: "470 ohm", contactor: { currentMake: "600 A" } }).build(),
      at: "Q1",
    },
    {
      name: "so small that less than half a joule rushes in",
      drawing: bare({ currentMake: "100 A" }, "20 uF").build(),
      at: "Q1",
    },
    {
      name: "a heater of 5 kW on a contact for 200 A",
      drawing: heating({ currentMake: "200 A" }, "5 kW").build(),
      at: "Q1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the contactor may close onto",
      drawing: heating({ coilResistance: "90 ohm" }, "5 kW").build(),
      at: "Q1",
      reason: "rating",
      missing: ["Q1.currentMake"],
    },
    {
      name: "nobody says how large the capacitors are",
      drawing: bare({ currentMake: "600 A" }, undefined).build(),
      at: "Q1",
      reason: "capacitance",
      missing: ["T1.inputCapacitance"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: heating({ currentMake: "200 A" }, "5 kW")
        .part("K9", "relay", COIL)
        .wires(SMALL, "S1:ignition - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
  ],
  doesNotApply: [{ name: "nothing that closes", drawing: supplies(0).build() }],
});
