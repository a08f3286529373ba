/** The report for a reader, on a check made up for it: everything a finding says is there, and nothing is joined up wrongly. */
import { expect, it } from "vitest";
import { defineCheck } from "../../../core/checks/define.ts";
import { dataMissing } from "../../../core/checks/drawing/data-missing.ts";
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

it("numbers the findings and names severity, places with what they are, states, the three sentences and the source", () => {
  expect(report()).toContain(
    [
      "1. WARNING  Fuse warm  [fuse-warm]",
      "    F1 is warm.",
      "    At: F1 (Fuse), wire W1",
      "    In: driving and ready",
      "    Why: Warm fuses age.",
      "    Mend: Fit a larger one than F1.",
      "    Source: A standard made up for this test, clause 7 (from memory, to be confirmed)",
    ].join("\n"),
  );
});

it("keeps what was not checked apart, with the field to fill in, where it is found and what waits, and counts everything", () => {
  const text = report();
  const at = text.indexOf("\nNot checked (1)\n");
  expect(at).toBeGreaterThan(text.indexOf("fuse-warm"));
  expect(text.slice(at).replace(/\s+/g, " ")).toMatch(
    /Fill these in, those on top first: Internal resistance, of G1\. .+\. Needed for: fuse-warm\./,
  );
  expect(text.replace(/\s+/g, " ")).toContain(
    "0 DANGER, 1 WARNING, 0 CAUTION, 0 NOTICE, 0 accepted; 1 not checked; 2 passed; 1 do not apply.",
  );
});

/** A check that fails at every fuse and wire, all for one cause, and whose findings another check's follow. */
const parts = defineCheck({
  ...warm,
  run(analysis, report) {
    for (const { id } of analysis.network.project.wires) {
      report.fails({
        message: "warm",
        facts: { fuse: { place: { wire: id } } },
        severity: "NOTICE",
        where: [{ wire: id }],
        cause: "heat",
      });
    }
  },
});
const after = defineCheck({
  ...warm,
  id: "fuse-gone",
  title: "Fuse gone",
  foldsUnder: ["fuse-warm"],
  run(analysis, report) {
    for (const { id } of analysis.network.project.wires.slice(0, 2)) {
      report.fails({
        message: "warm",
        facts: { fuse: { place: { wire: id } } },
        severity: "WARNING",
        where: [{ wire: id }],
      });
    }
  },
});

it("tells what folds under a finding by check, with all its places", () => {
  const read = readProject(driveCircuit());
  if (!read.ok) throw new Error(read.problems.join("\n"));
  const analysis = analyse(read.project);
  const count = read.project.wires.length;
  const text = checkReport("tug.loomwright", read.project, analysis, runChecks(analysis, [parts, after]));
  expect(text).toContain("\nFindings (1)");
  expect(text).toContain(`\n    The same at: wires W2 to W${count}\n`);
  expect(text).toContain("\n    Follows from it: WARNING Fuse gone: wires W1 and W2 [fuse-gone]\n");
});

it("stays within a terminal window's width", () => {
  for (const line of report().split("\n")) expect(line.length).toBeLessThanOrEqual(100);
});

/** A check that cannot check any wire, for want of these fields of it. */
const lacking = (...fields: readonly string[]) =>
  defineCheck({
    ...warm,
    run(analysis, report) {
      for (const { id } of analysis.network.project.wires) {
        report.notChecked({
          where: [{ wire: id }],
          reason: "unstated",
          facts: { fuse: { place: { wire: id } } },
          missing: fields.map((field) => ({ wire: id, field })),
        });
      }
    },
  });

function lackingReport(...fields: readonly string[]): { readonly text: string; readonly wires: number } {
  const read = readProject(driveCircuit());
  if (!read.ok) throw new Error(read.problems.join("\n"));
  const analysis = analyse(read.project);
  const run = runChecks(analysis, [lacking(...fields), dataMissing]);
  const text = checkReport("tug.loomwright", read.project, analysis, run);
  return { text: text.replace(/\s+/g, " "), wires: read.project.wires.length };
}

it("says once what many wires lack, and does not list it among the findings as well", () => {
  const { text, wires } = lackingReport("length", "size");
  expect(wires).toBeGreaterThan(3);
  expect(text).toContain(`Not checked (${wires})`);
  expect(text).toContain(`Length, of wires W1 to W${wires}. Measure it`);
  expect(text).toContain(`Size, of wires W1 to W${wires}. Printed on the wire. Needed for:`);
  expect(text).toContain("Findings (0)");
  expect(text).toContain("1 NOTICE below stands for these fields (number 1).");
  expect(text).not.toContain("data-missing");
});

it("says once why what no field would open cannot be told", () => {
  const { text, wires } = lackingReport();
  expect(text.match(/Nobody knows/g)).toHaveLength(1);
  expect(text).toContain(`Nobody knows what wire W1 carries. Likewise: wires W2 to W${wires}.`);
});
