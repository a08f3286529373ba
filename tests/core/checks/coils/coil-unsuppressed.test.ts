import { describe, expect, it } from "vitest";
import { runCheck } from "../../../../core/checks/run.ts";
import { coilUnsuppressed } from "../../../../core/checks/coils/coil-unsuppressed.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { overlap } from "../../../../core/geometry/boxes.ts";
import { titleBlockOf } from "../../../../core/layout/paper.ts";
import { placedViews } from "../../../../core/layout/placed-view.ts";
import { readProject } from "../../../../core/project/read.ts";
import { writeProject } from "../../../../core/project/write.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { POWER, SMALL, supplies } from "../switching/vehicle.ts";

const COIL = { coilVoltage: "12 V", coilResistance: "24 ohm" };
type Parameters = Readonly<Record<string, string>>;

/** Contactor straight on the key. */
const onKey = (contactor: Parameters) =>
  supplies(4)
    .part("Q1", "contactor", { ...COIL, ...contactor })
    .part("E1", "heater", { voltage: "48 V", power: "500 W" })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - E1:+", "E1:- - G1:-")
    .wires(SMALL, "S1:ignition - Q1:coil+", "Q1:coil- - X9:stud");

/** Contactor on the output of a controller. */
const onOutput = (contactor: Parameters, controller: Parameters) =>
  supplies(4)
    .part("Q1", "contactor", { ...COIL, ...contactor })
    .part("R1", "resistor", { resistance: "50 ohm", power: "100 W" })
    .part("T1", "dc-controller", {
      logicFeed: "isolated-12v",
      contactorDriver: "low-side",
      inputCapacitance: "1 mF",
      nominalMin: "48 V",
      ...controller,
    })
    .wires(POWER, "G4:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-")
    .wires(SMALL, "Q1:line - R1:1", "R1:2 - Q1:load", "S1:ignition - T1:logic+", "T1:logic- - X9:stud")
    .wires(SMALL, "F9:2 - Q1:coil+", "Q1:coil- - T1:contactor-out");

/** A relay between the key and the output of a battery monitor; another one beside it takes up its kick at key-off. */
const onMonitor = (suppression: string) =>
  supplies(4)
    .part("K5", "relay", { ...COIL, suppression })
    .part("K6", "relay", { ...COIL, suppression: "diode" })
    .part("B1", "battery-monitor", { outputType: "low-side" })
    .wires(SMALL, "G4:+ - B1:pack+", "G1:- - B1:B-", "F9:2 - B1:supply+", "B1:supply- - X9:stud")
    .wires(SMALL, "S1:ignition - K5:coil+", "K5:coil- - B1:discharge-enable")
    .wires(SMALL, "S1:ignition - K6:coil+", "K6:coil- - X9:stud")
    .build();

const bare = onKey({ suppression: "none" }).build();

checkTable(coilUnsuppressed, {
  fails: [
    {
      name: "contactor on the key, nothing across its coil",
      drawing: bare,
      at: "Q1",
      message: "none",
      severity: "CAUTION",
      remedies: ["suppression-diode"],
    },
    {
      name: "a monitor's output has to take what finds another way at key-off",
      drawing: onMonitor("none"),
      at: "K5",
      message: "none",
      severity: "CAUTION",
      remedies: ["suppression-diode"],
    },
    {
      name: "a diode in the feed does not take up the kick",
      drawing: supplies(4)
        .part("K1", "relay", { ...COIL, suppression: "none" })
        .part("R3", "diode")
        .wires(SMALL, "S1:ignition - R3:anode", "R3:cathode - K1:coil-", "K1:coil+ - X9:stud")
        .build(),
      at: "K1",
      message: "none",
      severity: "CAUTION",
      remedies: ["suppression-diode"],
    },
    {
      name: "output that clamps at 40 V by itself",
      drawing: onOutput({ suppression: "none" }, { driverClamp: "40 V" }).build(),
      at: "Q1",
      message: "clamp",
      severity: "WARNING",
      remedies: ["suppression-diode"],
      value: 40,
    },
    {
      name: "output that wants its coils suppressed",
      drawing: onOutput({ suppression: "none" }, { driverSuppressionRequired: "yes" }).build(),
      at: "Q1",
      message: "required",
      severity: "WARNING",
      remedies: ["suppression-diode"],
    },
    {
      name: "a varistor above the clamp of the output",
      drawing: onOutput({ suppression: "none" }, { driverClamp: "40 V" })
        .part("F7", "suppressor", { type: "varistor", clampVoltage: "100 V" })
        .wires(SMALL, "Q1:coil+ - F7:1", "F7:2 - Q1:coil-")
        .build(),
      at: "Q1",
      message: "clamp",
      severity: "WARNING",
      remedies: ["suppression-diode"],
    },
  ],
  passes: [
    { name: "relays on key and monitor, each with its diode", drawing: onMonitor("diode"), at: ["K5", "K6"] },
    { name: "diode built in", drawing: onKey({ suppression: "diode" }).build(), at: "Q1" },
    {
      name: "zener built in, below the clamp of the output",
      drawing: onOutput({ suppression: "zener" }, { driverClamp: "60 V" }).build(),
      at: "Q1",
    },
    {
      name: "output that is made for bare coils",
      drawing: onOutput({ suppression: "none" }, { driverSuppressionRequired: "no" }).build(),
      at: "Q1",
    },
    {
      name: "diode across the coil",
      drawing: onKey({ suppression: "none" })
        .part("R3", "diode")
        .wires(SMALL, "R3:cathode - Q1:coil+", "R3:anode - Q1:coil-")
        .build(),
      at: "Q1",
    },
    {
      name: "resistor of 5.7 times the coil's ohms, as in a published measurement",
      drawing: supplies(4)
        .part("K1", "relay", { coilVoltage: "12 V", coilResistance: "120 ohm", suppression: "none" })
        .part("R3", "resistor", { resistance: "680 ohm", power: "1 W" })
        .wires(SMALL, "S1:ignition - K1:coil+", "K1:coil- - X9:stud", "K1:coil+ - R3:1", "R3:2 - K1:coil-")
        .build(),
      at: "K1",
    },
    {
      name: "varistor across the coil, inside nobody knows",
      drawing: onKey({})
        .part("F7", "suppressor", { type: "varistor", clampVoltage: "27 V" })
        .wires(SMALL, "Q1:coil+ - F7:1", "F7:2 - Q1:coil-")
        .build(),
      at: "Q1",
    },
  ],
  notChecked: [
    {
      name: "nobody says what is inside",
      drawing: onKey({}).build(),
      at: "Q1",
      reason: "suppression",
      missing: ["Q1.suppression"],
    },
    {
      name: "a relay that switches itself off and on without end",
      drawing: onKey({ suppression: "diode" })
        .part("K9", "relay", { ...COIL, suppression: "diode" })
        .wires(SMALL, "S1:ignition - K9:common", "K9:nc - K9:coil+", "K9:coil- - X9:stud")
        .build(),
      at: "K9",
      reason: "broken",
      missing: [],
    },
  ],
  doesNotApply: [{ name: "no coil", drawing: supplies(2).build() }],
});

describe("the diode that is offered", () => {
  const remedy = runCheck(coilUnsuppressed, analyse(bare)).failures[0]?.remedies?.[0];
  if (remedy === undefined) throw new Error("no remedy is offered");
  const mended = remedy.apply(bare);
  const diode = mended.parts.find(({ kind }) => kind === "diode");

  it("lies with its ring on plus, and the drawing can be read again", () => {
    const q1 = bare.parts.find(({ designation }) => designation === "Q1")?.id;
    const ends = mended.wires.slice(bare.wires.length).map(({ ends: [from, to] }) => [from?.[1], to]);
    expect(ends).toEqual([
      ["cathode", [q1, "coil+"]],
      ["anode", [q1, "coil-"]],
    ]);
    expect(readProject(writeProject(mended)).ok).toBe(true);
  });

  it("stands clear of every symbol and of the title block", () => {
    const [placement] = diode?.views ?? [];
    const sheet = mended.sheets.find(({ id }) => id === placement?.sheet);
    if (sheet === undefined) throw new Error("the diode is on no sheet");
    const views = placedViews(mended, sheet.id);
    const own = views.find(({ part }) => part.id === diode?.id);
    if (own === undefined) throw new Error("the diode is not placed");
    expect(overlap(own.box, titleBlockOf(sheet))).toBe(false);
    for (const other of views)
      if (other !== own) expect(overlap(own.box, other.box), other.part.designation).toBe(false);
  });
});
