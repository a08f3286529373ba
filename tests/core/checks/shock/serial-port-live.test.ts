import { serialPortLive } from "../../../../core/checks/shock/serial-port-live.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

interface Parts {
  readonly controller?: Parameters;
  readonly display?: Parameters;
}

/** A display on the serial port of a pack-fed controller; `feed` wires its supply. */
const cart = ({ controller, display }: Parts) =>
  withTwelveVolts(pack(12))
    .part("T1", "dc-controller", { logicFeed: "pack-fed", currentContinuous: "100 A", ...controller })
    .part("P1", "display", display ?? {})
    .wires(HEAVY, "G12:+ - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "G12:+ - T1:logic+", "T1:serial-ground - P1:serial-ground", "T1:serial-tx - P1:serial-rx");

const LIVE = { serialIsolated: "no" };
const onTwelve = ["F20:2 - P1:supply+", "P1:supply- - X1:stud"];

checkTable(serialPortLive, {
  fails: [
    {
      name: "a display on the 12 V side",
      drawing: cart({ controller: LIVE, display: { isolated: "no" } })
        .wires(SMALL, ...onTwelve)
        .build(),
      at: "T1:serial-ground",
      message: "live",
      severity: "DANGER",
      value: 177.84,
    },
    {
      name: "a computer behind a booster from 12 V to 20 V that has one minus",
      drawing: cart({ controller: LIVE, display: { isolated: "no" } })
        .part("T4", "dc-dc-converter", { isolated: "no", outputVoltage: "20 V", outputCurrentMax: "5 A" })
        .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud", "T4:out+ - P1:supply+", "T4:out- - P1:supply-")
        .build(),
      at: "T1:serial-ground",
      message: "live",
      severity: "DANGER",
    },
    {
      name: "a battery monitor without isolation tells a control unit on the 12 V side",
      drawing: withTwelveVolts(pack(8))
        .part("B1", "battery-monitor", { isolated: "no" })
        .part("K5", "control-unit", { inputs: "1", outputs: "1" })
        .wires(HEAVY, "G1:- - B1:B-")
        .wires(SMALL, "B1:pack+ - G8:+", "B1:serial-ground - K5:serial-ground", "B1:serial-tx - K5:serial-rx")
        .wires(SMALL, "F20:2 - K5:supply+", "K5:supply- - X1:stud")
        .build(),
      at: "B1:serial-ground",
      message: "live",
      severity: "DANGER",
    },
  ],
  passes: [
    {
      name: "an isolated port",
      drawing: cart({ controller: { serialIsolated: "yes" }, display: { isolated: "no" } })
        .wires(SMALL, ...onTwelve)
        .build(),
      at: "T1:serial-ground",
    },
    {
      name: "a display that isolates its serial line",
      drawing: cart({ controller: LIVE, display: { isolated: "yes" } })
        .wires(SMALL, ...onTwelve)
        .build(),
      at: "T1:serial-ground",
    },
    {
      name: "a display with an isolated converter of its own",
      drawing: cart({ controller: LIVE, display: { isolated: "no" } })
        .part("T4", "dc-dc-converter", { isolated: "yes", outputVoltage: "12 V", outputCurrentMax: "1 A" })
        .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud", "T4:out+ - P1:supply+", "T4:out- - P1:supply-")
        .build(),
      at: "T1:serial-ground",
    },
  ],
  notChecked: [
    {
      name: "a port of which nobody said whether it isolates",
      drawing: cart({ display: { isolated: "no" } })
        .wires(SMALL, ...onTwelve)
        .build(),
      at: "T1:serial-ground",
      reason: "barrier",
      missing: ["T1.serialIsolated"],
    },
    {
      name: "a display of which nobody said whether it isolates",
      drawing: cart({ controller: LIVE })
        .wires(SMALL, ...onTwelve)
        .build(),
      at: "T1:serial-ground",
      reason: "barrier",
      missing: ["P1.isolated"],
    },
    {
      name: "a converter of which nobody said whether it isolates",
      drawing: cart({ controller: LIVE, display: { isolated: "no" } })
        .part("T4", "dc-dc-converter", { outputVoltage: "12 V", outputCurrentMax: "1 A" })
        .wires(SMALL, "F20:2 - T4:in+", "T4:in- - X1:stud", "T4:out+ - P1:supply+", "T4:out- - P1:supply-")
        .build(),
      at: "T1:serial-ground",
      reason: "barrier",
      missing: ["T4.isolated"],
    },
  ],
  doesNotApply: [
    {
      name: "a port that is not wired",
      drawing: pack(4).part("T1", "dc-controller", LIVE).wires(HEAVY, "G4:+ - T1:B+", "T1:B- - G1:-").build(),
    },
  ],
});
