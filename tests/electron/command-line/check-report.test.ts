/** The report for a reader, on a check made up for it: everything a finding says is there, and nothing is joined up wrongly. */
import { expect, it } from "vitest";
import { defineCheck } from "../../../core/checks/define.ts";
import { runChecks } from "../../../core/checks/run.ts";
import { analyse } from "../../../core/circuit/analyse.ts";
import { readProject } from "../../../core/project/read.ts";
import { checkReport } from "../../../electron/command-line/check-report.ts";
import { driveCircuit } from "./loomwright.ts";

const withstands = { splice: true, busbar: true, connector: true, contact: true, rename: true } as const;

const warm = defineCheck({
  id: "fuse-warm",
  group: "overcurrent",
  title: "Fuse warm",
  about: "Made up for this test.",
  severities: ["WARNING"],
  source: { text: "A standard made up for this test, clause 7", known: "memory" },
  reads: "document",
  withstands,
  without: {},
  messages: {
    warm: { title: "{fuse} is warm.", why: "Warm fuses age.", mend: "Fit a larger one than {fuse}." },
  },
  reasons: { unstated: "Nobody knows what {fuse} carries." },
  run(_analysis, report) {
    const place = { part: "p2" };
    report.fails({
      message: "warm",
      facts: { fuse: { place } },
      severity: "WARNING",
      where: [place, { wire: "w1" }],
      states: ["driving", "ready"],
    });
    report.notChecked({
      where: [{ part: "p1", terminal: "+" }],
      reason: "unstated",
      facts: { fuse: { place } },
      missing: [{ part: "p1", parameter: "resistance" }],
    });
    report.passes({ wire: "w2" }, { wire: "w3" });
    report.doesNotApply({ wire: "w4" });
  },
});

function report(): string {
  const read = readProject(driveCircuit());
  if (!read.ok) throw new Error(read.problems.join("\n"));
  const analysis = analyse(read.project);
  return checkReport("tug.loomwright", read.project, analysis, runChecks(analysis, [warm]));
}

it("names severity, places, states, the three sentences and the source of a finding", () => {
  expect(report()).toContain(
    [
      "WARNING  F1, wire W1  [fuse-warm]",
      "  F1 is warm.",
      "  In: driving, ready.",
      "  Why: Warm fuses age.",
      "  Mend: Fit a larger one than F1.",
      "  Source: A standard made up for this test, clause 7 (from memory: confirm it)",
    ].join("\n"),
  );
});

it("keeps what was not checked apart, with the field to fill in, and counts everything", () => {
  const text = report();
  const at = text.indexOf("\nNot checked (1)\n");
  expect(at).toBeGreaterThan(text.indexOf("fuse-warm"));
  expect(text.slice(at)).toContain("    G1:+: Nobody knows what F1 carries. Fill in G1.resistance.");
  expect(text.replace(/\s+/g, " ")).toContain(
    "0 DANGER, 1 WARNING, 0 CAUTION, 0 NOTICE, 0 accepted; 1 not checked; 2 passed; 1 do not apply.",
  );
});

it("stays within a terminal window's width", () => {
  for (const line of report().split("\n")) expect(line.length).toBeLessThanOrEqual(100);
});

it("says once what many wires lack, with how many they are", () => {
  const lacking = defineCheck({
    ...warm,
    run(analysis, report) {
      for (const { id } of analysis.network.project.wires) {
        report.notChecked({
          where: [{ wire: id }],
          reason: "unstated",
          facts: { fuse: { place: { wire: id } } },
          missing: [{ wire: id, field: "length" }],
        });
      }
    },
  });
  const read = readProject(driveCircuit());
  if (!read.ok) throw new Error(read.problems.join("\n"));
  const analysis = analyse(read.project);
  const wires = read.project.wires.length;
  expect(wires).toBeGreaterThan(3);
  const text = checkReport("tug.loomwright", read.project, analysis, runChecks(analysis, [lacking]));
  const spaced = text.replace(/\s+/g, " ");
  expect(spaced).toContain(
    `${wires} places: Nobody knows what wire W1 carries. The same holds for the others. Fill in W1.length, W2`,
  );
  expect(spaced).toContain(`Not checked (${wires})`);
  expect(text.match(/Nobody knows/g)).toHaveLength(1);
});
