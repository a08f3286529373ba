import { chargerLiveAtDisconnect } from "../../../../core/checks/charging/charger-live-at-disconnect.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL } from "../switching/vehicle.ts";
import { chargerBehindDisconnect, chargerOnPack, withCharger } from "./vehicle.ts";

/** A charge relay between pack and charger whose coil hangs where the test says. */
const relayed = (coil: string, actuator: Readonly<Record<string, string>>) =>
  withCharger()
    .part("K3", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
    .part("S4", "micro-switch", actuator)
    .wires(SMALL, "G8:+ - F3:1", "F3:2 - K3:common", "K3:no - T3:out+", "T3:out- - G1:-")
    .wires(SMALL, "F9:2 - S4:common", `${coil} - K3:coil+`, "K3:coil- - X9:stud");

checkTable(chargerLiveAtDisconnect, {
  fails: [
    {
      name: "36 V tractor, leads of the charger on the battery's side without a fuse",
      drawing: withCharger({ outputVoltageMax: "44.4 V" }, { blocks: 3 })
        .wires(SMALL, "T3:out+ - G3:+", "T3:out- - G1:-")
        .build(),
      at: "T3:out+",
      message: "unfused",
      severity: "WARNING",
      value: 3 * 6 * 2.47,
      remedies: ["behind-disconnect"],
    },
    {
      name: "leads behind a fuse, ahead of the disconnect",
      drawing: chargerOnPack().build(),
      at: "T3:out+",
      message: "fused",
      severity: "NOTICE",
      value: 8 * 6 * 2.47,
      remedies: [],
    },
    {
      name: "disconnect with two poles, the charger ahead of both",
      drawing: withCharger({}, { disconnect: null })
        .part("Q8", "manual-disconnect", { poles: "2" })
        .wires(SMALL, "F1:2 - Q8:line", "G1:- - Q8:line-2", "F1:2 - T3:out+", "T3:out- - Q8:line-2")
        .build(),
      at: "T3:out+",
      message: "fused",
      severity: "NOTICE",
    },
    {
      name: "charge relay on a contact that stays closed with the flap shut",
      drawing: relayed("S4:nc", { actuator: "charge-flap" }).build(),
      at: "T3:out+",
      message: "fused",
      severity: "NOTICE",
    },
    {
      name: "fuse in the pack's plus only ahead of the drive, the charger beside it",
      drawing: withCharger().wires(SMALL, "Q9:line - T3:out+", "T3:out- - G1:-").build(),
      at: "T3:out+",
      message: "unfused",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "charger behind the disconnect", drawing: chargerBehindDisconnect().build(), at: "T3:out+" },
    { name: "charge relay that only the flap closes", drawing: relayed("S4:no", { actuator: "charge-flap" }).build() },
    {
      name: "charge relay on the charger's own 12 V",
      drawing: withCharger()
        .part("K3", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .wires(SMALL, "G8:+ - F3:1", "F3:2 - K3:common", "K3:no - T3:out+", "T3:out- - G1:-")
        .wires(SMALL, "T3:aux+ - K3:coil+", "K3:coil- - T3:aux-")
        .build(),
      at: "T3:out+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what moves the contact at the charge relay",
      drawing: relayed("S4:no", {}).build(),
      at: "T3:out+",
      reason: "undecided",
      missing: ["S4.actuator"],
    },
  ],
  doesNotApply: [
    { name: "no charger", drawing: cart().build() },
    { name: "no disconnect", drawing: chargerOnPack({}, { disconnect: null }).build() },
    {
      name: "a charger of the 12 V battery alone",
      drawing: withCharger({ outputVoltageMax: "14.4 V" }).wires(SMALL, "F9:2 - T3:out+", "T3:out- - X9:stud").build(),
    },
  ],
});
