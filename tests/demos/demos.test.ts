import { describe, expect, it } from "vitest";
import { runChecks } from "../../core/checks/run.ts";
import { Names } from "../../core/checks/text.ts";
import { analyse } from "../../core/circuit/analyse.ts";
import { overlap } from "../../core/geometry/boxes.ts";
import { labelBox, labelOf } from "../../core/layout/label.ts";
import { titleBlockOf } from "../../core/layout/paper.ts";
import { placedViews } from "../../core/layout/placed-view.ts";
import { routedSheet } from "../../core/layout/route.ts";
import { writeProject } from "../../core/project/write.ts";
import { throughParts } from "../core/layout/measures.ts";
import { demos, isFaulty, row } from "./demo-files.ts";

it("has two sound vehicles and a faulty twin of each", () => {
  const sound = demos.filter((demo) => !isFaulty(demo)).map(({ name }) => name);
  const faulty = demos.filter(isFaulty).map(({ name }) => name);
  expect(sound).toEqual(["farm-pickup-96v", "yard-tug-48v"]);
  expect(faulty).toEqual(sound.map((name) => `${name}-faulty`));
});

describe.each(demos.map((demo) => [demo.name, demo] as const))("%s", (_name, demo) => {
  const { project } = demo;
  const run = runChecks(analyse(project));
  const names = new Names(project);

  it("has exactly the findings of its README", () => {
    const found = run.findings.map(({ check, severity, failure }) =>
      row(check.id, severity, failure.where[0] === undefined ? "" : names.place(failure.where[0])),
    );
    expect(found.sort()).toEqual([...demo.expected].sort());
  });

  if (isFaulty(demo)) {
    it("teaches at least six different mistakes", () => {
      expect(new Set(run.findings.map(({ check }) => check.id)).size).toBeGreaterThanOrEqual(6);
    });
  } else {
    it("has nothing above NOTICE and leaves nothing unchecked", () => {
      expect(run.counts).toMatchObject({ DANGER: 0, WARNING: 0, CAUTION: 0 });
      expect(run.counts.passed).toBeGreaterThan(500);
      expect(run.notChecked).toEqual([]);
    });
  }

  it("is written as the program writes it", () => {
    expect(writeProject(project)).toBe(demo.text);
  });

  it.each(project.sheets.map((sheet) => [sheet.name, sheet] as const))(
    "sheet %s: every wire has a clear way, none through a part, no text over another",
    (_sheet, sheet) => {
      const routed = routedSheet(project, sheet.id);
      expect(routed.notes).toEqual([]);
      expect(throughParts(project, sheet.id, routed.paths)).toEqual([]);
      const views = placedViews(project, sheet.id);
      const here = new Set(views.flatMap(({ part, pins }) => pins.map((pin) => `${part.id}:${pin.terminal}`)));
      for (const wire of project.wires) {
        const shown = wire.ends.some((end) => end !== null && here.has(`${end[0]}:${end[1]}`));
        const lines = routed.paths.get(wire.id) ?? [];
        expect(lines.length > 0, wire.number).toBe(shown);
        for (const line of lines) expect(line.length, wire.number).toBeGreaterThanOrEqual(2);
      }
      views.forEach((view, index) => {
        expect(overlap(view.box, titleBlockOf(sheet)), view.part.designation).toBe(false);
        const text = labelBox(labelOf(view));
        for (const other of views.slice(index + 1)) {
          const what = `${view.part.designation} ${other.part.designation}`;
          expect(overlap(view.box, other.box), what).toBe(false);
          const theirs = labelBox(labelOf(other));
          if (text !== undefined && theirs !== undefined) expect(overlap(text, theirs), what).toBe(false);
        }
      });
    },
  );
});
