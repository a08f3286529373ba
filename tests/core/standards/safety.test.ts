import { describe, expect, it } from "vitest";
import { clearance, ratedImpulse } from "../../../core/standards/clearance.ts";
import {
  bleederFor,
  dischargeTime,
  energyAboveTouchLimit,
  ENERGY_LIMIT,
  isBonded,
  probeFor,
} from "../../../core/standards/contact-protection.ts";
import { creepage, interpolatedCreepage } from "../../../core/standards/creepage.ts";
import {
  ISOLATION_AC,
  ISOLATION_DC,
  isolationFromReadings,
  readingResistor,
} from "../../../core/standards/isolation.ts";
import { voltageClass } from "../../../core/standards/voltage-class.ts";

function near(value: number, expected: number, tolerance = 1e-3): void {
  expect(Math.abs(value / expected - 1)).toBeLessThan(tolerance);
}

describe("voltage classes (ISO 6469-3, FMVSS 305)", () => {
  it.each([
    [60, "dc", "A"],
    [60.1, "dc", "B"],
    [-60.1, "dc", "B"],
    [30, "ac", "A"],
    [30.1, "ac", "B"],
    [1500, "dc", "B"],
    [1500.1, "dc", "beyond"],
    [1000.1, "ac", "beyond"],
  ] as const)("%d V %s is %s", (volts, kind, expected) => {
    expect(voltageClass(volts, kind)).toBe(expected);
  });
});

describe("contact (UN R100)", () => {
  it("bonded below 0.1 ohm: 0.099 passes, 0.100 fails", () => {
    expect(isBonded(0.099)).toBe(true);
    expect(isBonded(0.1)).toBe(false);
  });

  it("the wire is kept out of passenger and luggage spaces, the finger elsewhere", () => {
    expect(["passenger", "luggage", "engine", "battery-box"].map(probeFor)).toEqual([
      "IPXXD",
      "IPXXD",
      "IPXXB",
      "IPXXB",
    ]);
  });

  it("0.2 J is 2.5 uF at 400 V by C V2/2 (and a little more above the 60 V that do no harm)", () => {
    const capacitance = 2.5e-6;
    near(0.5 * capacitance * 400 ** 2, ENERGY_LIMIT);
    near(energyAboveTouchLimit(capacitance, 400), 0.2 * (1 - (60 / 400) ** 2));
    expect(energyAboveTouchLimit(1, 60)).toBe(0);
  });

  it("400 V on 1 mF to 60 V within 5 s needs 2635.6 ohm; 144 V, 10 mF, 1 kohm takes 8.755 s", () => {
    near(bleederFor(1e-3, 400, 60, 5), 2635.6);
    near(dischargeTime(1000, 10e-3, 144, 60), 8.755);
    expect(dischargeTime(1000, 10e-3, 48, 60)).toBe(0);
  });
});

describe("isolation by two readings (UN R100 annex 4)", () => {
  // The readings are worked out here from the leaks, independently of the method that has to find them again.
  function readings(pack: number, rn: number, rp: number, resistor: number, meter = Number.POSITIVE_INFINITY) {
    const parallel = (...values: number[]): number => 1 / values.reduce((sum, each) => sum + 1 / each, 0);
    const share = (low: number, high: number): number => (pack * low) / (low + high);
    const negative = share(parallel(rn, meter), rp);
    const positive = share(parallel(rp, meter), rn);
    const loaded =
      negative >= positive ? share(parallel(rn, meter, resistor), rp) : share(parallel(rp, meter, resistor), rn);
    return { pack, negative, positive, loaded, resistor };
  }

  it("300 V, leaks 100 k and 60 k, 30 k: 60.0 kohm, 200 ohm/V", () => {
    const made = readings(300, 100e3, 60e3, 30e3);
    expect([made.negative, made.positive].map((volts) => Number(volts.toFixed(1)))).toEqual([187.5, 112.5]);
    near(made.loaded, 83.333);
    const found = isolationFromReadings(made);
    near(found, 60e3);
    expect(found / 300).toBeGreaterThan(ISOLATION_DC);
    expect(found / 300).toBeLessThan(ISOLATION_AC);
  });

  it("144 V, 200 k and 20 k, 72 k: 20.0 kohm = 138.9 ohm/V, also with a 10 Mohm voltmeter", () => {
    near(isolationFromReadings(readings(144, 200e3, 20e3, 72e3)) / 144, 138.9);
    near(isolationFromReadings(readings(144, 200e3, 20e3, 72e3, 10e6)), 20e3, 1e-9);
    expect(readingResistor(ISOLATION_AC, 144)).toBe(72000);
  });

  it("360 V, 20 k and 500 k, 180 k on the positive side: 20.0 kohm = 55.6 ohm/V fails", () => {
    const found = isolationFromReadings(readings(360, 20e3, 500e3, 180e3));
    near(found, 20e3);
    expect(found / 360).toBeLessThan(ISOLATION_DC);
  });
});

describe("creepage and clearance (IEC 60664-1)", () => {
  it("144 V, degree 2, group III: 1.6 mm by the next row, 1.554 mm on the line", () => {
    expect(creepage(144, 2)).toBeCloseTo(1.6e-3, 9);
    expect(interpolatedCreepage(144, 2)).toBeCloseTo(1.554e-3, 6);
  });

  it("400 V: 2.0, 2.8, 4.0 mm at degree 2; 5.0, 5.6, 6.3 mm at degree 3", () => {
    const found = ([2, 3] as const).flatMap((degree) =>
      (["I", "II", "III"] as const).map((group) => creepage(400, degree, group)),
    );
    expect(found.map((metres) => Number(((metres ?? 0) * 1000).toFixed(3)))).toEqual([2, 2.8, 4, 5, 5.6, 6.3]);
  });

  it("356 V, degree 3, group III: 5.585 mm on the line, 6.3 mm by the next row", () => {
    expect(interpolatedCreepage(356, 3)).toBeCloseTo(5.585e-3, 6);
    expect(creepage(356, 3)).toBeCloseTo(6.3e-3, 9);
    expect(creepage(-356, 3)).toBe(creepage(356, 3));
  });

  it("says nothing above 1000 V and takes the first row below 10 V", () => {
    expect(creepage(1000.1, 3)).toBeUndefined();
    expect(interpolatedCreepage(1001, 3)).toBeUndefined();
    expect(creepage(5, 3)).toBeCloseTo(1e-3, 12);
  });

  it("grows with voltage, dirt and poorer material", () => {
    for (let volts = 10; volts <= 1000; volts += 10) {
      const at = (v: number, degree: 2 | 3, group: "I" | "II" | "III"): number => creepage(v, degree, group) ?? 0;
      expect(at(volts, 2, "I")).toBeLessThanOrEqual(at(volts, 2, "III"));
      expect(at(volts, 2, "III")).toBeLessThan(at(volts, 3, "III"));
      expect(at(volts, 3, "II")).toBeLessThanOrEqual(at(Math.min(1000, volts + 10), 3, "II"));
    }
  });

  it("2.5 kV at degree 2: 1.5 mm; 1.5 kV at degree 3: 0.8 mm (railway rule table quoting F.2)", () => {
    expect(clearance(2500, 2)).toMatchObject({ length: 1.5e-3, source: { known: "seen" } });
    expect(clearance(1500, 3)).toMatchObject({ length: 0.8e-3, source: { known: "seen" } });
    expect(clearance(2000, 2)?.source.known).toBe("memory");
    expect(clearance(20000, 2)).toBeUndefined();
    expect(ratedImpulse(144, 2)).toBe(1500);
    expect(ratedImpulse(700, 2)).toBeUndefined();
  });
});
