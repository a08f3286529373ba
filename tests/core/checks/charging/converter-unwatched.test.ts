import { converterUnwatched } from "../../../../core/checks/charging/converter-unwatched.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL } from "../switching/vehicle.ts";
import { lampAt, withConverter } from "./twelve-volt.ts";

/** A relay held by the converter's own output ahead of a diode, whose break contact lights a lamp. */
const lampOfFailure = (contact: Readonly<Record<string, string>> | undefined = undefined) => {
  const sketch = cart({ controller: { logicCurrent: "100 mA" } })
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "15 A", enableInput: "none" })
    .part("R5", "diode", { current: "30 A", reverseVoltage: "100 V" })
    .part("K7", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("P7", "lamp", { voltage: "12 V", power: "2 W", needsPolarity: "no" })
    .wires(SMALL, "Q1:load - T2:in+", "T2:in- - T1:B-", "T2:out+ - R5:anode", "R5:cathode - G90:+", "T2:out- - X9:stud")
    .wires(SMALL, "T2:out+ - K7:coil+", "K7:coil- - X9:stud", "K7:nc - P7:+", "P7:- - X9:stud");
  return contact === undefined
    ? sketch.wire("S1:ignition", "K7:common", SMALL)
    : sketch.part("S6", "micro-switch", contact).wires(SMALL, "S1:ignition - S6:common", "S6:no - K7:common");
};

checkTable(converterUnwatched, {
  fails: [
    {
      name: "contactor's coil on one converter and its battery",
      drawing: withConverter("Q1:load").build(),
      at: "T2",
      message: "minutes",
      severity: "NOTICE",
    },
    {
      name: "a lamp that burns on the battery as well",
      drawing: lampAt(withConverter("F1:2"), "P1", "S1:ignition", "2 W").build(),
      at: "T2",
      message: "minutes",
      severity: "NOTICE",
    },
    {
      name: "a second battery of unstated capacity beside the first",
      drawing: withConverter("Q1:load")
        .part("G91", "battery-block", { chemistry: "flooded-lead", duty: "auxiliary" })
        .wires(SMALL, "G91:+ - F4:2", "G91:- - X9:stud")
        .build(),
      at: "T2",
      message: "unknown",
      severity: "NOTICE",
    },
  ],
  passes: [
    {
      name: "a voltmeter on the key",
      drawing: withConverter("Q1:load")
        .part("P2", "voltmeter", { rangeMax: "20 V" })
        .wires(SMALL, "S1:ignition - P2:+", "P2:- - X9:stud")
        .build(),
      at: "T2",
    },
    {
      name: "a gauge that measures the 12 V side",
      drawing: withConverter("Q1:load")
        .part("P2", "gauge", { isolated: "yes" })
        .wires(SMALL, "S1:ignition - P2:supply+", "P2:supply- - X9:stud", "F4:2 - P2:sense+", "P2:sense- - X9:stud")
        .build(),
      at: "T2",
    },
    { name: "a lamp that lights when the converter gives nothing", drawing: lampOfFailure().build(), at: "T2" },
  ],
  notChecked: [
    {
      name: "nobody says what moves the contact ahead of that lamp",
      drawing: lampOfFailure({}).build(),
      at: "T2",
      reason: "undecided",
      missing: ["S6.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no converter", drawing: cart().build() },
    {
      name: "two converters side by side",
      drawing: withConverter("Q1:load")
        .part("T4", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "6 A", enableInput: "none" })
        .wires(SMALL, "Q1:load - T4:in+", "T4:in- - T1:B-", "T4:out+ - F4:1", "T4:out- - X9:stud")
        .build(),
    },
  ],
});
