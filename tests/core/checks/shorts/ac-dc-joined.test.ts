import { acDcJoined } from "../../../../core/checks/shorts/ac-dc-joined.ts";
import { drawing } from "../../../harness/drawing.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { earthedWhileCharging, SMALL, string } from "../known-good.ts";
import { splitPack } from "../known-good-packs.ts";

/** Flooded pack of 144 V that leaks a little, charger without isolation. */
const leaking = (charger: Readonly<Record<string, string>>) => {
  const sketch = string(drawing(), 12);
  return sketch
    .part("T3", "charger", {
      chemistry: "flooded-lead",
      mainsPlug: "yes",
      outputVoltageMax: "178 V",
      outputCurrentMax: "10 A",
      isolated: "no",
      ...charger,
    })
    .wires(SMALL, "T3:out+ - G12:+", "T3:out- - G1:-")
    .build();
};

checkTable(acDcJoined, {
  fails: [
    {
      name: "neutral on the chassis",
      drawing: earthedWhileCharging().wire("X2:N", "X1:stud", SMALL).build(),
      at: "X2:N",
      message: "joined",
      severity: "DANGER",
    },
    {
      name: "neutral on the pack's minus",
      drawing: earthedWhileCharging().wire("T3:N", "G1:-", SMALL).build(),
      at: "X2:N",
      message: "joined",
      severity: "DANGER",
    },
    {
      name: "mains through a relay that the 12 V side shares",
      drawing: earthedWhileCharging()
        .part("K6", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .wires(SMALL, "K6:common - X2:L", "K6:nc - G20:+", "K6:coil+ - S9:12", "K6:coil- - X1:stud")
        .build(),
      at: "X2:L",
      message: "joined",
      severity: "DANGER",
    },
    {
      name: "charger without isolation on a circuit with a residual-current device",
      drawing: leaking({ residualCurrentDevice: "yes" }),
      at: "T3",
      message: "insideProtected",
      severity: "NOTICE",
    },
    {
      name: "charger without isolation, the device at the inlet",
      drawing: earthedWhileCharging({ isolated: "no", residualCurrentDevice: "yes" }).build(),
      at: "T3",
      message: "insideProtected",
      severity: "NOTICE",
    },
    {
      name: "charger without isolation and without a device",
      drawing: leaking({ residualCurrentDevice: "no" }),
      at: "T3",
      message: "inside",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "charger with isolation, earth on the chassis", drawing: earthedWhileCharging().build(), at: ["T3", "X2"] },
    { name: "charger with a cord of its own", drawing: splitPack().build(), at: "T3" },
    {
      name: "a monitor's relay in the mains lead",
      drawing: earthedWhileCharging()
        .part("K6", "relay", { coilVoltage: "12 V", coilResistance: "90 ohm" })
        .part("P1", "lamp", { voltage: "230 V", power: "1 W" })
        .wires(SMALL, "K6:coil+ - S9:12", "K6:coil- - X1:stud", "K6:common - X2:L", "K6:no - P1:+", "P1:- - X2:N")
        .build(),
      at: "T3",
    },
  ],
  notChecked: [
    {
      name: "isolation unstated",
      drawing: earthedWhileCharging({}).build(),
      at: "T3",
      reason: "isolation",
      missing: ["T3.isolated"],
    },
  ],
  doesNotApply: [{ name: "no charger", drawing: string(drawing(), 4).build() }],
});
