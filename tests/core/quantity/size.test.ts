import { describe, expect, it } from "vitest";
import {
  circularMils,
  gaugeArea,
  gaugeDiameter,
  gaugeName,
  largestGaugeNotAbove,
  nextLargerSize,
  sizeFromGauge,
  sizeFromSquareMillimetres,
  smallestSizeAbove,
} from "../../../core/quantity/size.ts";

describe("gauges (ASTM B258)", () => {
  it("No. 36 and No. 0000 are the standard's two anchors: 0.0050 in and 0.4600 in", () => {
    expect(gaugeDiameter(36) / 0.0254).toBeCloseTo(0.005, 12);
    expect(gaugeDiameter(-3) / 0.0254).toBeCloseTo(0.46, 12);
  });

  it("10 AWG: 2.588 mm and 5.261 mm2 (published worked example)", () => {
    expect(gaugeDiameter(10) * 1e3).toBeCloseTo(2.588, 3);
    expect(gaugeArea(10) * 1e6).toBeCloseTo(5.261, 3);
  });

  // Areas and circular mils worked out from the standard's formula with another tool.
  it.each([
    ["4/0", -3, 107.219, 211600],
    ["2/0", -1, 67.431, 133077],
    ["2", 2, 33.631, 66371],
    ["6", 6, 13.302, 26251],
    ["18", 18, 0.823, 1624],
  ])("%s AWG", (name, gauge, mm2, cmil) => {
    expect(gaugeName(gauge)).toBe(name);
    expect(Math.abs((gaugeArea(gauge) * 1e6) / mm2 - 1)).toBeLessThan(1e-3);
    expect(Math.abs(circularMils(gaugeArea(gauge)) / cmil - 1)).toBeLessThan(1e-3);
  });
});

describe("between the two systems", () => {
  it("a metric size is looked up as the largest gauge not above it", () => {
    expect(largestGaugeNotAbove(35e-6)).toBe(2);
    expect(largestGaugeNotAbove(1.5e-6)).toBe(16);
    expect(largestGaugeNotAbove(0.75e-6)).toBe(20);
    expect(largestGaugeNotAbove(gaugeArea(6))).toBe(6);
    expect(largestGaugeNotAbove(300e-6)).toBe(-3);
    expect(largestGaugeNotAbove(0.01e-6)).toBeUndefined();
    expect(largestGaugeNotAbove(1e-6, [14, 18])).toBe(18);
  });

  it("the next size up stays in its system", () => {
    expect(nextLargerSize(sizeFromGauge(6))?.text).toBe("4 AWG");
    expect(nextLargerSize(sizeFromGauge(-3))).toBeUndefined();
    expect(nextLargerSize(sizeFromSquareMillimetres(35))?.text).toBe("50 mm2");
    expect(nextLargerSize(sizeFromSquareMillimetres(240))).toBeUndefined();
    expect(smallestSizeAbove(11.87e-6, "mm2")?.text).toBe("16 mm2");
    expect(smallestSizeAbove(11.87e-6, "AWG")?.text).toBe("6 AWG");
  });
});
