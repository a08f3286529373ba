import { tractionNotOrange } from "../../../../core/checks/shock/traction-not-orange.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { pack, SMALL, withTwelveVolts } from "../pack.ts";

const HEAVY = { size: "35 mm2", length: "0.3 m", colour: "OG" };
const BLACK = { ...HEAVY, colour: "BK" };

/** A string of orange jumpers whose leads to the heater are of these colours. */
const heater = (plus: object, minus: object, blocks = 6, chemistry: string | null = "flooded-lead") => {
  const sketch = pack(1, { chemistry });
  for (let block = 2; block <= blocks; block += 1) {
    sketch
      .part(`G${block}`, "battery-block", { duty: "traction", chemistry, resistance: "5 mohm" })
      .wire(`G${block - 1}:+`, `G${block}:-`, HEAVY);
  }
  return sketch
    .part("E1", "heater", { voltage: "72 V", power: "1 kW" })
    .wire(`G${blocks}:+`, "E1:+", { ...HEAVY, ...plus })
    .wire("E1:-", "G1:-", { ...HEAVY, ...minus });
};

checkTable(tractionNotOrange, {
  fails: [
    {
      name: "a black return at 72 V",
      drawing: heater({}, BLACK).build(),
      at: "W7",
      message: "colour",
      severity: "WARNING",
      // 2.47 V x 36 on charge.
      value: 88.92,
      limit: 60,
      remedies: ["make-orange"],
    },
    {
      name: "red and black leads",
      drawing: heater({ colour: "RD" }, BLACK).build(),
      at: "W6",
      message: "colour",
      severity: "WARNING",
      remedies: ["make-orange"],
    },
    {
      name: "a motor lead behind a controller and a contactor",
      drawing: pack(1, { chemistry: "lifepo4", cells: "32" })
        .part("Q1", "contactor", { coilVoltage: "12 V", coilPower: "12 W" })
        .part("T1", "dc-controller", { logicFeed: "isolated-12v", currentContinuous: "100 A" })
        .part("M1", "motor-permanent-magnet", { resistance: "20 mohm", currentContinuous: "100 A" })
        .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "T1:M+ - M1:+")
        .wire("M1:-", "T1:M-", { ...HEAVY, colour: "BU" })
        .build(),
      at: "W5",
      message: "colour",
      severity: "WARNING",
      // 3.65 V x 32.
      value: 116.8,
    },
    {
      name: "a black lead to a heater and a violet key line of a controller that is fed from the pack",
      drawing: heater({}, BLACK)
        .part("S1", "key-switch", {})
        .part("T1", "dc-controller", { logicFeed: "pack-fed" })
        .wires(HEAVY, "G6:+ - T1:B+", "T1:B- - G1:-", "G6:+ - S1:battery")
        .wires({ ...HEAVY, colour: "VT" }, "S1:ignition - T1:logic+")
        .build(),
      at: ["W7", "W11"],
      message: "colour",
      severity: "WARNING",
    },
  ],
  passes: [
    { name: "orange leads", drawing: heater({}, {}).build(), at: ["W6", "W7"] },
    { name: "an orange lead with a black stripe", drawing: heater({ colour: "BKOG" }, {}).build(), at: "W6" },
    {
      name: "black 12 V wires behind a converter that does not isolate, and a black bond",
      drawing: withTwelveVolts(heater({}, {}))
        .part("T2", "dc-dc-converter", { isolated: "no", outputVoltage: "13.8 V", outputCurrentMax: "20 A" })
        .part("P1", "lamp", { voltage: "12 V", power: "21 W" })
        .wires(HEAVY, "E1:+ - T2:in+", "T2:in- - E1:-")
        .wires({ ...SMALL, colour: "BK" }, "T2:out+ - P1:+", "P1:- - T2:out-", "E1:case - X1:stud")
        .build(),
      at: ["W6", "W7"],
    },
    {
      name: "a black lead inside the battery box",
      drawing: withTwelveVolts(pack(1, { chemistry: "lifepo4", cells: "32" }))
        .enclosure("box")
        .part("F1", "fuse", { rating: "100 A" }, { enclosure: "box" })
        .part("F2", "fuse", { rating: "10 A" }, { enclosure: "box" })
        .part("E1", "heater", { voltage: "100 V", power: "1 kW" })
        .wires(HEAVY, "G1:+ - F1:1", "F2:2 - E1:+", "E1:- - G1:-")
        .wires(BLACK, "F1:2 - F2:1")
        .build(),
      at: "W6",
    },
  ],
  notChecked: [
    {
      name: "a lead of unstated colour",
      drawing: pack(1, { chemistry: "lifepo4", cells: "32" })
        .part("E1", "heater", { voltage: "100 V", power: "1 kW" })
        .wires(HEAVY, "G1:+ - E1:+")
        .wires(SMALL, "E1:- - G1:-")
        .build(),
      at: "W2",
      reason: "colour",
      missing: ["W2.colour"],
    },
    {
      name: "a black lead on four blocks of unstated chemistry",
      drawing: heater({}, BLACK, 4, null).build(),
      at: "W5",
      reason: "voltage",
      missing: ["G1.chemistry", "G2.chemistry", "G3.chemistry", "G4.chemistry"],
    },
  ],
  doesNotApply: [
    { name: "black leads at 48 V", drawing: heater(BLACK, BLACK, 4).build() },
    { name: "no traction circuit", drawing: withTwelveVolts(pack(0)).build() },
  ],
});
