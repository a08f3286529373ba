import { describe, expect, test } from "vitest";
import { readFileSync } from "node:fs";
import { analyse } from "../../../core/circuit/analyse.ts";
import { readProject } from "../../../core/project/read.ts";
import { prechargeStudies } from "../../../core/studies/precharge.ts";
import { drawing } from "../../harness/drawing.ts";

const HEAVY = { size: "35 mm2", length: "0.5 m" } as const;

/** A pack, a contactor with a resistor across its contacts for good, a controller. */
function kart(resistance: string | null, capacitance: string | null, bleeder?: string) {
  const stated = (name: string, value: string | null | undefined) => (value == null ? {} : { [name]: value });
  return prechargeStudies(
    analyse(
      drawing()
        .part("G1", "battery-pack", {
          duty: "traction",
          chemistry: "flooded-lead",
          cells: "6",
          blocks: "12",
          resistance: "60 mohm",
        })
        .part("Q1", "contactor", { coilVoltage: "12 V" })
        .part("R1", "resistor", { ...stated("resistance", resistance), power: "10 W", pulseEnergy: "50 J" })
        .part("T1", "dc-controller", {
          logicFeed: "pack-fed",
          ...stated("inputCapacitance", capacitance),
          ...stated("bleedResistance", bleeder),
        })
        .wires(HEAVY, "G1:+ - Q1:line", "Q1:load - T1:B+", "T1:B- - G1:-", "Q1:line - R1:1", "R1:2 - Q1:load")
        .build(),
    ),
  );
}

describe("a resistor across the contactor", () => {
  test("time, energy and power are those of the pack at its highest", () => {
    const [own] = kart("750 ohm", "10 mF", "1 Mohm");
    const volts = 12 * 6 * 2.47;
    expect(own?.capacitance).toBeCloseTo(10e-3, 9);
    expect(own?.path?.resistance).toBeCloseTo(750, 6);
    // 750 ohm and 10 mF: 7.5 s, as the worked example of 144 V has it.
    expect(own?.asDrawn?.answer?.timeConstant).toBeCloseTo(7.5, 6);
    expect(own?.asDrawn?.answer?.pulseEnergy).toBeCloseTo(0.5 * 10e-3 * volts ** 2, 6);
    const [strain] = own?.strain ?? [];
    expect(strain?.shortedPower).toBeCloseTo(volts ** 2 / 750, 6);
    expect(strain).toMatchObject({ power: 10, pulseEnergy: 50, endsAfter: undefined });
    expect((strain?.energy ?? 0) > (strain?.pulseEnergy ?? Infinity)).toBe(true);
  });

  test("what is proposed is fast enough for 95 % in a second", () => {
    const answer = kart("750 ohm", "10 mF", "1 Mohm")[0]?.proposed.answer;
    // R = t/(3 C) = 33.4 ohm, the standard value below is 33 ohm.
    expect(answer?.resistor).toBe(33);
    expect(answer?.reaches).toBeLessThan(1);
  });

  test("a bleeder holds the bus down: 750 ohm before 6 kohm never gets to 95 %", () => {
    const drawn = kart("750 ohm", "10 mF", "6 kohm")[0]?.asDrawn?.answer;
    expect(drawn?.reaches).toBe(Infinity);
    // 6000/6750 of the pack, at rest a little lower than at its highest.
    expect((drawn?.settles ?? 0) / (12 * 6 * 2.47)).toBeGreaterThan(0.88);
    expect((drawn?.settles ?? 0) / (12 * 6 * 2.47)).toBeLessThan(0.92);
  });
});

test("without the capacitance nothing is chosen, and the field is named", () => {
  const [own] = kart("750 ohm", null);
  expect(own?.proposed.answer).toBeUndefined();
  expect(own?.missing).toEqual([{ part: "p4", parameter: "inputCapacitance" }]);
});

test("the demo pickup: its resistor is fast enough and its bus counts the converter's capacitor as well", () => {
  const read = readProject(readFileSync("demo-projects/farm-pickup-96v/farm-pickup-96v.loomwright", "utf8"));
  if (!read.ok) throw new Error("the demo cannot be read");
  const [own] = prechargeStudies(analyse(read.project));
  expect(own?.capacitance).toBeCloseTo(1.6e-3, 9);
  expect(own?.asDrawn?.answer?.reaches).toBeLessThan(5);
  expect(own?.strain.every(({ energy, pulseEnergy }) => energy < (pulseEnergy ?? 0))).toBe(true);
});
