import { expect, test } from "vitest";
import { analyse } from "../../../../core/circuit/analyse.ts";
import { defineCheck } from "../../../../core/checks/define.ts";
import type { MissingField } from "../../../../core/checks/define.ts";
import { dataMissing } from "../../../../core/checks/drawing/data-missing.ts";
import { runChecks } from "../../../../core/checks/run.ts";
import { checkTable } from "../../../harness/check-table.ts";
import { drawing } from "../../../harness/drawing.ts";

/** Asks for a rating of everything that has one, a length of every wire, a lid's fastening and a vehicle. */
const asking = defineCheck({
  id: "asking",
  group: "conductors",
  title: "Asking",
  about: "Asks.",
  severities: ["NOTICE"],
  source: { text: "common practice", known: "none" },
  reads: "document",
  withstands: { splice: true, busbar: true, connector: true, contact: true, rename: true },
  without: {},
  messages: { none: { title: "N.", why: "N.", mend: "N." } },
  reasons: { lacking: "Lacking." },
  run({ network: { parts, project } }, report) {
    const ask = (field: MissingField): void =>
      report.notChecked({ where: [{ part: "p1" }], reason: "lacking", missing: [field] });
    for (const { part, kind, values } of parts) {
      if (Object.hasOwn(kind.parameters, "rating") && values.number("rating") === undefined)
        ask({ part: part.id, parameter: "rating" });
    }
    for (const wire of project.wires) if (wire.length === undefined) ask({ wire: wire.id, field: "length" });
    for (const { id, toolClosed } of project.enclosures)
      if (toolClosed === undefined) ask({ enclosure: id, field: "toolClosed" });
    for (const { id, ambient } of project.zones) if (ambient === null) ask({ zone: id, field: "ambient" });
    if (project.title.vehicle === undefined) ask({ title: "vehicle" });
  },
});

const lamp = (length?: string) =>
  drawing()
    .part("G20", "battery-block", { chemistry: "agm-lead" })
    .part("P1", "lamp")
    .wires(length === undefined ? {} : { length }, "G20:+ - P1:+", "G20:- - P1:-");

checkTable(dataMissing, {
  earlier: [asking],
  fails: [
    {
      name: "two wires without a length: one finding",
      drawing: lamp().build(),
      at: "W1",
      message: "wire",
      severity: "NOTICE",
    },
    {
      name: "fuses and a breaker of unstated rating: one finding",
      drawing: lamp("1 m").parts("fuse", {}, "F1", "F2", "F3").part("F4", "circuit-breaker").build(),
      at: "F1",
      message: "part",
      severity: "NOTICE",
    },
    {
      name: "a box of which nobody said how it opens",
      drawing: lamp("1 m").enclosure("battery box").build(),
      at: "G20",
      message: "enclosure",
      severity: "NOTICE",
    },
    {
      name: "an engine bay of unknown heat",
      drawing: lamp("1 m").zone("engine", "engine bay", { ambient: null }).build(),
      at: "G20",
      message: "zone",
      severity: "NOTICE",
    },
    {
      name: "no vehicle named",
      drawing: lamp("2 m").title({}).build(),
      at: "G20",
      message: "title",
      severity: "NOTICE",
    },
  ],
  passes: [
    { name: "lengths stated", drawing: lamp("1 m").build(), at: ["W1", "G20"] },
    { name: "a fuse with its rating", drawing: lamp("1 m").part("F1", "fuse", { rating: "10 A" }).build(), at: ["F1"] },
    {
      name: "a box that opens with a tool",
      drawing: lamp("1 m").enclosure("battery box", { toolClosed: true }).build(),
      at: ["P1"],
    },
    { name: "what lacks nothing passes beside what does not", drawing: lamp("3 m").build(), at: ["P1"] },
  ],
  doesNotApply: [{ name: "an empty sheet", drawing: drawing().build() }],
});

test("a drawing imported without any data gets a handful of findings, however many wires and parts", () => {
  const sketch = drawing().part("G20", "battery-block").part("X1", "chassis-point");
  for (let lamp = 1; lamp <= 40; lamp += 1) {
    sketch.part(`F${lamp}`, "fuse").part(`P${lamp}`, "lamp");
    sketch.wires({}, `G20:+ - F${lamp}:1`, `F${lamp}:2 - P${lamp}:+`, `P${lamp}:- - X1:stud`);
  }
  const run = runChecks(analyse(sketch.build()), [asking, dataMissing]);
  expect(run.findings.map(({ title }) => title)).toEqual([
    'Not stated of F1 to F40: "Rating".',
    'Not stated of wires W1 to W120: "Length".',
  ]);
  expect(run.counts.notChecked).toBe(160);
});

/** Asks for two fields of a fuse, two of every wire, and for the zone of everything. */
const askingMore = defineCheck({
  ...asking,
  run({ network: { parts, project } }, report) {
    const ask = (...missing: MissingField[]): void =>
      report.notChecked({ where: [{ part: "p1" }], reason: "lacking", missing });
    for (const { part, kind } of parts) {
      ask({ part: part.id, parameter: "zone" });
      if (kind.kind === "fuse") ask({ part: part.id, parameter: "rating" }, { part: part.id, parameter: "voltageDc" });
    }
    for (const { id } of project.wires) ask({ wire: id, field: "length" }, { wire: id, field: "size" });
  },
});

test("what is read off one thing stands in one finding; what many kinds of parts lack in one of its own", () => {
  const run = runChecks(analyse(lamp().parts("fuse", {}, "F1", "F2").build()), [askingMore, dataMissing]);
  expect(run.findings.map(({ title }) => title)).toEqual([
    'Not stated of F1 and F2: "Rating", "Voltage, DC".',
    'Not stated of G20, P1, F1 and F2: "Zone".',
    'Not stated of wires W1 and W2: "Length", "Size".',
  ]);
});
