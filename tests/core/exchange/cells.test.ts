import { describe, expect, test } from "vitest";
import { readEnd, readInsulation, readMillimetres, readParameters, readYesNo } from "../../../core/exchange/cells.ts";

describe("insulation: material, volts, temperature, any of them", () => {
  test.each([
    ["600 V", { volts: "600 V" }],
    ["XLPE 600 V 90 C", { material: "XLPE", volts: "600 V", temperature: "90 C" }],
    ["XLPE 1,5 kV 125°C", { material: "XLPE", volts: "1,5 kV", temperature: "125°C" }],
    ["90 C", { temperature: "90 C" }],
    ["105 °C 60V", { volts: "60V", temperature: "105 °C" }],
    ["silicone rubber", { material: "silicone rubber" }],
    ["PA12 300 V", { material: "PA12", volts: "300 V" }],
    ["PVC", { material: "PVC" }],
  ])("%s", (text, value) => expect(readInsulation(text)).toEqual({ ok: true, value }));

  test.each(["600", "XLPE 600", "PVC 600 V 90"])("%s lacks a unit", (text) => {
    expect(readInsulation(text)).toEqual({
      ok: false,
      why: `"${text}" holds a figure without V or C behind it. Write it like XLPE 600 V 90 C.`,
    });
  });
});

describe("parameters", () => {
  test.each([
    ["rating=125 A; voltageDc=125 V", { rating: "125 A", voltageDc: "125 V" }],
    [" rating = 125 A ;", { rating: "125 A" }],
    ["curvePoints=2:100 s; 5:0.5 s; rating=60 A", { curvePoints: "2:100 s; 5:0.5 s", rating: "60 A" }],
    ["note=a=b", { note: "a=b" }],
    ["finish-B+=booted", { "finish-B+": "booted" }],
    ["", {}],
  ])("%s", (text, value) => expect(readParameters(text)).toEqual({ ok: true, value }));

  test.each([
    ["125 A", /has no equals sign/],
    ["=125 A", /has no equals sign/],
    ["rating=1 A; rating=2 A", /^rating stands twice/],
    ["__proto__=1", /^__proto__ cannot be used as a name/],
    ["constructor=1", /^constructor cannot be used as a name/],
  ])("%s", (text, why) => {
    const read = readParameters(text);
    expect(read.ok ? "" : read.why).toMatch(why);
  });
});

test.each([
  ["F1:1", { designation: "F1", terminal: "1" }],
  ["G1: +", { designation: "G1", terminal: "+" }],
  ["G1:a:b", { designation: "G1", terminal: "a:b" }],
  ["F1", undefined],
  ["F1:", undefined],
  [":1", undefined],
  ["", undefined],
])("end %s, split at the first colon", (text, value) => {
  const read = readEnd(text);
  expect(read.ok ? read.value : undefined).toEqual(value);
});

test.each([
  ["40", 40],
  ["40,5", 40.5],
  ["-12.5 mm", -12.5],
  ["-0", 0],
  ["1e9", undefined],
  ["999999999", undefined],
  ["4 cm", undefined],
])("%s mm", (text, value) => {
  const read = readMillimetres(text);
  expect(read.ok ? read.value : undefined).toEqual(value);
});

test.each([
  ["yes", true],
  ["No", false],
  ["Y", true],
  ["FALSE", false],
  ["perhaps", undefined],
  ["1", undefined],
])("%s", (text, value) => {
  const read = readYesNo(text);
  expect(read.ok ? read.value : undefined).toBe(value);
});
