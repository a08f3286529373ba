import { startUpLoop } from "../../../../core/checks/charging/start-up-loop.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, COIL, SMALL } from "../switching/vehicle.ts";
import { withConverter } from "./twelve-volt.ts";

/** The converter behind a contactor of its own, whose coil hangs where the test says. */
const keyed = (coil: string) =>
  cart()
    .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "15 A", enableInput: "none" })
    .part("Q4", "contactor", COIL)
    .parts("fuse", { rating: "10 A" }, "F4", "F6")
    .wires(SMALL, "F1:2 - F6:1", "F6:2 - Q4:line", "Q4:load - T2:in+", "T2:in- - T1:B-", "T2:out+ - F4:1")
    .wires(SMALL, "F4:2 - G90:+", "T2:out- - X9:stud", `${coil} - Q4:coil+`, "Q4:coil- - X9:stud");

checkTable(startUpLoop, {
  fails: [
    {
      name: "converter behind a contactor on the key",
      drawing: keyed("S1:ignition").build(),
      at: "T2",
      message: "loop",
      severity: "NOTICE",
    },
    {
      name: "converter behind the main contactor",
      drawing: withConverter("Q1:load").build(),
      at: "T2",
      message: "loop",
      severity: "NOTICE",
    },
    {
      name: "converter on the pack that the key enables from the 12 V battery",
      drawing: withConverter("F1:2", { enableInput: "active-high" }).wire("S1:ignition", "T2:enable", SMALL).build(),
      at: "T2",
      message: "loop",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "converter always on the pack", drawing: withConverter("F1:2").build(), at: "T2" },
    {
      name: "a charger of its own for the 12 V battery",
      drawing: keyed("S1:ignition")
        .part("T5", "charger", {
          mainsPlug: "yes",
          isolated: "yes",
          outputVoltageMax: "14.4 V",
          outputCurrentMax: "5 A",
        })
        .wires(SMALL, "T5:out+ - F4:2", "T5:out- - X9:stud")
        .build(),
      at: "T2",
    },
    {
      name: "a switch of the dashboard puts the pack on the converter",
      drawing: cart()
        .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "15 A", enableInput: "none" })
        .part("S6", "switch", { contactVoltage: "150 V", contactCurrent: "10 A" })
        .wires(SMALL, "F1:2 - S6:common", "S6:out - T2:in+", "T2:in- - T1:B-", "T2:out+ - G90:+", "T2:out- - X9:stud")
        .build(),
      at: "T2",
    },
  ],
  notChecked: [
    {
      name: "nobody says whether it needs its enable input",
      drawing: cart()
        .part("T2", "dc-dc-converter", { isolated: "yes", outputCurrentMax: "15 A" })
        .wires(SMALL, "F1:2 - T2:in+", "T2:in- - T1:B-", "T2:out+ - G90:+", "T2:out- - X9:stud")
        .build(),
      at: "T2",
      reason: "enable",
      missing: ["T2.enableInput"],
    },
  ],
  doesNotApply: [{ name: "no converter", drawing: cart().build() }],
});
