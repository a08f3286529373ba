import { towIsolationMissing } from "../../../../core/checks/controls/tow-isolation-missing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, splitPack, stepCar, supplies } from "../switching/vehicle.ts";
import { boat, kart } from "./vehicle.ts";

/** An inverter on four blocks; its motor's lead U from `u`, with a plug X1 and a breaker F2 at hand. */
const inverter = (machine: Readonly<Record<string, string>>, breaker: Readonly<Record<string, string>> = {}) =>
  supplies(4)
    .part("F2", "circuit-breaker", { rating: "200 A", ...breaker })
    .part("Q1", "contactor", COIL)
    .part("T1", "ac-controller", { logicFeed: "isolated-12v", currentContinuous: "100 A" })
    .part("M1", "motor-ac", { currentContinuous: "100 A", ...machine })
    .wires(POWER, "Q1:load - T1:B+", "T1:B- - G1:-", "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud", "S1:ignition - T1:logic+", "T1:logic- - X9:stud");

const straight = (machine: Readonly<Record<string, string>>) => inverter(machine).wire("G4:+", "Q1:line", POWER);

checkTable(towIsolationMissing, {
  fails: [
    {
      name: "series motor, no disconnect",
      drawing: cart({ disconnect: null }).build(),
      at: "M1:A1",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "induction motor, no disconnect",
      drawing: straight({ machine: "induction" }).build(),
      at: "M1:U",
      message: "missing",
      severity: "NOTICE",
    },
    {
      name: "kart with magnets in its motor",
      drawing: kart("S1:ignition").build(),
      at: "M1:+",
      message: "generates",
      severity: "WARNING",
    },
    {
      name: "magnets in a three-phase motor, a breaker without a handle",
      drawing: inverter({ machine: "permanent-magnet" }, { manual: "no" })
        .wires(POWER, "G4:+ - F2:line", "F2:load - Q1:line")
        .build(),
      at: "M1:U",
      message: "generates",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "disconnect in the pack's lead", drawing: cart().build(), at: "M1:A1" },
    {
      name: "plug in the motor's leads",
      drawing: supplies(4)
        .parts("battery-block", BLOCK, "G5")
        .part("X1", "connector", { positions: "2" })
        .part("T1", "dc-controller", { logicFeed: "isolated-12v" })
        .part("M1", "motor-permanent-magnet")
        .wires(POWER, "G4:+ - T1:B+", "T1:B- - G1:-", "T1:M+ - X1:1a", "X1:1b - M1:+", "M1:- - X1:2a", "X1:2b - T1:M-")
        .build(),
      at: "M1:+",
    },
    { name: "boat with a disconnect", drawing: boat().build(), at: "M1:+" },
    {
      name: "breaker with a handle",
      drawing: inverter({ machine: "permanent-magnet" }, { manual: "yes" })
        .wires(POWER, "G4:+ - F2:line", "F2:load - Q1:line")
        .build(),
      at: "M1:U",
    },
    { name: "step car with a disconnect in one half's lead", drawing: stepCar().build(), at: "M1:A1" },
  ],
  notChecked: [
    {
      name: "nobody says whether the breaker has a handle",
      drawing: inverter({ machine: "permanent-magnet" }).wires(POWER, "G4:+ - F2:line", "F2:load - Q1:line").build(),
      at: "M1:U",
      reason: "manual",
      missing: ["F2.manual"],
    },
  ],
  doesNotApply: [
    { name: "no motor drawn", drawing: splitPack().build() },
    { name: "no drive", drawing: supplies(2).build() },
  ],
});
