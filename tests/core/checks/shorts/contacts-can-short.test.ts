import { contactsCanShort } from "../../../../core/checks/shorts/contacts-can-short.ts";
import { checkTable } from "../../../harness/check-table.ts";
import type { Drawing } from "../../../harness/drawing.ts";
import { drawing } from "../../../harness/drawing.ts";

const THICK = {
  size: "50 mm2",
  length: "0.5 m",
  insulation: { material: "XLPE", volts: "600 V", temperature: "105 C" },
};
const THIN = { size: "1.5 mm2", length: "0.5 m", insulation: { material: "PVC", volts: "60 V", temperature: "105 C" } };
const COIL = { coilVoltage: "12 V", coilPower: "12 W" };

/** A pack, a 12 V battery, and a selector that chooses between two coils. */
const base = (): Drawing =>
  drawing()
    .parts("battery-block", { duty: "traction", chemistry: "flooded-lead", resistance: "5 mohm" }, "G1", "G2")
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", resistance: "5 mohm" })
    .part("S2", "selector-switch", {})
    .wires(THIN, "G20:+ - S2:common");

/** Two contactors of two poles turn a motor round; with break contacts in each other's coil, or without, or in one only. */
const bridge = (interlock: "none" | "both" | "one") => {
  const aux = { aux: "break", poles: "2", ...COIL };
  const made = base()
    .part("M1", "motor-permanent-magnet", { currentContinuous: "50 A", resistance: "50 mohm" })
    .parts("contactor", interlock === "none" ? { poles: "2", ...COIL } : aux, "Q2", "Q3")
    .wires(THICK, "G1:+ - G2:-", "G2:+ - Q2:line", "G2:+ - Q3:line", "Q2:load - M1:+", "Q3:load - M1:-")
    .wires(THICK, "G1:- - Q2:line-2", "G1:- - Q3:line-2", "Q2:load-2 - M1:-", "Q3:load-2 - M1:+")
    .wires(THIN, "Q2:coil- - G20:-", "Q3:coil- - G20:-");
  if (interlock === "none") made.wires(THIN, "S2:a - Q2:coil+", "S2:b - Q3:coil+");
  else {
    made.wires(THIN, "S2:a - Q3:aux-1", "Q3:aux-2 - Q2:coil+");
    if (interlock === "both") made.wires(THIN, "S2:b - Q2:aux-1", "Q2:aux-2 - Q3:coil+");
    else made.wires(THIN, "S2:b - Q3:coil+");
  }
  return made.build();
};

/** Two blocks that relays put side by side or one behind the other: both at once short one of them. */
const steps = (interlocked: boolean) => {
  const part = interlocked ? { aux: "break", ...COIL } : COIL;
  const made = base()
    .parts("contactor", part, "Q2", "Q3", "Q4")
    .part("E1", "heater", { voltage: "24 V", power: "500 W" })
    .wires(THICK, "G1:- - Q2:load", "Q2:line - G2:-", "G1:+ - Q3:line", "Q3:load - G2:+")
    .wires(THICK, "G1:+ - Q4:line", "Q4:load - G2:-", "G2:+ - E1:+", "E1:- - G1:-")
    .wires(THIN, "Q2:coil- - G20:-", "Q3:coil- - G20:-", "Q4:coil- - G20:-");
  if (!interlocked) made.wires(THIN, "S2:a - Q2:coil+", "S2:a - Q3:coil+", "S2:b - Q4:coil+");
  else {
    made
      .wires(THIN, "S2:a - Q4:aux-1", "Q4:aux-2 - Q2:coil+", "Q4:aux-2 - Q3:coil+")
      .wires(THIN, "S2:b - Q2:aux-1", "Q2:aux-2 - Q3:aux-1", "Q3:aux-2 - Q4:coil+");
  }
  return made.build();
};

/** Two changeover contactors turn the motor round: no two positions of them short anything. */
const changeover = () =>
  base()
    .part("M1", "motor-permanent-magnet", { currentContinuous: "50 A", resistance: "50 mohm" })
    .parts("changeover-contactor", COIL, "Q2", "Q3")
    .wires(THICK, "G1:+ - G2:-", "M1:+ - Q2:common", "M1:- - Q3:common")
    .wires(THICK, "G2:+ - Q2:no", "G2:+ - Q3:no", "G1:- - Q2:nc", "G1:- - Q3:nc")
    .wires(THIN, "S2:a - Q2:coil+", "S2:b - Q3:coil+", "Q2:coil- - G20:-", "Q3:coil- - G20:-")
    .build();

/** As `bridge`, with relays whose coils are on 12 V from a third pole: interlocked by the relays' own break contacts. */
const relays = (interlocked: boolean) => {
  const made = base()
    .part("M1", "motor-permanent-magnet", { currentContinuous: "10 A", resistance: "200 mohm" })
    .parts("relay", { poles: "3", coilVoltage: "12 V", coilResistance: "100 ohm" }, "K2", "K3")
    .wires(THICK, "G1:+ - G2:-", "G2:+ - K2:common", "G2:+ - K3:common", "K2:no - M1:+", "K3:no - M1:-")
    .wires(THICK, "G1:- - K2:common-2", "G1:- - K3:common-2", "K2:no-2 - M1:-", "K3:no-2 - M1:+")
    .wires(THIN, "K2:coil- - G20:-", "K3:coil- - G20:-");
  if (interlocked) {
    made.wires(THIN, "S2:a - K3:common-3", "K3:nc-3 - K2:coil+", "S2:b - K2:common-3", "K2:nc-3 - K3:coil+");
  } else made.wires(THIN, "S2:a - K2:coil+", "S2:b - K3:coil+");
  return made.build();
};

checkTable(contactsCanShort, {
  fails: [
    {
      name: "two contactors as a bridge, chosen by a selector alone",
      drawing: bridge("none"),
      at: "Q2",
      message: "free",
      severity: "WARNING",
    },
    {
      name: "a break contact in one of the two coils only",
      drawing: bridge("one"),
      at: "Q2",
      message: "free",
      severity: "WARNING",
    },
    {
      name: "side by side and one behind the other, without interlock",
      drawing: steps(false),
      at: ["Q2", "Q3"],
      message: "free",
      severity: "WARNING",
    },
    { name: "a bridge of relays", drawing: relays(false), at: "K2", message: "free", severity: "WARNING" },
  ],
  passes: [
    { name: "break contacts in each other's coil", drawing: bridge("both"), at: ["Q2", "Q3"] },
    { name: "the step car with its interlock", drawing: steps(true), at: ["Q2", "Q4"] },
    { name: "relays with their own break contacts in each other's coil", drawing: relays(true), at: ["K2", "K3"] },
  ],
  doesNotApply: [
    { name: "changeover contactors cannot", drawing: changeover() },
    { name: "one contactor", drawing: base().parts("contactor", COIL, "Q1").wires(THICK, "G2:+ - Q1:line").build() },
  ],
});
