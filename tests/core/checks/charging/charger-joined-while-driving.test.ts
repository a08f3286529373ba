import { chargerJoinedWhileDriving } from "../../../../core/checks/charging/charger-joined-while-driving.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL } from "../switching/vehicle.ts";
import { chargerOnPack, withCharger } from "./vehicle.ts";

/** A charge relay in the charger's plus whose coil hangs where the test says. */
const relayed = () =>
  withCharger()
    .part("K3", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .wires(SMALL, "F1:2 - F3:1", "F3:2 - K3:common", "K3:no - T3:out+", "T3:out- - G1:-");

checkTable(chargerJoinedWhileDriving, {
  fails: [
    {
      name: "charger straight on the pack",
      drawing: chargerOnPack().build(),
      at: "T3:out+",
      message: "joined",
      severity: "NOTICE",
    },
    {
      name: "charger on the controller's studs",
      drawing: withCharger().wires(SMALL, "Q1:load - F3:1", "F3:2 - T3:out+", "T3:out- - T1:B-").build(),
      at: "T3:out+",
      message: "joined",
      severity: "NOTICE",
    },
    {
      name: "charge relay that the key pulls in as well",
      drawing: relayed().wires(SMALL, "S1:ignition - K3:coil+", "K3:coil- - X9:stud").build(),
      at: "T3:out+",
      message: "joined",
      severity: "NOTICE",
    },
    {
      name: "diode the wrong way round for this purpose: it lets the pack reach the charger",
      drawing: withCharger()
        .part("R5", "diode", { current: "20 A", reverseVoltage: "400 V" })
        .part("R6", "resistor", { resistance: "10 kohm", power: "10 W" })
        .wires(SMALL, "F1:2 - F3:1", "F3:2 - R5:anode", "R5:cathode - T3:out+", "T3:out- - G1:-")
        .wires(SMALL, "T3:out+ - R6:1", "R6:2 - T3:out-")
        .build(),
      at: "T3:out+",
      message: "joined",
      severity: "NOTICE",
    },
  ],
  passes: [
    {
      name: "charge relay on the charger's own 12 V",
      drawing: relayed().wires(SMALL, "T3:aux+ - K3:coil+", "K3:coil- - T3:aux-").build(),
      at: "T3:out+",
    },
    {
      name: "diode towards the pack",
      drawing: withCharger()
        .part("R5", "diode", { current: "20 A", reverseVoltage: "400 V" })
        .wires(SMALL, "F1:2 - F3:1", "T3:out+ - R5:anode", "R5:cathode - F3:2", "T3:out- - G1:-")
        .build(),
      at: "T3:out+",
    },
    {
      name: "charge relay on the flap",
      drawing: relayed()
        .part("S4", "micro-switch", { actuator: "charge-flap" })
        .wires(SMALL, "F9:2 - S4:common", "S4:no - K3:coil+", "K3:coil- - X9:stud")
        .build(),
      at: "T3:out+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what moves the contact at the charge relay",
      drawing: relayed()
        .part("S4", "micro-switch")
        .wires(SMALL, "F9:2 - S4:common", "S4:no - K3:coil+", "K3:coil- - X9:stud")
        .build(),
      at: "T3:out+",
      reason: "undecided",
      missing: ["S4.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no charger", drawing: cart().build() },
    {
      name: "a charger of the 12 V battery alone",
      drawing: withCharger({ outputVoltageMax: "14.4 V" }).wires(SMALL, "F9:2 - T3:out+", "T3:out- - X9:stud").build(),
    },
  ],
});
