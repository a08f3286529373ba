import { senseSideWrong } from "../../../../core/checks/charging/sense-side-wrong.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { cart, SMALL } from "../switching/vehicle.ts";

/** The cart with a sense lead from where the test says, for a controller that asks for a side. */
const sensed = (from: string, controller: Readonly<Record<string, string>>, disconnect: null | undefined = undefined) =>
  cart({
    controller,
    contactor: { contactVoltage: "200 V" },
    ...(disconnect === null ? { disconnect } : {}),
  })
    .part("F5", "fuse", { rating: "2 A" })
    .wires(SMALL, `${from} - F5:1`, "F5:2 - T1:pack-sense");

checkTable(senseSideWrong, {
  fails: [
    {
      name: "battery sense on the load side of the contactor",
      drawing: cart({ controller: { packSense: "source-side" } })
        .wire("T1:pack-sense", "Q1:load", SMALL)
        .build(),
      at: "T1:pack-sense",
      message: "load",
      severity: "WARNING",
      remedies: ["other-side"],
    },
    {
      name: "sense by way of a fuse from the controller's own stud",
      drawing: sensed("T1:B+", { packSense: "source-side" }).build(),
      at: "T1:pack-sense",
      message: "load",
      severity: "WARNING",
      remedies: [],
    },
    {
      name: "bus sense on the battery's side",
      drawing: sensed("F1:2", { packSense: "load-side" }).build(),
      at: "T1:pack-sense",
      message: "source",
      severity: "WARNING",
    },
    {
      name: "bus sense straight on the contactor's battery side",
      drawing: cart({ disconnect: null, controller: { packSense: "load-side" } })
        .wire("Q1:line", "T1:pack-sense", SMALL)
        .build(),
      at: "T1:pack-sense",
      message: "source",
      severity: "WARNING",
      remedies: ["other-side"],
    },
  ],
  passes: [
    {
      name: "battery sense on the battery's side",
      drawing: sensed("F1:2", { packSense: "source-side" }).build(),
      at: "T1:pack-sense",
    },
    {
      name: "bus sense on the load side",
      drawing: sensed("Q1:load", { packSense: "load-side" }).build(),
      at: "T1:pack-sense",
    },
    {
      name: "battery sense through the key switch",
      drawing: cart({ controller: { packSense: "source-side" } })
        .part("S4", "key-switch", { contactVoltage: "200 V" })
        .wires(SMALL, "F1:2 - S4:battery", "S4:ignition - T1:pack-sense")
        .part("S5", "micro-switch", { actuator: "throttle-pedal" })
        .build(),
    },
  ],
  notChecked: [
    {
      name: "nobody says which side it has to be on",
      drawing: sensed("F1:2", {}).build(),
      at: "T1:pack-sense",
      reason: "unstated",
      missing: ["T1.packSense"],
    },
  ],
  doesNotApply: [
    { name: "no sense lead", drawing: cart({ controller: { packSense: "source-side" } }).build() },
    {
      name: "nothing opens between pack and controller",
      drawing: cart({ disconnect: null, stop: false, controller: { packSense: "source-side" } })
        .wires(SMALL, "Q1:line - Q1:load", "F1:2 - T1:pack-sense")
        .build(),
    },
  ],
});
