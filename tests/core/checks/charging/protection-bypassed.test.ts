import { protectionBypassed } from "../../../../core/checks/charging/protection-bypassed.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { BLOCK, cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";
import { CHARGER } from "./vehicle.ts";

/** A 48 V string of lithium with a monitor in its minus lead; drive and charger on the ports of the test. */
const monitored = (drive: string, charger: string, monitor: Readonly<Record<string, string>> = { isolated: "yes" }) =>
  supplies(4, { chemistry: "lifepo4", cells: "4", capacity: "100 Ah", internalMonitor: "no" })
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", COIL)
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none", currentContinuous: "100 A" })
    .part("T3", "charger", { ...CHARGER, outputVoltageMax: "58.4 V", chemistry: "lifepo4" })
    .part("B1", "battery-monitor", monitor)
    .wires(POWER, "G4:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", `T1:B- - ${drive}`, "G1:- - B1:B-")
    .wires(SMALL, "F1:2 - T3:out+", `T3:out- - ${charger}`, "G4:+ - B1:pack+")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

/** A shunt with its gauge in the minus lead; a converter and a charger return where the test says. */
const counted = (converter: string, charger: string) =>
  cart({ disconnect: null })
    .part("B1", "shunt", { ratedCurrent: "300 A" })
    .part("P1", "gauge", { isolated: "yes" })
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "20 A" })
    .part("T3", "charger", CHARGER)
    .wires(POWER, "G1:- - B1:line", "B1:load - M1:case")
    .wires(SMALL, "P1:sense+ - B1:sense-line", "P1:sense- - B1:sense-load", "S1:ignition - P1:supply+")
    .wires(SMALL, "P1:supply- - X9:stud", "F1:2 - T2:in+", `T2:in- - ${converter}`, "T2:out- - X9:stud")
    .wires(SMALL, "T2:out+ - F9:1", "F1:2 - T3:out+", `T3:out- - ${charger}`);

/** As `counted`, with the drive's own minus behind the shunt. */
const shunted = (converter: string, charger: string) =>
  supplies(8)
    .part("F1", "fuse", { rating: "250 A" })
    .part("Q1", "contactor", COIL)
    .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none", currentContinuous: "100 A" })
    .part("B1", "shunt", { ratedCurrent: "300 A" })
    .part("P1", "gauge", { isolated: "yes" })
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "20 A" })
    .part("T3", "charger", CHARGER)
    .wires(POWER, "G8:+ - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - B1:load", "B1:line - G1:-")
    .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud")
    .wires(SMALL, "P1:sense+ - B1:sense-line", "P1:sense- - B1:sense-load", "S1:ignition - P1:supply+")
    .wires(SMALL, "P1:supply- - X9:stud", "F1:2 - T2:in+", `T2:in- - ${converter}`, "T2:out- - X9:stud")
    .wires(SMALL, "T2:out+ - F9:1", "F1:2 - T3:out+", `T3:out- - ${charger}`);

/** A transistor switch in the minus lead of a controller that is fed from the pack; the throttle returns where the test says. */
const inMinus = (throttle: string, lead: readonly [string, string] = ["F1:2", "T1:B+"]) =>
  supplies(6, BLOCK)
    .part("F1", "fuse", { rating: "200 A" })
    .part("F2", "fuse", { rating: "5 A" })
    .part("Q2", "solid-state-switch", { voltageMax: "150 V", bodyDiode: "yes" })
    .part("S4", "key-switch")
    .part("T1", "dc-controller", {
      logicFeed: "pack-fed",
      contactorDriver: "none",
      throttleInput: "divider",
      currentContinuous: "100 A",
    })
    .part("B2", "throttle-three-wire", { resistance: "5 kohm" })
    .wires(POWER, "G6:+ - F1:1", `${lead[0]} - ${lead[1]}`, "T1:B- - Q2:line", "Q2:load - G1:-")
    .wires(SMALL, "F1:2 - F2:1", "F2:2 - S4:battery", "S4:ignition - T1:logic+")
    .wires(SMALL, "S1:ignition - Q2:control+", "Q2:control- - X9:stud")
    .wires(SMALL, "T1:throttle-1 - B2:high", "T1:throttle-2 - B2:wiper", `B2:low - ${throttle}`);

checkTable(protectionBypassed, {
  fails: [
    {
      name: "charger on the battery's minus beside the monitor",
      drawing: monitored("B1:P-", "G1:-").build(),
      at: "B1",
      message: "monitor",
      severity: "WARNING",
    },
    {
      name: "charger on the port for the drive",
      drawing: monitored("B1:P-", "T1:B-")
        .part("E1", "load", { voltage: "48 V", power: "20 W" })
        .wires(SMALL, "F1:2 - E1:+", "E1:- - B1:C-")
        .build(),
      at: "B1",
      message: "monitor",
      severity: "WARNING",
    },
    {
      name: "lamp of the pack's voltage that returns to the battery post",
      drawing: monitored("B1:P-", "B1:C-")
        .part("P5", "lamp", { voltage: "48 V", power: "20 W" })
        .wires(SMALL, "F1:2 - P5:+", "P5:- - G1:-")
        .build(),
      at: "B1",
      message: "monitor",
      severity: "WARNING",
    },
    {
      name: "serial grounds that join the pack's minus to the drive's",
      drawing: monitored("B1:P-", "B1:C-", { isolated: "no" })
        .part("P6", "display", { isolated: "yes" })
        .wires(SMALL, "B1:serial-ground - T1:B-", "B1:serial-tx - P6:serial-rx", "P6:serial-ground - T1:B-")
        .wires(SMALL, "S1:ignition - P6:supply+", "P6:supply- - X9:stud")
        .build(),
      at: "B1",
      message: "metal",
      severity: "WARNING",
    },
    {
      name: "converter that returns to the battery's side of the shunt",
      drawing: shunted("G1:-", "B1:load").build(),
      at: "B1",
      message: "shunt",
      severity: "WARNING",
    },
    {
      name: "throttle that returns to the battery beside a switch in the minus lead",
      drawing: inMinus("G1:-").build(),
      at: "Q2",
      message: "switch",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "drive and charger on their ports", drawing: monitored("B1:P-", "B1:C-").build(), at: "B1" },
    { name: "all of the current through the shunt", drawing: shunted("B1:load", "T1:B-").build(), at: "B1" },
    { name: "throttle that returns to the controller", drawing: inMinus("T1:throttle-3").build(), at: "Q2" },
  ],
  notChecked: [
    {
      name: "nobody says whether the monitor's serial ground is the pack's minus",
      drawing: monitored("B1:P-", "B1:C-", {}).wires(SMALL, "B1:serial-ground - T1:B-").build(),
      at: "B1",
      reason: "barrier",
      missing: ["B1.isolated"],
    },
  ],
  doesNotApply: [
    { name: "nothing to pass beside", drawing: cart().build() },
    { name: "a shunt beside the drive's lead", drawing: counted("G1:-", "G1:-").build() },
    {
      name: "a switch in the minus lead and one in the plus lead",
      drawing: supplies(6)
        .part("Q1", "contactor", COIL)
        .part("Q2", "contactor", COIL)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none" })
        .wires(POWER, "G6:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - Q2:line", "Q2:load - G1:-")
        .wires(SMALL, "S1:ignition - T1:logic+", "T1:logic- - X9:stud", "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud")
        .wires(SMALL, "S1:ignition - Q2:coil+", "Q2:coil- - X9:stud")
        .build(),
    },
  ],
});
