import { describe, expect, test } from "vitest";
import { bleederFor, dischargeTime } from "../../../core/standards/contact-protection.ts";
import { standardResistorBelow } from "../../../core/standards/resistor-series.ts";
import { choosePrecharge } from "../../../core/studies/precharge-choice.ts";
import type { PrechargeQuestion } from "../../../core/studies/precharge-choice.ts";

const answer = (question: PrechargeQuestion) => {
  const { answer: made } = choosePrecharge(question);
  if (made === undefined) throw new Error("the study has no answer");
  return made;
};

// A published calculator's own example: 800 V, 47 ohm, 1000 uF.
test("time constant, current, power and energy", () => {
  const made = answer({ volts: 800, capacitance: 1e-3, resistor: 47 });
  expect(made.timeConstant).toBeCloseTo(0.047, 9);
  expect(made.reaches).toBeCloseTo(0.1408, 4);
  expect(answer({ volts: 800, capacitance: 1e-3, resistor: 47, share: 0.99 }).reaches).toBeCloseTo(0.2164, 4);
  expect(made.peakCurrent).toBeCloseTo(17.0, 1);
  expect(made.peakPower).toBeCloseTo(13617, 0);
  expect(made.pulseEnergy).toBeCloseTo(320, 9);
});

test("144 V, 10 mF, 100 ohm", () => {
  const made = answer({ volts: 144, capacitance: 10e-3, resistor: 100 });
  expect(made).toMatchObject({ timeConstant: 1 });
  expect(made.reaches).toBeCloseTo(2.996, 3);
  expect(answer({ volts: 144, capacitance: 10e-3, resistor: 100, share: 0.9 }).reaches).toBeCloseTo(2.303, 3);
  expect(made.peakCurrent).toBeCloseTo(1.44, 9);
  expect(made.peakPower).toBeCloseTo(207.4, 1);
  expect(made.pulseEnergy).toBeCloseTo(103.7, 1);
  // The bus is shorted: the same power for good.
  expect(made.shortedPower).toBe(made.peakPower);
});

// A contactor maker's calculator: R = T/(n C), n = -ln(1 - q).
test("the largest resistor for 95 % in 2 s and 10 mF", () => {
  const made = answer({ volts: 144, capacitance: 10e-3, time: 2, share: 0.95 });
  expect(made.largest).toBeCloseTo(66.76, 2);
  expect(made.resistor).toBe(56);
  expect(made.reaches).toBeLessThan(2);
  expect(made.atClosing / 144).toBeGreaterThan(0.95);
});

describe("a load on the bus", () => {
  // Ohm's law: 750 ohm times 20 mA leaves 129 V of 144 V, 89.6 %.
  test("keeps it below the threshold for ever", () => {
    const made = answer({ volts: 144, capacitance: 10e-3, resistor: 750, load: 0.02 });
    expect(made.settles).toBeCloseTo(129, 9);
    expect(made.settles / 144).toBeCloseTo(0.896, 3);
    expect(made.reaches).toBe(Infinity);
  });

  test("asks for a smaller resistor that is just fast enough", () => {
    const made = answer({ volts: 144, capacitance: 10e-3, load: 0.05, time: 2 });
    const free = answer({ volts: 144, capacitance: 10e-3, time: 2 });
    expect(made.largest).toBeLessThan(free.largest ?? 0);
    const edge = answer({ volts: 144, capacitance: 10e-3, load: 0.05, time: 2, resistor: made.largest });
    expect(edge.reaches).toBeCloseTo(2, 6);
  });

  test("a bleeder divides the voltage", () => {
    const made = answer({ volts: 100, capacitance: 1e-3, resistor: 100, bleeder: 900 });
    expect(made.settles).toBeCloseTo(90, 9);
    expect(made.timeConstant).toBeCloseTo(0.1, 9);
    expect(made.reaches).toBe(Infinity);
    expect(made.atClosing).toBeCloseTo(90 * (1 - Math.exp(-1 / 0.09)), 6);
  });
});

test("without a capacitance nothing is chosen, and it says so", () => {
  const study = choosePrecharge({ volts: 144, capacitance: undefined });
  expect(study.answer).toBeUndefined();
  expect(study.open).toEqual([{ what: "resistor", lacks: ["capacitance"] }]);
});

// Discharging through a bleeder, the same exponential: 400 V, 1 mF to 60 V in 5 s; 144 V, 10 mF, 1 kohm to 60 V.
test("discharge to 60 V", () => {
  expect(bleederFor(1e-3, 400, 60, 5)).toBeCloseTo(2635.6, 1);
  expect(dischargeTime(1000, 10e-3, 144, 60)).toBeCloseTo(8.755, 3);
});

// IEC 60063, series E12.
test.each([
  [66.76, 56],
  [68, 68],
  [9.99, 8.2],
  [1000, 1000],
  [0.47, 0.47],
])("the standard value below %f ohm is %f ohm", (resistance, standard) => {
  expect(standardResistorBelow(resistance)).toBe(standard);
});
