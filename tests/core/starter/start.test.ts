/**
 * Starter drawings: sound by every check of the catalogue, nothing left unchecked, sized as the published tables have it.
 */
import { describe, expect, test } from "vitest";
import { runChecks } from "../../../core/checks/run.ts";
import { analyse } from "../../../core/circuit/analyse.ts";
import { readProject } from "../../../core/project/read.ts";
import { writeProject } from "../../../core/project/write.ts";
import { readAnswers } from "../../../core/starter/answers.ts";
import { startDrawing } from "../../../core/starter/start.ts";
import type { Project } from "../../../core/project/document.ts";

const GIVEN = {
  format: "loomwright-answers",
  version: 1,
  vehicle: "Orchard tractor",
  author: "A. Fitter",
  date: "2026-11-25",
};

function drawn(answers: object): Project {
  const read = readAnswers(JSON.stringify({ ...GIVEN, ...answers }));
  if (!read.ok) throw new Error(read.problems.join(" "));
  return startDrawing(read.answers);
}

const VEHICLES: readonly (readonly [string, object])[] = [
  ["series motor on lead", { pack: { chemistry: "agm-lead", volts: 96 }, motor: "series", current: "150 A" }],
  [
    "electronics fed from the pack, reversing",
    {
      pack: { chemistry: "flooded-lead", volts: 48 },
      motor: "separately-excited",
      current: 110,
      logic: "pack-fed",
      reversing: true,
    },
  ],
  [
    "two lithium strings, everything on board",
    {
      pack: { chemistry: "lifepo4", volts: 144, strings: 2 },
      motor: "ac",
      current: 200,
      heater: true,
      isolationMonitor: true,
      reversing: true,
    },
  ],
  [
    "high voltage, gauges",
    { pack: { chemistry: "nmc", volts: 350 }, motor: "ac", current: 120, sizes: "AWG", heater: true },
  ],
  [
    "bare: no charger, no converter",
    {
      pack: { chemistry: "gel-lead", volts: 72 },
      motor: "series",
      current: 200,
      reversing: true,
      logic: "pack-fed",
      converter: false,
      charger: false,
      gauge: false,
      shunt: false,
    },
  ],
  ["small", { pack: { chemistry: "flooded-lead", volts: 36 }, motor: "permanent-magnet", current: 60, shunt: false }],
];

describe.each(VEHICLES)("%s", (_, answers) => {
  const project = drawn(answers);

  test("has no finding above NOTICE and nothing unchecked", () => {
    const run = runChecks(analyse(project));
    const grave = run.findings.filter(({ severity }) => severity !== "NOTICE");
    expect(grave.map(({ title }) => title)).toEqual([]);
    expect(run.notChecked.map(({ check, why }) => `${check}: ${why}`)).toEqual([]);
    expect(run.counts.passed).toBeGreaterThan(500);
  });

  test("is a project file like any other, and comes out the same every time", () => {
    const text = writeProject(project);
    const read = readProject(text);
    expect(read.ok && writeProject(read.project)).toBe(text);
    expect(writeProject(drawn(answers))).toBe(text);
  });

  test("reaches every state that it has the controls for", () => {
    const { states } = analyse(project);
    const driving = states.find(({ name }) => name === "driving");
    const index = analyse(project).network.parts.findIndex(({ part }) => part.designation === "T1");
    expect(driving?.partStates[index]?.["drive"]).toBe("forward");
  });
});

describe("sizes", () => {
  test("200 A in an engine bay: 33 CFR 183.425 table 5 in the 125 C column times 0.89", () => {
    // 200 A need a 250 A fuse (at most 80 % loaded, NEC 210.20). 2 AWG: 225 A x 0.89 = 200 A carries them, but the next
    // standard fuse above it is 225 A; 1 AWG: 265 A x 0.89 = 236 A, next 250 A (33 CFR 183.455(c)).
    const project = drawn({
      pack: { chemistry: "agm-lead", volts: 120 },
      motor: "series",
      current: 200,
      sizes: "AWG",
      converter: false,
    });
    const fuse = project.parts.find(({ designation }) => designation === "F1");
    const main = project.wires.find(({ ends }) => ends[0]?.[0] === fuse?.id);
    expect(main?.size).toBe("1 AWG");
    expect(project.parts.find(({ designation }) => designation === "F1")?.parameters["rating"]).toBe("250 A");
  });

  test("pre-charge to 95 % within 0.8 s: R is at most t / (C ln 20)", () => {
    const project = drawn({ pack: { chemistry: "agm-lead", volts: 144 }, motor: "series", current: 100 });
    const ohms = Number.parseFloat(
      project.parts.find(({ designation }) => designation === "R1")?.parameters["resistance"] ?? "",
    );
    const millifarads = Number.parseFloat(
      project.parts.find(({ designation }) => designation === "T1")?.parameters["inputCapacitance"] ?? "",
    );
    expect(ohms).toBeLessThanOrEqual(0.8 / (millifarads * 1e-3 * Math.log(20)));
    expect(ohms).toBeGreaterThan(0.4 / (millifarads * 1e-3 * Math.log(20)));
  });
});

describe("answers", () => {
  const problemsOf = (answers: object): readonly string[] => {
    const read = readAnswers(JSON.stringify({ ...GIVEN, ...answers }));
    return read.ok ? [] : read.problems;
  };
  const sound = { pack: { chemistry: "agm-lead", volts: 96 }, motor: "series", current: 150 };

  test.each([
    ["{", "holds no JSON"],
    ["[]", "The whole"],
    ["null", "The whole"],
  ])("%s is told", (text, told) => {
    const read = readAnswers(text);
    expect(read.ok ? "" : read.problems.join(" ")).toContain(told);
  });

  test.each([
    [{ ...sound, motor: "steam" }, '"motor": write one of "series"'],
    [{ ...sound, current: "150 V" }, '"current"'],
    [{ ...sound, current: 900 }, "choose between 20 A and 250 A"],
    [{ ...sound, pack: { chemistry: "agm-lead", volts: 100 } }, "multiple of 12 V"],
    [{ ...sound, pack: { chemistry: "lifepo4", volts: 96 }, monitor: false }, "lithium cells need a battery monitor"],
    [{ ...sound, colour: "red" }, '"colour" is no answer that is asked for'],
    [{ ...sound, heater: "yes" }, "write true or false"],
    [{ ...sound, version: 2 }, "version 1"],
  ])("%j", (answers, told) => {
    expect(problemsOf(answers).join(" ")).toContain(told);
  });

  test("a figure with its unit and a bare one mean the same", () => {
    expect(writeProject(drawn({ ...sound, current: "150 A" }))).toBe(writeProject(drawn(sound)));
  });
});
