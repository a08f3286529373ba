import { describe, expect, test } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { runCheck } from "../../../../core/checks/run.ts";
import { isolationLow } from "../../../../core/checks/shock/isolation-low.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import { HEAVY, pack, SMALL, withTwelveVolts } from "../pack.ts";

/** A pack in one symbol with a heater: three parts that can leak. 2.47 V x 72 = 177.84 V at its highest. */
const simple = (battery: Parameters, heater: Parameters, monitor?: Parameters) => {
  const sketch = drawing()
    .part("G1", "battery-pack", { duty: "traction", chemistry: "flooded-lead", blocks: "12", ...battery })
    .part("E1", "heater", { voltage: "144 V", power: "2 kW", ...heater })
    .part("X1", "chassis-point", { structure: "body" })
    .wires(HEAVY, "G1:+ - E1:+", "E1:- - G1:-");
  if (monitor !== undefined) {
    sketch.part("B3", "isolation-monitor", monitor).wires(SMALL, "B3:+ - G1:+", "B3:- - G1:-", "B3:chassis - X1:stud");
  }
  return sketch.build();
};

const threePhase = (isolation: string) =>
  drawing()
    .part("G1", "battery-pack", { duty: "traction", chemistry: "nmc", cells: "8", blocks: "11", isolation })
    .part("T1", "ac-controller", { logicFeed: "isolated-12v", isolation: "5 Mohm" })
    .part("M1", "motor-ac", { isolation: "5 Mohm" })
    .wires(HEAVY, "G1:+ - T1:B+", "G1:- - T1:B-", "T1:U - M1:U", "T1:V - M1:V", "T1:W - M1:W")
    .build();

const ohms = (drawn: ReturnType<typeof simple>): number => {
  const failure = runCheck(isolationLow, analyse(drawn)).failures[0];
  return (failure?.value ?? NaN) * 177.84;
};

describe("the two-reading method", () => {
  // Worked by hand: Ri = Ro Vb (1/V' - 1/V). One leak at one pole: V = Vb, so Ri is that leak (UN R100, annex 4).
  test("gives a single leak at a pole as it is", () => {
    expect(ohms(simple({ isolation: "30 kohm" }, { isolation: null }))).toBeCloseTo(30e3, 0);
  });
  // Two leaks at the same pole act in parallel: 40 and 40 kohm are 20 kohm.
  test("takes leaks at one pole in parallel", () => {
    expect(ohms(simple({ isolation: "40 kohm" }, { isolation: "40 kohm" }))).toBeCloseTo(20e3, -1);
  });
  // A monitor of 60 kohm from each pole puts the chassis in the middle: V = Vb/2, R = 30 kohm, Ri = 2 x 30 = 60 kohm.
  test("gives the smaller of two leaks at opposite poles", () => {
    expect(ohms(simple({ isolation: null }, { isolation: null }, { internalResistance: "60 kohm" }))).toBeCloseTo(
      60e3,
      -1,
    );
  });
});

checkTable(isolationLow, {
  fails: [
    {
      name: "lead blocks with an acid film, 30 kohm, and a charger: the earth-leakage device trips",
      drawing: pack(12, {}, { G6: { isolation: "30 kohm" } })
        .part("T3", "charger", {
          mainsPlug: "yes",
          isolated: "no",
          residualCurrentDevice: "yes",
          chemistry: "flooded-lead",
          outputVoltageMax: "172 V",
          outputCurrentMax: "10 A",
        })
        .wires(SMALL, "T3:out+ - G12:+", "T3:out- - G1:-")
        .build(),
      at: "G6",
      message: "falling",
      severity: "NOTICE",
      limit: 500,
    },
    {
      name: "a heater full of water",
      drawing: simple({ isolation: "5 Mohm" }, { isolation: "12 kohm" }),
      at: "E1",
      message: "low",
      severity: "WARNING",
      limit: 100,
    },
    {
      name: "a pack that would do for direct current, with a three-phase drive",
      drawing: threePhase("80 kohm"),
      at: "G1",
      message: "ac",
      severity: "WARNING",
      limit: 500,
    },
  ],
  passes: [
    { name: "everything stated and high", drawing: simple({ isolation: "5 Mohm" }, { isolation: "5 Mohm" }), at: "G1" },
    {
      name: "a monitor of 1 Mohm counts and leaves enough",
      drawing: simple({ isolation: "5 Mohm" }, { isolation: "5 Mohm" }, { internalResistance: "1 Mohm" }),
      at: "G1",
    },
    {
      name: "a disconnect in the middle of the pack, a heater across the whole",
      drawing: drawing()
        .parts(
          "battery-pack",
          { duty: "traction", chemistry: "agm-lead", blocks: "5", isolation: "5 Mohm" },
          "G1",
          "G2",
        )
        .part("Q9", "manual-disconnect")
        .part("E1", "heater", { voltage: "120 V", power: "2 kW", isolation: "5 Mohm" })
        .wires(HEAVY, "G1:+ - Q9:line", "Q9:load - G2:-", "G2:+ - E1:+", "E1:- - G1:-")
        .build(),
      at: "G1",
    },
    { name: "a three-phase drive of 5 Mohm throughout", drawing: threePhase("5 Mohm"), at: "G1" },
  ],
  notChecked: [
    {
      name: "nobody measured anything",
      drawing: simple({}, {}),
      at: "G1",
      reason: "unstated",
      missing: ["E1.isolation", "G1.isolation"],
    },
    {
      name: "one part measured, the other not",
      drawing: simple({ isolation: "5 Mohm" }, {}),
      at: "G1",
      reason: "unstated",
      missing: ["E1.isolation"],
    },
  ],
  doesNotApply: [
    { name: "no traction pack", drawing: withTwelveVolts(drawing()).build() },
    {
      name: "a pack that is bolted to the chassis",
      drawing: withTwelveVolts(pack(4)).wire("G1:-", "X1:stud", HEAVY).build(),
    },
  ],
});
