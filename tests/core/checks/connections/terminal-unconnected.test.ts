import { terminalUnconnected } from "../../../../core/checks/connections/terminal-unconnected.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { tug } from "../../../references/tug.ts";

/** A 12 V battery with its minus on the body. */
const battery = () =>
  drawing()
    .part("G20", "battery-block", { chemistry: "agm-lead", capacity: "22 Ah" })
    .part("X1", "chassis-point", { structure: "body" })
    .defaults({ size: "2.5 mm2", length: "1 m" })
    .wire("G20:-", "X1:stud");

/** Lamp through a relay; `contact` are the wires of the relay's contact. */
const relayLamp = (...contact: readonly string[]) =>
  battery()
    .part("K1", "relay")
    .part("P1", "lamp", { voltage: "12 V", power: "20 W" })
    .wires({}, "G20:+ - K1:coil+", "K1:coil- - X1:stud", "P1:- - X1:stud", ...contact)
    .build();

const controller = (parameters: Readonly<Record<string, string>>, ...wires: readonly string[]) =>
  battery()
    .parts("battery-block", { chemistry: "agm-lead" }, "G1", "G2")
    .part("T1", "dc-controller", parameters)
    .part("M1", "motor-permanent-magnet")
    .part("B1", "throttle-three-wire")
    .wires({}, "G2:+ - T1:B+", "G1:- - T1:B-", "G1:+ - G2:-", "T1:B+ - M1:+", "T1:M- - M1:-", "G20:+ - T1:logic+")
    .wires({}, ...wires)
    .build();

const THREE = ["B1:high - T1:throttle-1", "B1:wiper - T1:throttle-2", "B1:low - T1:throttle-3"];

checkTable(terminalUnconnected, {
  fails: [
    {
      name: "coil without its return",
      drawing: battery()
        .part("Q1", "contactor")
        .part("P1", "lamp")
        .wires({}, "G20:+ - Q1:line", "Q1:load - P1:+", "P1:- - X1:stud", "G20:+ - Q1:coil+")
        .build(),
      at: "Q1:coil-",
      message: "needed",
      severity: "WARNING",
    },
    {
      name: "the converter's minus crimp has come off",
      drawing: battery()
        .parts("battery-block", { chemistry: "lifepo4", cells: "15" }, "G1")
        .part("T2", "dc-dc-converter", { isolated: "yes", enableInput: "none" })
        .wires({}, "G1:+ - T2:in+", "G1:- - T2:in-", "T2:out+ - G20:+")
        .wire("T2:out-", null)
        .build(),
      at: "T2:out-",
      message: "needed",
      severity: "WARNING",
    },
    {
      name: "controller on an isolated 12 V supply without its logic return",
      drawing: controller({ logicFeed: "isolated-12v" }, ...THREE),
      at: "T1:logic-",
      message: "needed",
      severity: "WARNING",
    },
    {
      name: "a lamp that nothing is wired to",
      drawing: battery().parts("lamp", {}, "P1", "P2").wires({}, "G20:+ - P2:+", "P2:- - X1:stud").build(),
      at: "P1:+",
      message: "bare",
      severity: "WARNING",
      except: {},
    },
    {
      name: "auxiliary contact with one end",
      drawing: battery()
        .part("Q1", "contactor")
        .part("P1", "lamp")
        .wires({}, "G20:+ - Q1:line", "Q1:load - P1:+", "P1:- - X1:stud", "G20:+ - Q1:coil+", "Q1:coil- - X1:stud")
        .wire("G20:+", "Q1:aux-1")
        .build(),
      at: "Q1:aux-2",
      message: "partner",
      severity: "NOTICE",
    },
    {
      name: "a relay's common end is fed and leads nowhere",
      drawing: relayLamp("G20:+ - K1:common", "G20:+ - P1:+"),
      at: "K1:no",
      message: "partner",
      severity: "NOTICE",
    },
    {
      name: "three-wire throttle without its return",
      drawing: controller(
        { logicFeed: "isolated-12v", throttleInput: "divider" },
        "T1:logic- - X1:stud",
        "B1:low - X1:stud",
        ...THREE.slice(0, 2),
      ),
      at: "T1:throttle-3",
      message: "partner",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "a whole tug", drawing: tug(), at: ["Q1:coil-", "T1:logic-", "S1:battery", "R1:2"] },
    {
      name: "a relay used by its resting contact alone",
      drawing: relayLamp("G20:+ - K1:common", "K1:nc - P1:+"),
      at: ["K1:common"],
    },
    {
      name: "a controller fed from the pack needs no logic return",
      drawing: controller({ logicFeed: "pack-fed" }, ...THREE),
      at: ["T1:logic+"],
    },
    {
      name: "a charger with its own cord needs no mains terminals",
      drawing: battery()
        .part("T3", "charger", { mainsPlug: "yes", outputVoltageMax: "14.4 V" })
        .wires({}, "T3:out+ - G20:+", "T3:out- - G20:-")
        .build(),
      at: ["T3:out+", "T3:out-"],
    },
  ],
  notChecked: [
    {
      name: "nobody said whether the charger has its own cord",
      drawing: battery()
        .part("T3", "charger", { outputVoltageMax: "14.4 V" })
        .wires({}, "T3:out+ - G20:+", "T3:out- - G20:-")
        .build(),
      at: "T3:L",
      reason: "undecided",
      missing: ["T3.mainsPlug"],
    },
  ],
  doesNotApply: [
    {
      name: "nothing but a chassis stud",
      drawing: drawing().part("X1", "chassis-point").part("R1", "resistor").build(),
    },
  ],
});
