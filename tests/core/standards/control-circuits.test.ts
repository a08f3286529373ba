import { describe, expect, it } from "vitest";
import { coilRange, diodeReleaseTime, resistorPeak } from "../../../core/standards/coils.ts";
import {
  capacitorEnergy,
  inrushCurrent,
  inrushPower,
  largestPrechargeResistor,
  PRECHARGE_LEAST,
  PRECHARGE_TARGET,
  prechargeTime,
  settledVoltage,
  timeConstant,
} from "../../../core/standards/precharge.ts";
import { signalFault } from "../../../core/standards/throttle-bands.ts";

function near(value: number, expected: number, tolerance = 1e-3): void {
  expect(Math.abs(value / expected - 1)).toBeLessThan(tolerance);
}

describe("pre-charge", () => {
  it("800 V, 47 ohm, 1000 uF: 47.0 ms, 140.8 ms, 216.4 ms, 17.0 A, 13617 W, 320 J (published calculator)", () => {
    near(timeConstant(47, 1e-3), 0.047);
    near(prechargeTime(47, 1e-3, 0.95), 0.1408);
    near(prechargeTime(47, 1e-3, 0.99), 0.2164);
    near(inrushCurrent(800, 47), 17.02);
    near(inrushPower(800, 47), 13617);
    near(capacitorEnergy(1e-3, 800), 320);
  });

  it("144 V, 10 mF, 100 ohm: 1.0 s, 2.303 s to 90 %, 2.996 s to 95 %, 1.44 A, 207.4 W, 103.7 J", () => {
    near(timeConstant(100, 10e-3), 1);
    near(prechargeTime(100, 10e-3, PRECHARGE_LEAST), 2.303);
    near(prechargeTime(100, 10e-3, PRECHARGE_TARGET), 2.996);
    near(inrushCurrent(144, 100), 1.44);
    near(inrushPower(144, 100), 207.4);
    near(capacitorEnergy(10e-3, 144), 103.7);
  });

  it("95 % of 10 mF within 2 s: at most 66.76 ohm (contactor maker's published formula)", () => {
    near(largestPrechargeResistor(10e-3, 0.95, 2), 66.76);
  });

  it("144 V through 750 ohm with 20 mA drawn ends at 129.0 V, 89.6 %: 95 % is never reached", () => {
    const end = settledVoltage(144, 750, 0.02);
    near(end, 129);
    expect(end / 144).toBeLessThan(PRECHARGE_TARGET);
  });
});

describe("coils", () => {
  it("0.5 H, 36 ohm, plain diode, release at 10 %: 31.98 ms", () => {
    near(diodeReleaseTime(0.5, 36, 0.1), 31.98e-3);
  });

  it("a 120 ohm relay with 680 ohm across it peaks near the 65 V that were measured", () => {
    near(resistorPeak(12 / 120, 680), 65, 0.06);
  });

  it("12 V coils live within 9 to 16 V, others from pick-up to 133 %", () => {
    expect(coilRange(12, 0.7)).toEqual([9, 16]);
    const [least, most] = coilRange(96, 0.7);
    near(least, 67.2);
    near(most, 127.68);
  });
});

describe("throttle", () => {
  it("0.39 and 4.61 V are faults, 0.41 and 4.59 V are not (published controller manual)", () => {
    expect([0.39, 0.41, 4.59, 4.61].map(signalFault)).toEqual([true, false, false, true]);
  });
});
