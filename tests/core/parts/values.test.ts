/** Parameters as typed: what is stated, what the default is, what nobody knows, and what is refused in which words. */
import { describe, expect, it } from "vitest";
import { kindOf } from "../../../core/parts/catalogue.ts";
import type { PartKind } from "../../../core/parts/define.ts";
import { parseCurve } from "../../../core/parts/curve.ts";
import { normaliseParameter, readValues } from "../../../core/parts/values.ts";

const kind = (name: string): PartKind => {
  const found = kindOf(name);
  if (found === undefined) throw new Error(`there is no kind ${name}`);
  return found;
};
const refused = (name: string, parameter: string, text: string): string => {
  const spec = kind(name).parameters[parameter];
  if (spec === undefined) throw new Error(`${name} has no ${parameter}`);
  const normalised = normaliseParameter(spec, text);
  return normalised.ok ? `taken as ${normalised.text}` : normalised.why;
};

describe("a part's parameters", () => {
  const block = kind("battery-block");

  it("are SI numbers, choices and texts", () => {
    const values = readValues(block, { capacity: "100 Ah", chemistry: "AGM-lead", cells: "3" });
    expect(values.number("capacity")).toBe(360_000);
    expect(values.choice("chemistry")).toBe("agm-lead");
    expect(values.number("cells")).toBe(3);
  });

  it("tell stated, default, unstated and unknown apart", () => {
    const values = readValues(block, { capacity: null, cells: null, chemistry: "nmc" });
    expect(values.stated("chemistry")).toBe("confirmed");
    expect(values.stated("capacity")).toBe("unknown");
    expect(values.stated("resistance")).toBe("unstated");
    expect(readValues(block, {}).stated("cells")).toBe("default");
    expect(readValues(block, {}).number("cells")).toBe(6);
    // Someone looked and does not know: then the default is not put in its place.
    expect(values.number("cells")).toBeUndefined();
  });

  it("read a text that says nothing as unstated, and know no names that the kind lacks", () => {
    const values = readValues(block, { capacity: "lots", constructor: "1 V", colour: "red" });
    expect(values.number("capacity")).toBeUndefined();
    expect(values.stated("capacity")).toBe("unstated");
    expect(values.text("constructor")).toBeUndefined();
    expect(values.text("colour")).toBeUndefined();
    expect(values.text("toString")).toBeUndefined();
  });

  it("takes ohm or volts for a throttle's ends, with their unit only", () => {
    const controller = kind("dc-controller");
    expect(readValues(controller, { throttleFull: "5 kohm" }).number("throttleFull")).toBe(5000);
    expect(readValues(controller, { throttleFull: "3.6 V" }).number("throttleFull")).toBe(3.6);
    expect(refused("dc-controller", "throttleFull", "5")).toMatch(/write the unit/);
  });
});

describe("a typed parameter", () => {
  it("is stored tidied", () => {
    expect(refused("resistor", "resistance", "4k7")).toBe("taken as 4.7 kohm");
    expect(refused("charger", "mainsPlug", " Yes ")).toBe("taken as yes");
    expect(refused("control-unit", "out-1-follows", " driving and in-1 ")).toBe("taken as driving and in-1");
  });

  it.each([
    ["battery-block", "chemistry", "lead", /choose one of flooded-lead, agm-lead/],
    ["battery-block", "cells", "2.5", /whole number/],
    ["battery-block", "cells", "0", /least possible is 1/],
    ["dc-dc-converter", "efficiency", "120 %", /most possible is 100 %/],
    ["fuse", "rating", "12 V", /current/],
    ["fuse", "curvePoints", "2:100 s", /2 to 40 points/],
    ["control-unit", "out-1-follows", "driving; in-1", /was not expected/],
    ["control-unit", "out-1-follows", "  ", /nothing is written/],
  ])("of %s %s is refused: %s", (name, parameter, text, why) => {
    expect(refused(name, parameter, text)).toMatch(why);
  });
});

describe("a time-current curve", () => {
  it("is points of multiple and time", () => {
    expect(parseCurve("1.35:1800 s; 2:100 s;6: 50 ms;")).toEqual({
      ok: true,
      points: [
        { multiple: 1.35, time: 1800 },
        { multiple: 2, time: 100 },
        { multiple: 6, time: 0.05 },
      ],
      text: "1.35:1800 s; 2:100 s; 6:50 ms",
    });
  });

  it.each([
    ["2:100 s; 2:50 s", /multiples rise/],
    ["2:10 s; 3:50 s", /times fall/],
    ["0.5:100 s; 2:50 s", /start at 1/],
    ["2:100; 3:50", /time/],
    ["2-100 s; 3:50 s", /colon/],
  ])("is refused where it makes no sense: %s", (text, why) => {
    const curve = parseCurve(text);
    expect(curve.ok).toBe(false);
    if (!curve.ok) expect(curve.why).toMatch(why);
  });
});
