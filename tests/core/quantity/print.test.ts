import { describe, expect, it } from "vitest";
import { plainNumber, printQuantity } from "../../../core/quantity/print.ts";
import { gaugeArea } from "../../../core/quantity/size.ts";

describe("numbers for people", () => {
  it.each([
    [58.4, "voltage", "58.4 V"],
    [176.4, "voltage", "176.4 V"],
    [-0.7, "voltage", "-0.7 V"],
    [0.5706, "voltage", "0.5706 V"],
    [0.05, "voltage", "50 mV"],
    [0, "voltage", "0 V"],
    [60.1, "voltage", "60.1 V"],
    [2056.4, "current", "2056 A"],
    [12000, "current", "12 kA"],
    [0.0009999999, "current", "1 mA"],
    [0.0003, "resistance", "0.3 mohm"],
    [50e-6, "resistance", "50 uohm"],
    [5000, "resistance", "5 kohm"],
    [1e7, "resistance", "10 Mohm"],
    [138.9, "resistance-per-volt", "138.9 ohm/V"],
    [103.68, "energy", "103.7 J"],
    [0.01, "capacitance", "10 mF"],
    [330e-6, "capacitance", "330 uF"],
    [0.025, "time", "25 ms"],
    [2.996, "time", "2.996 s"],
    [3600, "time", "60 min"],
    [360000, "charge", "100 Ah"],
    [378.15, "temperature", "105 °C"],
    [20, "temperature-difference", "20 K"],
    [11.3, "torque", "11.3 Nm"],
    [0.0839, "ratio", "8.39 %"],
    [12, "count", "12"],
    [0.178, "length", "178 mm"],
    [1.016, "length", "1.016 m"],
    [Number.NaN, "voltage", "unknown"],
    [Number.POSITIVE_INFINITY, "resistance", "beyond measure"],
  ] as const)("%d as %s", (value, dimension, text) => {
    expect(printQuantity(value, dimension)).toBe(text);
  });

  it("follows the user's units", () => {
    expect(printQuantity(0.178, "length", { length: "imperial" })).toBe("7.008 in");
    expect(printQuantity(1.8288, "length", { length: "imperial" })).toBe("6 ft");
    expect(printQuantity(373.15, "temperature", { temperature: "fahrenheit" })).toBe("212 °F");
    expect(printQuantity(11.298, "torque", { torque: "imperial" })).toBe("100 in-lb");
  });

  it("tells a size in the user's system first, the other in brackets", () => {
    expect(printQuantity(gaugeArea(-1), "size")).toBe("2/0 AWG (67.4 mm2)");
    expect(printQuantity(gaugeArea(-1), "size", { size: "mm2" })).toBe("67.4 mm2 (2/0 AWG)");
    expect(printQuantity(35e-6, "size")).toBe("35 mm2 (between 2 and 1 AWG)");
    expect(printQuantity(35e-6, "size", { size: "AWG" })).toBe("between 2 and 1 AWG (35 mm2)");
    expect(printQuantity(1e-6, "size")).toBe("1 mm2 (between 18 and 16 AWG)");
    expect(printQuantity(126.677e-6, "size")).toBe("250 kcmil (127 mm2)");
    expect(printQuantity(0.03e-6, "size")).toBe("0.03 mm2 (thinner than 30 AWG)");
  });

  it("keeps whole digits and drops empty ones", () => {
    expect(plainNumber(123456, 4)).toBe("123456");
    expect(plainNumber(1.5, 4)).toBe("1.5");
    expect(plainNumber(-0.00000000000004, 4)).toBe("0");
    expect(plainNumber(100, 4)).toBe("100");
  });
});
