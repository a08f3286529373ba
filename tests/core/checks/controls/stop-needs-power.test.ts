import { stopNeedsPower } from "../../../../core/checks/controls/stop-needs-power.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { inverter320 } from "../known-good.ts";
import { cart, COIL, POWER, SMALL, stepCar, supplies, twoBoxes } from "../switching/vehicle.ts";
import { boat } from "./vehicle.ts";

const RELAY = { coilVoltage: "12 V", coilResistance: "90 ohm" } as const;

/** A boat whose lanyard has to pull a relay in before the motor current stops. */
const lanyard = () =>
  supplies(2)
    .part("F1", "fuse", { rating: "100 A" })
    .part("F2", "fuse", { rating: "5 A" })
    .part("Q1", "contactor", COIL)
    .part("S2", "emergency-stop", { contact: "make" })
    .part("K1", "relay", { coilVoltage: "24 V", coilResistance: "300 ohm", contactCurrent: "50 A" })
    .part("M1", "motor-permanent-magnet", { currentContinuous: "40 A", resistance: "0.5 ohm" })
    .wires(POWER, "G2:+ - F1:1", "F1:2 - Q1:line", "Q1:load - K1:common", "K1:nc - M1:+", "M1:- - G1:-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud", "F1:2 - F2:1", "F2:2 - S2:11", "S2:12 - K1:coil+")
    .wire("K1:coil-", "G1:-", SMALL);

/** The stop feeds a relay whose break contact lies in the coil's feed. */
const relayed = () =>
  boat(null)
    .part("S2", "emergency-stop", { contact: "make" })
    .part("K1", "relay", RELAY)
    .wires(SMALL, "F9:2 - S2:11", "S2:12 - K1:coil+", "K1:coil- - X9:stud")
    .wires(SMALL, "S1:ignition - K1:common", "K1:nc - Q1:coil+");

checkTable(stopNeedsPower, {
  fails: [
    {
      name: "lanyard relay in the motor's lead",
      drawing: lanyard().build(),
      at: "S2",
      message: "energised",
      severity: "WARNING",
    },
    {
      name: "relay in the coil's feed",
      drawing: relayed().build(),
      at: "S2",
      message: "energised",
      severity: "WARNING",
    },
    {
      name: "stop that feeds the brake input alone",
      drawing: cart({ stop: false })
        .part("S2", "emergency-stop", { contact: "make" })
        .wires(SMALL, "S1:ignition - S2:11", "S2:12 - T1:brake")
        .build(),
      at: "S2",
      message: "energised",
      severity: "WARNING",
    },
    {
      name: "crash switch whose make contact feeds a relay",
      drawing: boat(null)
        .part("S5", "inertia-switch")
        .part("K1", "relay", RELAY)
        .wires(SMALL, "F9:2 - S5:common", "S5:no - K1:coil+", "K1:coil- - X9:stud")
        .wires(SMALL, "S1:ignition - K1:common", "K1:nc - Q1:coil+")
        .build(),
      at: "S5",
      message: "energised",
      severity: "WARNING",
      except: { contact: "The contact that is drawn in is an inertia switch and a stop of its own." },
    },
  ],
  passes: [
    { name: "break contact in the coil's feed", drawing: cart().build(), at: "S2" },
    { name: "interlock loop of two boxes", drawing: twoBoxes().build(), at: ["S9", "S5"] },
    { name: "inverter that closes its own contactor", drawing: inverter320().build(), at: "S9" },
    { name: "step car on contactors", drawing: stepCar().build(), at: "S9" },
    {
      name: "a stop of two break contacts, in coil and logic",
      drawing: boat(null)
        .part("S2", "emergency-stop", { contacts: "2" })
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(
          SMALL,
          "S1:ignition - S2:11",
          "S2:12 - Q1:coil+",
          "S1:ignition - S2:21",
          "S2:22 - P1:+",
          "P1:- - X9:stud",
        )
        .build(),
      at: "S2",
    },
  ],
  notChecked: [
    {
      name: "nobody says what moves a contact in the chain",
      drawing: cart()
        .part("S4", "micro-switch")
        .wires(SMALL, "S1:ignition - S4:common", "S4:no - T1:interlock")
        .build(),
      at: "S2",
      reason: "never",
      missing: ["S4.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no stop", drawing: cart({ stop: false }).build() },
    {
      name: "a stop that stops nothing",
      drawing: cart({ stop: false })
        .part("S2", "emergency-stop")
        .part("P1", "lamp", { voltage: "12 V", power: "5 W" })
        .wires(SMALL, "F9:2 - S2:11", "S2:12 - P1:+", "P1:- - X9:stud")
        .build(),
    },
    { name: "no drive", drawing: supplies(2).part("S2", "emergency-stop").wire("F9:2", "S2:11", SMALL).build() },
  ],
});
