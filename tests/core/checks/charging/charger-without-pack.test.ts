import { chargerWithoutPack } from "../../../../core/checks/charging/charger-without-pack.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, POWER, SMALL, supplies } from "../switching/vehicle.ts";
import { CHARGER, chargerBehindDisconnect, chargerOnPack, withCharger } from "./vehicle.ts";

const BLIND = { batteryDetect: "no" } as const;

/** Charger on the load side of the main contactor. */
const onDrive = (charger: Readonly<Record<string, string>>) =>
  withCharger(charger).wires(SMALL, "Q1:load - F3:1", "F3:2 - T3:out+", "T3:out- - T1:B-");

/** Mains through an inlet and what the test puts between X5:L and T3:L. */
const inlet = () =>
  withCharger({ ...BLIND, mainsPlug: "no" }, { disconnect: null })
    .part("X5", "inlet", { inputVoltage: "230 V" })
    .wires(SMALL, "F1:2 - F3:1", "F3:2 - T3:out+", "T3:out- - G1:-", "X5:N - T3:N", "X5:PE - T3:PE", "X5:PE - X9:stud");

checkTable(chargerWithoutPack, {
  fails: [
    {
      name: "48 V boat: charger and drive on one bus behind the disconnect",
      drawing: chargerBehindDisconnect({ ...BLIND, outputVoltageMax: "58 V" }, { blocks: 4 }).build(),
      at: "T3:out+",
      message: "alone",
      severity: "WARNING",
      value: 58,
      remedies: ["detects-battery"],
    },
    {
      name: "charger on the controller's studs behind the open contactor",
      drawing: onDrive(BLIND).build(),
      at: "T3:out+",
      message: "alone",
      severity: "WARNING",
      value: 118,
    },
    {
      name: "converter on the charger's leads behind the disconnect",
      drawing: withCharger(BLIND)
        .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "30 A" })
        .wires(SMALL, "F1:2 - F3:1", "F3:2 - T3:out+", "T3:out- - G1:-")
        .wires(SMALL, "F3:2 - T2:in+", "T2:in- - G1:-", "T2:out+ - G90:+", "T2:out- - X9:stud")
        .build(),
      at: "T3:out+",
      message: "alone",
      severity: "WARNING",
    },
  ],
  passes: [
    {
      name: "it detects its battery",
      drawing: chargerBehindDisconnect({ batteryDetect: "yes" }).build(),
      at: "T3:out+",
    },
    { name: "ahead of the disconnect", drawing: chargerOnPack(BLIND).build(), at: "T3:out+" },
    {
      name: "the inhibit contact holds the main contactor off while plugged in",
      drawing: supplies(8)
        .part("F1", "fuse", { rating: "250 A" })
        .part("Q9", "manual-disconnect")
        .part("Q1", "contactor", COIL)
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", contactorDriver: "none" })
        .part("T3", "charger", { ...CHARGER, ...BLIND })
        .wires(POWER, "G8:+ - Q9:line", "Q9:load - F1:1", "F1:2 - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
        .wires(SMALL, "F1:2 - T3:out+", "T3:out- - G1:-", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
        .wires(SMALL, "S1:ignition - T3:inhibit-1", "T3:inhibit-2 - Q1:coil+", "Q1:coil- - X9:stud")
        .build(),
      at: "T3:out+",
    },
    {
      name: "the disconnect's second pole lies in the mains",
      drawing: inlet()
        .part("Q8", "manual-disconnect", { poles: "2" })
        .wires(POWER, "G8:+ - Q8:line", "Q8:load - F1:1")
        .wires(SMALL, "X5:L - Q8:line-2", "Q8:load-2 - T3:L")
        .build(),
      at: "T3:out+",
    },
  ],
  notChecked: [
    {
      name: "nobody says whether it detects its battery",
      drawing: onDrive({}).build(),
      at: "T3:out+",
      reason: "detection",
      missing: ["T3.batteryDetect"],
    },
    {
      name: "nobody says what it delivers",
      drawing: cart()
        .part("T3", "charger", { mainsPlug: "yes", isolated: "yes", batteryDetect: "no" })
        .wires(SMALL, "Q1:load - T3:out+", "T3:out- - T1:B-")
        .build(),
      at: "T3:out+",
      reason: "voltage",
      missing: ["T3.outputVoltageMax"],
    },
  ],
  doesNotApply: [{ name: "no charger", drawing: cart().build() }],
});
