import { describe, expect, it } from "vitest";
import { resistanceRange, widestResistanceRange } from "../../../core/standards/battery-resistance.ts";
import {
  blockEmf,
  cellOf,
  chargeAt,
  CHEMISTRIES,
  isLithium,
  packEmpty,
  packEqualising,
  packHighest,
  packNominal,
  restEmf,
} from "../../../core/standards/cells.ts";
import { voltageClass } from "../../../core/standards/voltage-class.ts";

const AMPERE_HOUR = 3600;

describe("lead-acid blocks of 12 V", () => {
  it("12.06, 12.13 and 12.45 V at rest are 50, 55 and 83.75 % (published open-circuit table)", () => {
    expect(chargeAt("flooded-lead", 6, 12.06)).toBeCloseTo(0.5, 9);
    expect(chargeAt("flooded-lead", 6, 12.13)).toBeCloseTo(0.55, 9);
    expect(chargeAt("flooded-lead", 6, 12.45)).toBeCloseTo(0.8375, 9);
    expect(restEmf("flooded-lead", 6, 0.55)).toBeCloseTo(12.13, 9);
    expect(chargeAt("flooded-lead", 6, 14)).toBe(1);
    expect(chargeAt("flooded-lead", 6, 9)).toBe(0);
  });

  it("a full sealed block rests at 12.8 to 13.0 V (published range)", () => {
    for (const chemistry of ["agm-lead", "gel-lead"] as const) {
      expect(restEmf(chemistry, 6, 1)).toBeGreaterThanOrEqual(12.8);
      expect(restEmf(chemistry, 6, 1)).toBeLessThanOrEqual(13);
    }
  });

  it("12 in series: 144 V nominal, 152.4 V rested, 172.8 to 177.9 V charging, 126 V empty; equalised above", () => {
    expect(packNominal("flooded-lead", 72)).toBeCloseTo(144, 9);
    expect(blockEmf("flooded-lead", 72, "rest")).toBeCloseTo(152.4, 9);
    expect(packHighest("flooded-lead", 72)).toBeGreaterThan(172.8);
    expect(packHighest("flooded-lead", 72)).toBeLessThan(177.9);
    expect(packEmpty("flooded-lead", 72)).toBeCloseTo(126, 9);
    expect(packEqualising("flooded-lead", 72)).toBeGreaterThan(packHighest("flooded-lead", 72));
    expect(packEqualising("agm-lead", 72)).toBe(packHighest("agm-lead", 72));
  });

  it("four in series stay class A in ordinary charging and leave it while equalising", () => {
    expect(voltageClass(packHighest("flooded-lead", 24))).toBe("A");
    expect(voltageClass(packEqualising("flooded-lead", 24))).toBe("B");
  });
});

describe("lithium packs (published summary of chemistries)", () => {
  it("16 LiFePO4: 51.2, 58.4, 40.0 V, class A", () => {
    expect(packNominal("lifepo4", 16)).toBeCloseTo(51.2, 9);
    expect(packHighest("lifepo4", 16)).toBeCloseTo(58.4, 9);
    expect(packEmpty("lifepo4", 16)).toBeCloseTo(40, 9);
    expect(voltageClass(packHighest("lifepo4", 16))).toBe("A");
  });

  it("96 NMC: 345.6, 403.2, 288 V", () => {
    expect(packNominal("nmc", 96)).toBeCloseTo(345.6, 9);
    expect(packHighest("nmc", 96)).toBeCloseTo(403.2, 9);
    expect(packEmpty("nmc", 96)).toBeCloseTo(288, 9);
  });

  it("tells which chemistries need a monitor", () => {
    expect(CHEMISTRIES.filter(isLithium)).toEqual(["lifepo4", "nmc", "lto"]);
  });
});

describe("every chemistry", () => {
  it.each(CHEMISTRIES)("%s: voltages rise with charge and stay between empty and end of charge", (chemistry) => {
    const cell = cellOf(chemistry);
    let before = -1;
    for (let percent = 0; percent <= 100; percent += 5) {
      const emf = restEmf(chemistry, 1, percent / 100);
      expect(emf).toBeGreaterThan(before);
      expect(emf).toBeGreaterThanOrEqual(cell.empty - 1e-9);
      expect(emf).toBeLessThanOrEqual(cell.chargeMax + 1e-9);
      expect(chargeAt(chemistry, 1, emf)).toBeCloseTo(percent / 100, 6);
      before = emf;
    }
  });

  it.each(CHEMISTRIES)("%s: EMF by what the pack is doing", (chemistry) => {
    expect(blockEmf(chemistry, 6, "loaded")).toBe(restEmf(chemistry, 6, 1));
    expect(blockEmf(chemistry, 6, "taking-current")).toBe(restEmf(chemistry, 6, 1));
    expect(blockEmf(chemistry, 6, "low")).toBe(restEmf(chemistry, 6, 0.1));
    expect(blockEmf(chemistry, 6, "low", 0.05)).toBe(restEmf(chemistry, 6, 0.05));
    expect(blockEmf(chemistry, 6, "rest", 0.5)).toBe(restEmf(chemistry, 6, 0.5));
    expect(blockEmf(chemistry, 6, "on-charge")).toBe(packHighest(chemistry, 6));
  });
});

describe("resistance of blocks that state none", () => {
  // The quoted blocks themselves have to lie in the range that was made of them.
  it.each([
    ["agm-lead", 6, 7, 25],
    ["agm-lead", 6, 100, 3],
    ["agm-lead", 6, 100, 6],
    ["flooded-lead", 6, 100, 5],
    ["flooded-lead", 6, 100, 8],
    ["flooded-lead", 3, 225, 2],
    ["flooded-lead", 3, 225, 4],
    ["lifepo4", 1, 100, 0.3],
    ["lifepo4", 1, 100, 0.6],
  ] as const)("%s, %d cells, %d Ah: %d mohm", (chemistry, cells, capacity, milliohms) => {
    const { range, source } = resistanceRange(chemistry, cells, capacity * AMPERE_HOUR);
    expect(milliohms).toBeGreaterThanOrEqual(range[0] * 1e3 * 0.99);
    expect(milliohms).toBeLessThanOrEqual(range[1] * 1e3 * 1.01);
    expect(source.known).toBe("memory");
  });

  it("is widest where even the capacity is unknown", () => {
    for (const chemistry of CHEMISTRIES) {
      const [least, most] = widestResistanceRange(chemistry, 6);
      const { range } = resistanceRange(chemistry, 6, 100 * AMPERE_HOUR);
      expect(least).toBeLessThan(range[0]);
      expect(most).toBeGreaterThan(range[1]);
    }
  });
});
