import { assistLostWithStop } from "../../../../core/checks/controls/assist-lost-with-stop.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL, supplies } from "../switching/vehicle.ts";

const pump = (from: string, purpose: Readonly<Record<string, string>> = { purpose: "brake-assist" }, stop = true) =>
  cart({ stop })
    .part("M2", "pump", { voltage: "12 V", power: "60 W", needsPolarity: "no", ...purpose })
    .wires(SMALL, `${from} - M2:+`, "M2:- - X9:stud");

checkTable(assistLostWithStop, {
  fails: [
    {
      name: "no emergency stop, the pump goes with the key",
      drawing: pump("S1:ignition", { purpose: "brake-assist" }, false).build(),
      at: "M2:+",
      message: "lost",
      severity: "NOTICE",
    },
    {
      name: "pump behind the emergency stop",
      drawing: pump("S2:12").build(),
      at: "M2:+",
      message: "lost",
      severity: "NOTICE",
    },
    {
      name: "power steering on the bus behind the contactor",
      drawing: cart()
        .part("E2", "load", { voltage: "96 V", power: "500 W", needsPolarity: "no", purpose: "steering-assist" })
        .wires(SMALL, "Q1:load - E2:+", "E2:- - G1:-")
        .build(),
      at: "E2:+",
      message: "lost",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "pump on the constant feed", drawing: pump("F9:2").build(), at: "M2:+" },
    { name: "pump behind the key, the stop takes the drive alone", drawing: pump("S1:ignition").build(), at: "M2:+" },
    {
      name: "no emergency stop, pump on the constant feed",
      drawing: pump("F9:2", { purpose: "steering-assist" }, false).build(),
      at: "M2:+",
    },
  ],
  notChecked: [
    {
      name: "nobody says what the pump is for",
      drawing: pump("S2:12", {}).build(),
      at: "M2:+",
      reason: "purpose",
      missing: ["M2.purpose"],
    },
  ],
  doesNotApply: [
    { name: "a pump for coolant", drawing: pump("S2:12", { purpose: "other" }).build() },
    { name: "nothing that assists", drawing: cart().build() },
    { name: "no drive", drawing: supplies(2).build() },
  ],
});
