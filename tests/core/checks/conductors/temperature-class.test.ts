/**
 * 33 CFR 183.425 table 5: 16 AWG carries 15 A at 60 C, 25 A at 105 C; 6 AWG 120 A at 105 C. At its ampacity in air of 30 C
 * a wire is as hot as its insulation may get: that is what the table means.
 */
import { expect, test } from "vitest";
import { runCheck } from "../../../../core/checks/run.ts";
import { temperatureClass } from "../../../../core/checks/conductors/temperature-class.ts";
import { analyse } from "../../../../core/circuit/analyse.ts";
import type { Parameters } from "../../../../core/project/document.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";
import type { WireOptions } from "../../../harness/drawing.ts";

const COOL: WireOptions = {
  size: "8 AWG",
  length: "0.2 m",
  insulation: { material: "XLPE", volts: "300 V", temperature: "125 C" },
  zones: ["outside"],
};
const at = (temperature: string | null): WireOptions => ({
  insulation: { material: "XLPE", volts: "300 V", temperature },
});

/** A 12 V lamp of so many watts (at about 12.8 V), one wire as the test says. */
const lamp = (power: Parameters, wire: WireOptions) =>
  drawing()
    .zone("engine", "engine", { ambient: "80 C" })
    .zone("outside", "outside", { ambient: "30 C" })
    .zone("underfloor", "underfloor")
    .part("G20", "battery-block", { duty: "auxiliary", chemistry: "agm-lead", cells: "6", resistance: "1 mohm" })
    .part("P1", "lamp", { voltage: "12.8 V", ...power })
    .wire("G20:+", "P1:+", { ...COOL, ...wire })
    .wire("P1:-", "G20:-", { ...COOL, size: "2/0 AWG" })
    .build();

checkTable(temperatureClass, {
  fails: [
    {
      name: "60 C insulation in an engine bay of 80 C, next to no current",
      drawing: lamp({ power: "2 W" }, { ...at("60 C"), zones: ["engine"] }),
      at: "W1",
      message: "hot",
      severity: "WARNING",
      remedies: ["insulate-for-heat"],
      value: 353.15,
      limit: 333.15,
    },
    {
      name: "105 C insulation at 80 C, made hotter by its current",
      drawing: lamp({ power: "220 W" }, { ...at("105 C"), size: "16 AWG", zones: ["outside", "engine"] }),
      at: "W1",
      message: "hot",
      severity: "WARNING",
      remedies: ["thicker-wire", "insulate-for-heat"],
    },
    {
      name: "more than its ampacity in air of 30 C",
      drawing: lamp({ power: "400 W" }, { ...at("105 C"), size: "16 AWG" }),
      at: "W1",
      message: "hot",
      severity: "WARNING",
      remedies: ["thicker-wire", "insulate-for-heat"],
    },
    {
      name: "hot in one zone, and the other one's heat is not known",
      drawing: lamp({ power: "2 W" }, { ...at("75 C"), zones: ["underfloor", "engine"] }),
      at: "W1",
      message: "hot",
      severity: "WARNING",
      remedies: [],
    },
  ],
  passes: [
    {
      name: "105 C insulation in the engine bay, little current",
      drawing: lamp({ power: "20 W" }, { ...at("105 C"), size: "16 AWG", zones: ["engine"] }),
      at: ["W1", "W2"],
    },
    {
      name: "just below its ampacity in air of 30 C",
      drawing: lamp({ power: "300 W" }, { ...at("105 C"), size: "16 AWG" }),
      at: "W1",
    },
    {
      name: "no current at all",
      drawing: drawing()
        .zone("engine", "engine", { ambient: "80 C" })
        .parts("lamp", { voltage: "12 V", power: "5 W" }, "P1", "P2")
        .wire("P1:+", "P2:+", { ...COOL, zones: ["engine"] })
        .build(),
      at: "W1",
    },
  ],
  notChecked: [
    {
      name: "a class that nobody stated",
      drawing: lamp({ power: "2 W" }, at(null)),
      at: "W1",
      reason: "insulation",
      missing: ["W1.insulation.temperature"],
    },
    {
      name: "nobody said where it runs",
      drawing: lamp({ power: "2 W" }, { zones: [] }),
      at: "W1",
      reason: "zones",
      missing: ["W1.zones"],
    },
    {
      name: "a zone of unknown heat",
      drawing: lamp({ power: "2 W" }, { zones: ["outside", "underfloor"] }),
      at: "W1",
      reason: "ambient",
      missing: ["underfloor.ambient"],
    },
    {
      name: "no size",
      drawing: lamp({ power: "2 W" }, { size: null }),
      at: "W1",
      reason: "size",
      missing: ["W1.size"],
    },
    {
      name: "thinner than the table goes",
      drawing: lamp({ power: "2 W" }, { size: "0.5 mm2" }),
      at: "W1",
      reason: "small",
      missing: [],
    },
    {
      name: "a class below the table's",
      drawing: lamp({ power: "2 W" }, at("50 C")),
      at: "W1",
      reason: "class",
      missing: [],
    },
    {
      name: "a lamp of unstated power: hot at one end of what it may draw",
      drawing: lamp({}, { ...at("80.1 C"), size: "18 AWG", zones: ["engine"] }),
      at: "W1",
      reason: "range",
      missing: ["P1.power"],
    },
    {
      name: "a supply of unstated limit",
      drawing: drawing()
        .zone("outside", "outside", { ambient: "30 C" })
        .part("G1", "dc-source", { voltage: "12 V" })
        .part("E1", "load", { voltage: "12 V", power: "60 W" })
        .wire("G1:+", "E1:+", COOL)
        .wire("E1:-", "G1:-", COOL)
        .build(),
      at: ["W1", "W2"],
      reason: "current",
      missing: ["G1.currentMax"],
    },
  ],
  doesNotApply: [{ name: "no wire", drawing: drawing().part("P1", "lamp").build() }],
});

test.each([
  ["16 AWG", 25],
  ["6 AWG", 120],
])("%s of 105 C in air of 30 C: passes just below %d A, fails just above", (size, amperes) => {
  const outcomeAt = (current: number) => {
    const watts = `${(12.8 * current).toFixed(1)} W`;
    return runCheck(temperatureClass, analyse(lamp({ power: watts }, { ...at("105 C"), size, length: "0.01 m" })));
  };
  expect(outcomeAt(amperes * 0.95).failures).toEqual([]);
  expect(outcomeAt(amperes * 1.1).failures.map(({ where }) => where[0])).toEqual([{ wire: "w1" }]);
});
